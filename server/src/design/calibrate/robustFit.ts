/** The unknowns' values that bring a design nearest to its measured notes, wherever single notes may be wrong. */
import { constrainedLeastSquares } from "../refit/constrainedLeastSquares.js";
import { NO_NOTE } from "./prints.js";
import type { SharedUnknown } from "./unknowns.js";

export interface Fit {
  readonly unknowns: readonly SharedUnknown[];
  readonly values: readonly number[];
  readonly residuals: readonly number[];
  /** Root of the weighted sum of squares over the degrees of freedom, cents. */
  readonly perFreedom: number;
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

/**
 * Each note by 1/(u² + 6²), and an outlier less, so that a wrong fingering or a cold first note pulls little.
 * @param uncertainties of each measured note, u, cents
 * @param residualsWith cents by which each measured note lies above the trial's
 */
export function robustFit(
  unknowns: readonly SharedUnknown[],
  uncertainties: readonly number[],
  residualsWith: Residuals,
): Fit {
  const scales = uncertainties.map((each) => Math.hypot(each, MOUTH_SCATTER));
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
  unknowns: readonly SharedUnknown[],
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
  { decimals }: SharedUnknown,
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
