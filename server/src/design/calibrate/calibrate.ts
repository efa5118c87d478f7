/** The mouth, and only then the air, the shrinkage or the holes' undersize, fitted to measured notes. */

import { drained, type Steps } from "../../acoustics/steps.js";
import { isDescribed } from "../../instrument/body.js";
import type { Path } from "../../instrument/finding.js";
import type { Resolution } from "../../instrument/model.js";
import { t } from "../../words/translation.js";
import type { Analysis } from "../predict/analysis.js";
import { calibrationWords } from "./bodyWords.js";
import { type MeasuredPrint, measuredPrintSteps, NO_NOTE, residualsOf } from "./prints.js";
import { type Fit, robustFit } from "./robustFit.js";
import { stepwise } from "./stepwise.js";
import {
  type CalibratedQuantity,
  mouthUnknown,
  type SharedUnknown,
  secondUnknowns,
  sharedUnknown,
} from "./unknowns.js";

export interface FittedValue {
  readonly quantity: CalibratedQuantity;
  readonly path: Path;
  /** In the file's own unit, °C or percent, rounded as it is written. */
  readonly before: number;
  readonly after: number;
  readonly decimals: number;
}

export interface CalibratedNote {
  readonly path: Path;
  readonly name: string;
  readonly hz: number;
  /** How far the measured note lies above the prediction, cents: of the design as it is, and once calibrated. */
  readonly beforeCents: number;
  readonly residualCents: number;
}

export interface Calibration {
  readonly fitted: readonly FittedValue[];
  readonly notes: readonly CalibratedNote[];
  /** Measured notes that the design has no fingering or pipe for, or that it does not sound. */
  readonly unused: readonly Path[];
  readonly rmsBeforeCents: number;
  readonly rmsResidualCents: number;
  /** The notes of earlier prints, as far as they were used. */
  readonly earlier?: { readonly prints: number; readonly notes: number; readonly rmsResidualCents: number };
  /** The fit of the mouth and the air's temperature together, where that explains the notes better and was not asked for. */
  readonly withAir?: Calibration;
}

export interface CalibrateOptions {
  /** Whether the air's temperature may be fitted, too, where no measured note states one. */
  readonly fitAir?: boolean;
  /** Earlier prints by the same printer for the same player, each as it was drawn and measured: what one print scatters evens out. */
  readonly earlier?: readonly PrintedDesign[];
}

export interface PrintedDesign {
  readonly resolution: Resolution;
  readonly analysis: Analysis;
}

/** There is nothing to fit, or nothing to fit it to. The message says what to do. */
export class CannotCalibrate extends Error {}

/** Fewer notes cannot tell a wrong mouth from wrong air. */
const FEWEST_FOR_TWO = 3;
/** Cents, root mean square for each degree of freedom: what trained listeners notice, and about what measuring by ear can do. */
const GOOD_ENOUGH = 5;
/** A second unknown must leave less than this share of what the first left. */
const WORTH_A_SECOND = 0.7;
/** @throws CannotCalibrate */
export function calibrate(resolution: Resolution, analysis: Analysis, options: CalibrateOptions = {}): Calibration {
  return drained(calibrationSteps(resolution, analysis, options));
}

/** As `calibrate`, step by step. @throws CannotCalibrate */
export function* calibrationSteps(
  resolution: Resolution,
  analysis: Analysis,
  { fitAir = false, earlier = [] }: CalibrateOptions = {},
): Steps<Calibration> {
  const { body, measured } = analysis.instrument;
  if (!isDescribed(body)) throw new CannotCalibrate(t("the instrument cannot be predicted yet."));
  if (measured.length === 0)
    throw new CannotCalibrate(
      t(
        "there are no measured notes (those set aside are of an earlier print): list some, `measured: [{ note: G4, hz: 389.4 }]`.",
      ),
    );
  const ownMouth = mouthUnknown(analysis);
  if (ownMouth === undefined)
    throw new CannotCalibrate(
      t("`mouth: ideal` is a textbook's open end and fits no instrument: describe the mouth first."),
    );
  const mouth = sharedUnknown(
    ownMouth,
    earlier.map((print) => mouthUnknown(print.analysis)),
  );
  if (mouth === undefined)
    throw new CannotCalibrate(t("an earlier print has another kind of mouth: leave it out, or describe it alike."));
  const print = yield* measuredPrintSteps(analysis);
  if (print.queries.length === 0) throw new CannotCalibrate(calibrationWords(body).noneUsable());
  const prints = [print];
  for (const each of earlier) prints.push(yield* measuredPrintSteps(each.analysis));
  const first = yield* solve(prints, [mouth]);
  const all = [{ resolution, analysis }, ...earlier];
  let both: Fit | undefined;
  for (const second of needsSecond(first, all) ? sharedSeconds(all) : []) {
    const fit = yield* solve(prints, [mouth, second]);
    if (inside(fit) && fit.perFreedom < (both?.perFreedom ?? WORTH_A_SECOND * first.perFreedom)) both = fit;
  }
  // A thermometer is easily forgotten, and as easily blamed for what a mouth or a bad note does: the maker decides.
  const asksForAir = both?.unknowns[1]?.quantity === "temperature" && !fitAir;
  const best = both !== undefined && !asksForAir ? both : first;
  if (best.residuals.includes(NO_NOTE))
    throw new CannotCalibrate(
      t(
        "no mouth brings this design close to the measured notes: check that each is of this instrument and in the right octave.",
      ),
    );
  const before = (yield* residualsOf(print, print.start)) ?? [];
  const calibration = calibrationOf(prints, best, before);
  return asksForAir && both !== undefined
    ? { ...calibration, withAir: calibrationOf(prints, both, before) }
    : calibration;
}

