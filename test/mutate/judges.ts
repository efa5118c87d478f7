/** Which tests judge the mutants of a folder of server/src: its own and those that stand closest to it, by folders and files. */
export const JUDGES: Readonly<Record<string, readonly string[]>> = {
  acoustics: ["test/acoustics", "test/accuracy", "test/design/predict", "test/design/scale"],
  music: ["test/music", "test/instrument", "test/design/create"],
  // Not of test/language, for the time its coverage takes.
  instrument: [
    "test/instrument",
    "test/schemas",
    "test/design/rules",
    "test/design/outline",
    "test/design/holeShapes.test.ts",
    "test/design/making/findings.test.ts",
    "test/design/notch.test.ts",
    "test/design/panpipe.test.ts",
    "test/design/vessel.test.ts",
  ],
  design: [
    "test/design",
    "test/make",
    "test/survey",
    "test/language",
    "test/server",
    "test/review",
    "test/escape",
    "test/docs/languageFeatures.test.ts",
  ],
};
