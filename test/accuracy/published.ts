/** Measurements and makers' tables that others published: the only ones here of real instruments. */
import type { AirState } from "../../server/src/acoustics/airState.js";
import type { Column, Mouth } from "../../server/src/acoustics/column.js";
import { soundingFrequencies } from "../../server/src/acoustics/resonance.js";
import { vesselSoundings } from "../../server/src/acoustics/vessel.js";
import type { Vessel } from "../../server/src/acoustics/vesselShape.js";
import { noteFromMidi } from "../../server/src/music/note.js";
import { cents, losslessAir, tube } from "../acoustics/instruments.js";
import { type ComparisonTable, inCents } from "./comparison.js";
import { roundMouth } from "./vessels.js";

/** D. H. Keefe, J. Acoust. Soc. Am. 75 (1984) 58–62, at 25 °C (slopes from memory). */
export const keefeAir: AirState = {
  soundSpeed: 346.164,
  density: 1.18419,
  viscosity: 1.83746e-5,
  heatCapacityRatio: 1.40175,
  prandtl: 0.7078,
  losses: true,
};

/** MIDI number, length from stopper to rim in inches. Left out are A4, a slip of the pen in the source, and B4, which is suspicious. */
const PAN_PIPES: readonly (readonly [number, number])[] = [
  [60, 12.312],
  [61, 11.75],
  [62, 11.062],
  [63, 10.375],
  [64, 9.906],
  [65, 9.25],
  [66, 8.75],
  [67, 8.25],
  [68, 7.75],
  [70, 6.844],
  [72, 6.0],
  [73, 5.688],
  [74, 5.375],
  [75, 5.04],
  [76, 4.725],
  [77, 4.442],
  [78, 4.178],
  [79, 3.864],
  [80, 3.628],
  [81, 3.415],
];
const INCH = 25.4;
const BORE_INCHES = 0.6;

/** @param millimetres from stopper to rim */
export const panPipe = (millimetres: number, mouth: Mouth): Column =>
  tube(millimetres, BORE_INCHES * INCH, { foot: "stopped", mouth });

const sounds = (column: Column) =>
  soundingFrequencies(column, keefeAir, [{ covers: [], register: 1 }])[0]?.frequency ?? Number.NaN;

const panPipeRows = (mouth: Mouth) =>
  PAN_PIPES.map(([midi, inches]) =>
    inCents(noteFromMidi(midi)?.name ?? "", sounds(panPipe(inches * INCH, mouth)), 440 * 2 ** ((midi - 69) / 12)),
  );

const panPipes = {
  source:
    "panflutejedi tube-length table, ½-inch tubes 0.600 inch wide, C4 to A5. A4 (an error in the source) and B4 (doubtful) are left out.",
  unit: "Hz",
  decimals: 2,
  differenceUnit: "cents",
  differenceDecimals: 1,
};

export const panPipeLength: ComparisonTable = {
  ...panPipes,
  title: "Pan pipes with one mouth correction for all",
  unknown:
    "These are a builder's target lengths, not measured pitches. The air temperature (25 °C) is assumed. The mouth correction of 9.85 mm is fitted to these same lengths, so only the scatter is evidence. Above A5 the lengths imply 12 to 14 mm.",
  rows: panPipeRows({ kind: "correction", length: 9.85e-3 }),
};

export const panPipeLip: ComparisonTable = {
  ...panPipes,
  title: "Pan pipes with the lip over 55 % of the mouth",
  unknown:
    "As above. The 55 % is chosen so that the differences average to nearly zero; no table says how much a lip covers.",
  rows: panPipeRows({ kind: "rim", cover: 0.55 }),
};

/** Air, cm³, and Hz. */
const BOTTLE: readonly (readonly [number, number])[] = [
  [100, 355],
  [125, 310],
  [150, 280],
  [175, 256],
  [200, 239],
  [225, 225],
  [250, 212],
  [275, 202],
  [300, 193],
  [325, 185],
  [350, 178],
  [375, 171],
  [400, 165],
  [425, 161],
  [450, 156],
  [475, 152],
  [500, 146],
];
/** What the data themselves say that the stated volumes are too large by. */
const BOTTLE_EXCESS_CM3 = 16.16;

function bottle(cubicCentimetres: number): Vessel {
  const R = Math.cbrt((3 * (cubicCentimetres - BOTTLE_EXCESS_CM3) * 1e-6) / (4 * Math.PI));
  return { semiAxes: [R, R, R], wall: 0.002, mouth: roundMouth(0.018, 0.058), holes: [] };
}

/** Ours shifted by the mean, for the neck is not known. */
function bottleRows() {
  const ours = BOTTLE.map(
    ([volume]) =>
      vesselSoundings(bottle(volume), losslessAir, [{ covers: [], register: 1 }])[0]?.frequency ?? Number.NaN,
  );
  const mean = BOTTLE.reduce((sum, [, hz], i) => sum + cents(ours[i] ?? Number.NaN, hz), 0) / BOTTLE.length;
  return BOTTLE.map(([volume, hz], i) => inCents(`${volume} cm³`, (ours[i] ?? Number.NaN) / 2 ** (mean / 1200), hz));
}

export const bottleTable: ComparisonTable = {
  title: "A half-litre bottle",
  source: "HyperPhysics, Waves/coke.html: frequency against the volume of air.",
  unknown:
    "The neck is not given, so our values are shifted by their mean, and the volumes are taken 16.16 cm³ smaller than stated, as the data themselves imply. The data scatter about their own best fit by 6.2 cents rms, 16.8 at most. This checks only how pitch depends on volume.",
  unit: "Hz",
  decimals: 1,
  differenceUnit: "cents",
  differenceDecimals: 1,
  rows: bottleRows(),
};

/** Of the absolute differences. */
export function medianOf({ rows }: ComparisonTable): number {
  const sorted = rows.map(({ difference }) => Math.abs(difference)).sort((a, b) => a - b);
  const half = Math.floor(sorted.length / 2);
  const upper = sorted[half] ?? Number.NaN;
  return sorted.length % 2 ? upper : (upper + (sorted[half - 1] ?? Number.NaN)) / 2;
}

export const meanOf = ({ rows }: ComparisonTable): number =>
  rows.reduce((sum, { difference }) => sum + difference, 0) / rows.length;

export const rmsOf = ({ rows }: ComparisonTable): number =>
  Math.hypot(...rows.map(({ difference }) => difference)) / Math.sqrt(rows.length);
