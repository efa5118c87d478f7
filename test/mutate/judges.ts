/** Which tests judge the mutants of a folder of server/src: its own and those that stand closest to it. */
export const JUDGES: Readonly<Record<string, readonly string[]>> = {
  acoustics: ["test/acoustics", "test/accuracy", "test/design/predict", "test/design/scale"],
  music: ["test/music", "test/instrument", "test/design/create"],
  instrument: ["test/instrument", "test/schemas", "test/design/rules", "test/language"],
  design: ["test/design", "test/language"],
};
