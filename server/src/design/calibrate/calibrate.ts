/** The mouth, and only then the air, the shrinkage or the holes' undersize, fitted to measured notes. */

import { airState } from "../../acoustics/air.js";
import { soundingOf } from "../../acoustics/answer.js";
import { mouthEnd } from "../../acoustics/mouth.js";
import { drained, type Steps } from "../../acoustics/steps.js";
import { columnsOf, isDescribed } from "../../instrument/body.js";
import type { Path } from "../../instrument/finding.js";
import type { Resolution } from "../../instrument/model.js";
import { centsAbove } from "../../music/cents.js";
import { t } from "../../words/translation.js";
import type { Analysis } from "../predict/analysis.js";
import { bodySteps } from "../predict/body.js";
import { orNoneSteps } from "../predict/orNone.js";
import { constrainedLeastSquares } from "../refit/constrainedLeastSquares.js";
import { calibrationWords } from "./bodyWords.js";
import { type MeasuredQuery, measuredQuerySteps } from "./measuredQueries.js";
import { stepwise } from "./stepwise.js";
import {
  type CalibratedQuantity,
  type CalibrationUnknown,
  mouthUnknown,
  secondUnknowns,
  type Trial,
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
  /** The fit of the mouth and the air's temperature together, where that explains the notes better and was not asked for. */
  readonly withAir?: Calibration;
}

export interface CalibrateOptions {
  /** Whether the air's temperature may be fitted, too, where no measured note states one. */
  readonly fitAir?: boolean;
}

/** There is nothing to fit, or nothing to fit it to. The message says what to do. */
export class CannotCalibrate extends Error {}

/** Fewer notes cannot tell a wrong mouth from wrong air. */
const FEWEST_FOR_TWO = 3;
/** Cents, root mean square for each degree of freedom: what trained listeners notice, and about what measuring by ear can do. */
const GOOD_ENOUGH = 5;
/** A second unknown must leave less than this share of what the first left. */
const WORTH_A_SECOND = 0.7;
/** A note the trial instrument does not have: far from any note, so that the solver turns back. Cents. */
const NO_NOTE = 1e4;

/** @throws CannotCalibrate */
export function calibrate(resolution: Resolution, analysis: Analysis, options: CalibrateOptions = {}): Calibration {
  return drained(calibrationSteps(resolution, analysis, options));
}

/** As `calibrate`, step by step. @throws CannotCalibrate */
export function* calibrationSteps(
  resolution: Resolution,
  analysis: Analysis,
  { fitAir = false }: CalibrateOptions = {},
): Steps<Calibration> {
  const { body, measured } = analysis.instrument;
  if (!isDescribed(body)) throw new CannotCalibrate(t("the instrument cannot be predicted yet."));
  if (measured.length === 0)
    throw new CannotCalibrate(
      t(
        "there are no measured notes (those set aside are of an earlier print): list some, `measured: [{ note: G4, hz: 389.4 }]`.",
      ),
    );
  const mouth = mouthUnknown(analysis);
  if (mouth === undefined)
    throw new CannotCalibrate(t("`mouth: ideal` is the textbook's and fits no instrument: describe the mouth first."));
  const problem = yield* problemOf(analysis);
  if (problem.queries.length === 0) throw new CannotCalibrate(calibrationWords(body).noneUsable());
  const first = yield* solve(problem, [mouth]);
  const seconds = needsSecond(first, resolution) ? secondUnknowns(analysis, shrinkageOf(resolution)) : [];
  let both: Fit | undefined;
  for (const second of seconds) {
    const fit = yield* solve(problem, [mouth, second]);
    if (inside(fit) && fit.perFreedom < (both?.perFreedom ?? WORTH_A_SECOND * first.perFreedom)) both = fit;
  }
  // A thermometer is easily forgotten, and as easily blamed for what a mouth or a bad note does: the maker decides.
  const asksForAir = both?.unknowns[1]?.quantity === "temperature" && !fitAir;
  const best = both !== undefined && !asksForAir ? both : first;
  if (best.residuals.includes(NO_NOTE))
    throw new CannotCalibrate(
      t(
        "no mouth brings this design near the measured notes: check that each is of this instrument and in the right octave.",
      ),
    );
  const before = (yield* residualsOf(problem, problem.start)) ?? [];
  const calibration = calibrationOf(problem, best, before);
  return asksForAir && both !== undefined
    ? { ...calibration, withAir: calibrationOf(problem, both, before) }
    : calibration;
}