/** What else may be wrong, alike in all prints. The air is of its day: of several prints it is not fitted. */
function sharedSeconds([own, ...earlier]: readonly PrintedDesign[]): readonly SharedUnknown[] {
  const secondsOf = ({ resolution, analysis }: PrintedDesign) => secondUnknowns(analysis, shrinkageOf(resolution));
  const others = earlier.map(secondsOf);
  return (own === undefined ? [] : secondsOf(own))
    .filter(({ quantity }) => quantity !== "temperature" || earlier.length === 0)
    .flatMap((unknown) => {
      const same = others.map((each) => each.find(({ quantity }) => quantity === unknown.quantity));
      return sharedUnknown(unknown, same) ?? [];
    });
}

/** Fitted to the notes of all prints, one print's after another's. */
function solve(prints: readonly MeasuredPrint[], unknowns: readonly SharedUnknown[]): Steps<Fit> {
  const uncertainties = prints.flatMap(({ queries }) => queries.map(({ measured }) => measured.uncertainty));
  return stepwise(
    (residualsWith: (values: readonly number[]) => readonly number[]) =>
      robustFit(unknowns, uncertainties, residualsWith),
    function* (values) {
      const found: number[] = [];
      for (const [i, print] of prints.entries()) {
        const trial = unknowns.reduce(
          (made, { applyIn, before }, k) => applyIn[i]?.(made, values[k] ?? before) ?? made,
          print.start,
        );
        found.push(...((yield* residualsOf(print, trial)) ?? print.queries.map(() => NO_NOTE)));
      }
      return found;
    },
  );
}

/** A second unknown must not be fitted to the scatter of measuring. */
function needsSecond({ residuals, perFreedom }: Fit, prints: readonly PrintedDesign[]): boolean {
  const numbers = prints.flatMap(({ resolution }) => resolution.numbers);
  const stated = numbers.flatMap(({ path, value }) =>
    path[0] === "measured" && path[2] === "uncertainty" ? [value] : [],
  );
  const scatter = stated.length === 0 ? 0 : Math.hypot(...stated) / Math.sqrt(stated.length);
  return residuals.length >= FEWEST_FOR_TWO && perFreedom > Math.max(GOOD_ENOUGH, scatter);
}

/** A value at the end of its range has not been found but stopped. */
function inside({ unknowns, values }: Fit): boolean {
  return unknowns.every(({ least, greatest, decimals }, i) => {
    const value = values[i] ?? Number.NaN;
    return value > least + 10 ** -decimals && value < greatest - 10 ** -decimals;
  });
}

function shrinkageOf({ draft }: Resolution): number {
  return draft.numbers.at(["print", "shrinkage"]) ?? 0;
}

/** @param prints the first is the one that is calibrated; `before` its residuals as it is */
function calibrationOf(
  [print, ...earlier]: readonly MeasuredPrint[],
  { unknowns, values, residuals }: Fit,
  before: readonly number[],
): Calibration {
  const queries = print?.queries ?? [];
  const others = residuals.slice(queries.length);
  const rms = (cents: readonly number[]) => Math.hypot(...cents) / Math.sqrt(cents.length);
  return {
    fitted: unknowns.map(({ quantity, path, before: old, decimals }, i) => ({
      quantity,
      path,
      before: Number(old.toFixed(decimals)),
      after: values[i] ?? old,
      decimals,
    })),
    notes: queries.map(({ measured }, i) => ({
      path: measured.path,
      name: measured.note.name,
      hz: measured.hz,
      beforeCents: before[i] ?? Number.NaN,
      residualCents: residuals[i] ?? Number.NaN,
    })),
    unused: print?.unused ?? [],
    rmsBeforeCents: rms(before),
    rmsResidualCents: rms(residuals.slice(0, queries.length)),
    ...(others.length > 0 && {
      earlier: { prints: earlier.length, notes: others.length, rmsResidualCents: rms(others) },
    }),
  };
}
