/** The designs the cases work on: examples, as the maker gets them. */

const EXAMPLES = new URL("../../examples/", import.meta.url);

const named = (name) => ({ name, original: new URL(name, EXAMPLES), files: { [name]: new URL(name, EXAMPLES) } });

/** Every note within its tolerance; all of it on the first screen, or nearly. */
export const IN_TUNE = named("quay-whistle.bore.yaml");
/** At least one hole that a move or another size puts right. */
export const OUT_OF_TUNE = named("gull-first-print.bore.yaml");
export const IN_JSON = named("pier-notch-flute.bore.json");

/** The first character of the first fingering's pattern. */
export const FIRST_PATTERN = { needle: /[●x]/, from: "fingerings" };