interface Problem {
  readonly analysis: Analysis;
  readonly start: Trial;
  readonly queries: readonly MeasuredQuery[];
  readonly unused: readonly Path[];
}

interface Fit {
  readonly unknowns: readonly CalibrationUnknown[];
  readonly values: readonly number[];
  readonly residuals: readonly number[];
  /** Root of the weighted sum of squares over the degrees of freedom, cents. */
  readonly perFreedom: number;
}

function* problemOf(analysis: Analysis): Steps<Problem> {
  const all = yield* measuredQuerySteps(analysis);
  const start = { body: analysis.instrument.body, temperature: analysis.temperature };
  const known = all.filter((query) => query !== undefined);
  const sounds = yield* predictions(analysis, known, start);
  const queries = known.filter((_, i) => sounds[i] !== undefined);
  const used = new Set(queries.map(({ measured }) => measured));
  const unused = analysis.instrument.measured.filter((note) => !used.has(note)).map(({ path }) => path);
  return { analysis, start, queries, unused };
}

/** Hz of each measured note in a trial instrument, each in its own air. */
function* predictions(
  { instrument }: Analysis,
  queries: readonly MeasuredQuery[],
  { body, temperature }: Trial,
): Steps<readonly (number | undefined)[]> {
  const found: (number | undefined)[] = queries.map(() => undefined);
  const degrees = queries.map(({ measured }) => measured.temperature ?? temperature);
  for (const degree of new Set(degrees)) {
    const own = queries.map((_, i) => i).filter((i) => degrees[i] === degree);
    const air = airState({ ...instrument.air, temperature: degree });
    const answers = yield* bodySteps(
      body,
      air,
      own.map((i) => queries[i] as MeasuredQuery),
    );
    own.forEach((i, n) => {
      const answer = answers[n];
      found[i] = answer && soundingOf(answer)?.frequency;
    });
  }
  return found;
}

/** Cents by which each measured note lies above the trial's; undefined where the trial is not an instrument. */
function residualsOf({ analysis, queries }: Problem, trial: Trial): Steps<readonly number[] | undefined> {
  return orNoneSteps(function* () {
    // A pipe that nobody measured must have a mouth left, too.
    for (const column of columnsOf(trial.body)) mouthEnd(column);
    const sounds = yield* predictions(analysis, queries, trial);
    return sounds.map((hz, i) => (hz === undefined ? NO_NOTE : centsAbove((queries[i] as MeasuredQuery).evenHz, hz)));
  });
}

function trialOf({ start }: Problem, unknowns: readonly CalibrationUnknown[], values: readonly number[]): Trial {
  return unknowns.reduce((trial, unknown, i) => unknown.apply(trial, values[i] ?? unknown.before), start);
}

function solve(problem: Problem, unknowns: readonly CalibrationUnknown[]): Steps<Fit> {
  const scales = problem.queries.map(({ measured }) => Math.hypot(measured.uncertainty, MOUTH_SCATTER));
  return stepwise(
    (residualsWith: Residuals) => robustFit(unknowns, scales, residualsWith),
    function* (values) {
      const residuals = yield* residualsOf(problem, trialOf(problem, unknowns, values));
      return residuals ?? problem.queries.map(() => NO_NOTE);
    },
  );
}

/** By the unknowns' values. */
type Residuals = (values: readonly number[]) => readonly number[];

/** Cents that a fitted mouth leaves from note to note, however well they were measured. Our own estimate, from calibrations of examples. */
const MOUTH_SCATTER = 6;
/** Residuals beyond this many deviations count as their root only (Huber 1964: 1.5 loses a few percent on normal ones; from memory). */
const HUBER = 1.5;
/** Fits after which weights no longer change. */
const REWEIGHTS = 6;
const SETTLED = 0.01;

/** Each note by 1/(u² + 6²), and an outlier less, so that a wrong fingering or a cold first note pulls little. */
function robustFit(unknowns: readonly CalibrationUnknown[], scales: readonly number[], residualsWith: Residuals): Fit {
  let weights = scales.map(() => 1);
  let fit = fitWith(unknowns, scales, weights, residualsWith);
  for (let round = 0; round < REWEIGHTS; round++) {
    // A note that the trial does not sound turns the solver back with its whole weight.
    const next = fit.residuals.map((cents, i) =>
      cents === NO_NOTE ? 1 : Math.min(1, HUBER / Math.max(Math.abs(cents) / (scales[i] ?? 1), Number.EPSILON)),
    );
    if (next.every((weight, i) => Math.abs(weight - (weights[i] ?? 1)) < SETTLED)) break;
    weights = next;
    fit = fitWith(unknowns, scales, weights, residualsWith);
  }
  return fit;
}

