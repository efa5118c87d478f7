/** The designs the cases work on: examples, as the maker gets them. */

const EXAMPLES = new URL("../../examples/", import.meta.url);

const named = (name) => ({ name, files: { [name]: new URL(name, EXAMPLES) } });

/** YAML with parameters; every note within its tolerance. */
export const IN_TUNE = named("quay-whistle.bore.yaml");
/** YAML; at least one hole that a move puts right. */
export const OUT_OF_TUNE = named("gull-first-print.bore.yaml");
export const IN_JSON = named("pier-notch-flute.bore.json");
