import { parseNote } from "../../server/src/music/note.js";
import { TEMPERAMENT_NAMES, type TemperamentName, temperamentCents } from "../../server/src/music/temperament.js";
import { frequencyOf, ISO_16_HZ } from "../../server/src/music/tuning.js";
import { apart, type ComparisonTable, inCents } from "./comparison.js";

const NOTES = ["C", "C♯", "D", "E♭", "E", "F", "F♯", "G", "G♯", "A", "B♭", "B"];

/** Cents above C. */
export const TEMPERAMENT_ROWS: Readonly<Record<TemperamentName, readonly number[]>> = {
  equal: [0, 100, 200, 300, 400, 500, 600, 700, 800, 900, 1000, 1100],
  pythagorean: [0, 113.685, 203.91, 294.135, 407.82, 498.045, 611.73, 701.955, 815.64, 905.865, 996.09, 1109.775],
  meantone: [0, 76.049, 193.157, 310.265, 386.314, 503.422, 579.471, 696.578, 772.627, 889.735, 1006.843, 1082.892],
  "werckmeister-3": [0, 90.225, 192.18, 294.135, 390.225, 498.045, 588.27, 696.09, 792.18, 888.27, 996.09, 1092.18],
  "kirnberger-3": [0, 90.225, 193.157, 294.135, 386.314, 498.045, 590.224, 696.578, 792.18, 889.735, 996.09, 1088.269],
  vallotti: [0, 94.135, 196.09, 298.045, 392.18, 501.955, 592.18, 698.045, 796.09, 894.135, 1000, 1090.225],
  just: [0, 111.731, 203.91, 315.641, 386.314, 498.045, 590.224, 701.955, 813.686, 884.359, 1017.596, 1088.269],
};

/** Deviations from equal temperament with A = 0. */
const DEVIATIONS = {
  "kirnberger-3": [10.27, 0.49, 3.42, 4.4, -3.42, 8.31, 0.49, 6.84, 2.44, 0, 6.36, -1.47],
  vallotti: [5.87, 0, 1.96, 3.91, -1.96, 7.82, -1.96, 3.91, 1.96, 0, 5.87, -3.91],
} as const;

const EQUAL_HZ: readonly (readonly [string, number])[] = [
  ["C4", 261.6256],
  ["D4", 293.6648],
  ["E4", 329.6276],
  ["F4", 349.2282],
  ["G4", 391.9954],
  ["A4", 440],
  ["B4", 493.8833],
  ["C5", 523.2511],
  ["D5", 587.3295],
  ["G5", 783.9909],
  ["A5", 880],
];

const inCentsOfC = { unit: "cents", differenceUnit: "cents" };

export const tuningTables: readonly ComparisonTable[] = [
  {
    title: "Notes in equal temperament",
    source: "ISO 16:1975 for A4 = 440 Hz; the other notes as any table of note frequencies gives them.",
    unknown: "None: this is a definition. ISO 16 allows ±0.5 Hz, 2 cents (from memory).",
    unit: "Hz",
    decimals: 4,
    differenceUnit: "cents",
    differenceDecimals: 4,
    rows: EQUAL_HZ.map(([name, theirs]) => {
      const note = parseNote(name);
      const tuning = { cents: temperamentCents("equal"), root: 0, pitchStandard: ISO_16_HZ };
      // Printed to 0.0001 Hz.
      return inCents(name, note ? frequencyOf(note, tuning) : Number.NaN, theirs, 5e-4);
    }),
  },
  {
    ...inCentsOfC,
    title: "Temperaments, cents above C",
    source:
      "Definitions, evaluated by an independent script; Werckmeister III agrees with tonalsoft's encyclopedia for C♯, F♯ and G♯.",
    unknown: "The names have several meanings. Here meantone is quarter-comma from E♭ to G♯, and just has 9/5 for B♭.",
    decimals: 3,
    differenceDecimals: 4,
    rows: TEMPERAMENT_NAMES.flatMap((name) =>
      temperamentCents(name).map((ours, i) =>
        apart(`${name}, ${NOTES[i]}`, ours, TEMPERAMENT_ROWS[name][i] ?? Number.NaN, 0.001),
      ),
    ),
  },
  {
    ...inCentsOfC,
    title: "Temperaments, deviation from equal temperament with A = 0",
    source: "A published table of deviations, printed to 0.01 cent.",
    unknown: "Only the printed figures are known.",
    decimals: 2,
    differenceDecimals: 3,
    rows: (["kirnberger-3", "vallotti"] as const).flatMap((name) => {
      const row = temperamentCents(name);
      return row.map((ours, i) =>
        apart(`${name}, ${NOTES[i]}`, ours - 100 * i - ((row[9] ?? 0) - 900), DEVIATIONS[name][i] ?? Number.NaN, 0.011),
      );
    }),
  },
];