function fitWith(
  unknowns: readonly CalibrationUnknown[],
  scales: readonly number[],
  weights: readonly number[],
  residualsWith: Residuals,
): Fit {
  const factor = (i: number) => Math.sqrt(weights[i] ?? 1) / (scales[i] ?? 1);
  const weighed = (values: readonly number[]) => residualsWith(values).map((cents, i) => cents * factor(i));
  const { x } = constrainedLeastSquares({
    start: unknowns.map(({ before }) => before),
    evaluate: (values) => ({
      residuals: weighed(values),
      jacobian: () => transposed(unknowns.map((unknown, i) => slopesBy(unknown, i, values, weighed))),
    }),
    prior: unknowns.map(() => ({ value: 0, weight: 0 })),
    inequalities: unknowns.flatMap(({ least, greatest }, i) => [
      { row: new Map([[i, 1]]), least },
      { row: new Map([[i, -1]]), least: -greatest },
    ]),
    mostSteps: MOST_STEPS,
    leastGain: LEAST_GAIN,
  });
  const values = unknowns.map(({ decimals, before }, i) => Number((x[i] ?? before).toFixed(decimals)));
  const residuals = residualsWith(values);
  return { unknowns, values, residuals, perFreedom: perFreedomOf(residuals, factor, unknowns.length) };
}

/** Weighted root mean square per degree of freedom, cents. */
function perFreedomOf(residuals: readonly number[], factor: (i: number) => number, unknowns: number): number {
  const total = residuals.reduce((sum, _, i) => sum + factor(i) ** 2, 0);
  const squares = residuals.reduce((sum, cents, i) => sum + (cents * factor(i)) ** 2, 0);
  const freedom = Math.max(1, residuals.length - unknowns);
  return Math.sqrt(((squares / total) * residuals.length) / freedom);
}

/** The problem is nearly linear in every unknown: a few steps are enough. */
const MOST_STEPS = 20;
/** Share of the sum of squares below which another step's gain is not worth it. */
const LEAST_GAIN = 1e-6;

/** Change of each residual for one more of unknown `i`, by central differences of one unit of its last decimal. */
function slopesBy(
  { decimals }: CalibrationUnknown,
  i: number,
  values: readonly number[],
  residualsWith: Residuals,
): readonly number[] {
  const unit = 10 ** -decimals;
  const [more, less] = [1, -1].map((sign) =>
    residualsWith(values.map((value, j) => (j === i ? value + sign * unit : value))),
  );
  return (more ?? []).map((value, note) => (value - (less?.[note] ?? value)) / (2 * unit));
}

function transposed(rows: readonly (readonly number[])[]): number[][] {
  return (rows[0] ?? []).map((_, i) => rows.map((row) => row[i] ?? 0));
}

/** A second unknown must not be fitted to the scatter of measuring. */
function needsSecond({ residuals, perFreedom }: Fit, { numbers }: Resolution): boolean {
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

function shrinkageOf({ numbers }: Resolution): number {
  return numbers.find(({ path }) => path[0] === "print" && path[1] === "shrinkage")?.value ?? 0;
}

/** @param before residuals of the design as it is */
function calibrationOf(problem: Problem, { unknowns, values, residuals }: Fit, before: readonly number[]): Calibration {
  const rms = (cents: readonly number[]) => Math.hypot(...cents) / Math.sqrt(cents.length);
  return {
    fitted: unknowns.map(({ quantity, path, before: old, decimals }, i) => ({
      quantity,
      path,
      before: Number(old.toFixed(decimals)),
      after: values[i] ?? old,
      decimals,
    })),
    notes: problem.queries.map(({ measured }, i) => ({
      path: measured.path,
      name: measured.note.name,
      hz: measured.hz,
      beforeCents: before[i] ?? Number.NaN,
      residualCents: residuals[i] ?? Number.NaN,
    })),
    unused: problem.unused,
    rmsBeforeCents: rms(before),
    rmsResidualCents: rms(residuals),
  };
}
