/** What measured notes may change in a design: the mouth first, and one thing more where it alone does not explain them. */
import type { Body } from "../../instrument/body.js";
import type { Path } from "../../instrument/finding.js";
import type { Analysis } from "../predict/analysis.js";
import { scaledBody, undersizedBody } from "../predict/body.js";
import { mouthLength, mouthLengthPath, mouthOf, withMouthLengths } from "../predict/mouthKnob.js";
import { AIR_TEMPERATURE } from "../predict/sensitivity.js";

export type CalibratedQuantity = "mouth" | "temperature" | "shrinkage" | "undersize";

/** The instrument as it would be: its body, and the temperature of notes that state none, °C. */
export interface Trial {
  readonly body: Body;
  readonly temperature: number;
}

/** Values in the file's own unit. */
export interface CalibrationUnknown {
  readonly quantity: CalibratedQuantity;
  readonly path: Path;
  readonly before: number;
  readonly least: number;
  readonly greatest: number;
  /** The value's unit in SI units, or 1. */
  readonly unit: number;
  /** Decimals to which it is written. */
  readonly decimals: number;
  readonly apply: (trial: Trial, value: number) => Trial;
}

/** The same unknown of several prints by one printer for one player, in the file's own unit of the first. */
export interface SharedUnknown extends CalibrationUnknown {
  /** As `apply`, of each print. */
  readonly applyIn: readonly CalibrationUnknown["apply"][];
}

/** Undefined where one of the others has no such unknown. */
export function sharedUnknown(
  own: CalibrationUnknown,
  others: readonly (CalibrationUnknown | undefined)[],
): SharedUnknown | undefined {
  if (others.some((other) => other?.path.join() !== own.path.join())) return undefined;
  const inOthers = others.flatMap((other) =>
    other === undefined ? [] : [(trial: Trial, value: number) => other.apply(trial, (value * own.unit) / other.unit)],
  );
  return { ...own, applyIn: [own.apply, ...inOthers] };
}

/** m: a mouth farther off than this means another instrument, not a wrong measurement. */
const LONGEST_EXTRA = 0.06;
const LONGEST_CORRECTION = 0.2;
/** A hundredth of a millimetre, or as fine in inches: far below what measuring can resolve. */
const DECIMALS = { millimetres: 2, inches: 4, temperature: 1, percent: 2 } as const;
/** °C: how far off a guessed temperature may be. Common practice, no source. */
const TEMPERATURE_REACH = 12;
/** m: a hole comes out no wider than drawn as a rule, and never so much narrower. Common practice, no source. */
const MOST_UNDERSIZE = 0.001;
/** Percent: what filaments do (PLA 0.1 to 0.3, PETG 0.2 to 0.4 by practical guides), and slack for a slicer's own scaling. */
const SHRINKAGE_RANGE = [-1, 2] as const;

/** The mouth's own length, of a pan pipe that of all pipes alike: the same lips blow them. Undefined for the textbook's mouth. */
export function mouthUnknown({ instrument }: Analysis): CalibrationUnknown | undefined {
  const mouth = mouthOf(instrument.body);
  const path = mouth && mouthLengthPath(mouth);
  if (mouth === undefined || path === undefined) return undefined;
  const { printedUnit, unitMillimetres } = instrument;
  const correction = mouth.kind === "correction";
  return {
    quantity: "mouth",
    path,
    before: mouthLength(mouth) / printedUnit,
    least: correction ? 0 : -LONGEST_EXTRA / printedUnit,
    greatest: (correction ? LONGEST_CORRECTION : LONGEST_EXTRA) / printedUnit,
    unit: printedUnit,
    decimals: unitMillimetres === 1 ? DECIMALS.millimetres : DECIMALS.inches,
    apply: (trial, value) => ({ ...trial, body: withMouthLengths(trial.body, () => value * printedUnit) }),
  };
}

/**
 * What else may be wrong, any one of these: the air's temperature where no measured note states one, else how much the print shrank, which both
 * move all notes alike; and how much smaller its holes came out, which moves a note the more, the more of them are open.
 */
export function secondUnknowns(analysis: Analysis, shrinkage: number): readonly CalibrationUnknown[] {
  return [...alikeUnknown(analysis, shrinkage), ...undersizeUnknown(analysis)];
}

function alikeUnknown({ instrument, temperature }: Analysis, shrinkage: number): readonly CalibrationUnknown[] {
  if (instrument.measured.every((note) => note.temperature === undefined)) {
    if (instrument.airPreset !== undefined || instrument.air.soundSpeed !== undefined) return [];
    return [
      {
        quantity: "temperature",
        path: AIR_TEMPERATURE,
        before: temperature,
        least: temperature - TEMPERATURE_REACH,
        greatest: temperature + TEMPERATURE_REACH,
        unit: 1,
        decimals: DECIMALS.temperature,
        apply: (trial, value) => ({ ...trial, temperature: value }),
      },
    ];
  }
  const [least, greatest] = SHRINKAGE_RANGE;
  return [
    {
      quantity: "shrinkage",
      path: ["print", "shrinkage"],
      before: shrinkage,
      least,
      greatest,
      unit: 1,
      decimals: DECIMALS.percent,
      apply: (trial, value) => ({ ...trial, body: scaledBody(trial.body, (100 - value) / (100 - shrinkage)) }),
    },
  ];
}

/** As a printer does it to every hole alike. */
function undersizeUnknown({ instrument }: Analysis): readonly CalibrationUnknown[] {
  const { holes, holeUndersize, unitMillimetres } = instrument;
  if (holes.length === 0) return [];
  const unit = unitMillimetres / 1000;
  return [
    {
      quantity: "undersize",
      path: ["print", "holeUndersize"],
      before: holeUndersize / unit,
      least: 0,
      greatest: MOST_UNDERSIZE / unit,
      unit,
      decimals: unitMillimetres === 1 ? DECIMALS.millimetres : DECIMALS.inches,
      apply: (trial, value) => ({ ...trial, body: undersizedBody(trial.body, value * unit - holeUndersize) }),
    },
  ];
}
