/** The numerical heart of a refit: dimensions by which every fingering comes nearest to its target, within the limits. */

import type { Column } from "../../acoustics/column.js";
import { type Query, soundingFrequencies } from "../../acoustics/resonance.js";
import { type Knob, LENGTH_STEP, sensitivities } from "../../acoustics/sensitivity.js";
import { centsAbove } from "../../music/cents.js";
import type { Analysis } from "../analysis.js";
import { constrainedLeastSquares } from "./constrainedLeastSquares.js";
import type { Limit } from "./limit.js";
import { type Unknown, valueIn, withValue } from "./unknowns.js";

export interface FitProblem {
  readonly analysis: Analysis;
  readonly column: Column;
  readonly unknowns: readonly Unknown[];
  readonly limits: readonly Limit[];
  /** Hz, one for each fingering of the analysis; undefined ones do not count. */
  readonly targets: readonly (number | undefined)[];
  readonly shouldStop?: () => boolean;
  /** What a cent of each counting fingering weighs; all alike by default. */
  readonly weights?: readonly number[];
  /** Trial steps at most from each start. */
  readonly mostSteps: number;
}

export interface Fit {
  /** Millimetres, by unknown. */
  readonly x: readonly number[];
  /** Deviations of the fingerings that count, cents. */
  readonly cents: readonly number[];
  readonly cost: number;
  readonly multipliers: readonly number[];
}

const MM = 1e-3;
/**
 * What a millimetre of change costs beside cents missed: small, so that tuning wins, yet enough that what need not move stays.
 * Our own choice; places cost less than sizes, as a maker would have it.
 */
const WISH: Record<Unknown["kind"], number> = {
  "hole-place": 0.004,
  "hole-radius": 0.08,
  "station-place": 0.001,
  "station-radius": 0.08,
  stopper: 0.03,
};
/** How much more the wish weighs at first, so that small needs make small moves. */
const FIRMNESS = [12, 2, 1] as const;
/** Steps for each firmness: the first rounds only lead the way. */
const LEADING_STEPS = 7;
const LEAST_FIRM = 1;
/** Good enough that no other start is tried: worst deviation, cents. */
const GOOD = 1.5;
/** Two starts that end within this share of each other's cost have found the same place. */
const SAME = 0.03;

/**
 * The best fit: from the first start with a firm wish to change little, then less and less firmly until the notes are good,
 * and only then from the other starts. Deterministic. @throws Infeasible, Cancelled, RangeError where no start sounds
 */
export function solveFit(problem: FitProblem, starts: readonly (readonly number[])[]): Fit {
  const [first = [], ...others] = starts;
  let best: Fit | undefined;
  let lastError: unknown;
  const attempt = (start: readonly number[], firmness: number): Fit | undefined => {
    try {
      const mostSteps = firmness > LEAST_FIRM ? LEADING_STEPS : problem.mostSteps;
      return fitFrom({ ...problem, mostSteps }, start, wishToStay(problem, first, firmness));
    } catch (error) {
      if (!(error instanceof RangeError)) throw error;
      lastError = error;
      return undefined;
    }
  };
  for (const firmness of FIRMNESS) {
    best = attempt(best?.x ?? first, firmness) ?? best;
    if (best !== undefined && worstOf(best) < GOOD) return best;
  }
  for (const start of others) {
    const found = attempt(start, LEAST_FIRM);
    if (found === undefined) continue;
    const confirmed = best !== undefined && Math.abs(found.cost - best.cost) < SAME * best.cost;
    if (best === undefined || found.cost < best.cost) best = found;
    if (confirmed || worstOf(best) < GOOD) break;
  }
  if (best === undefined) throw lastError;
  return best;
}

/** The wish that every unknown stay where it is at `x`. */
function wishToStay({ unknowns }: FitProblem, x: readonly number[], firmness: number) {
  return unknowns.map(({ kind }, i) => ({ value: x[i] ?? 0, weight: firmness * WISH[kind] }));
}

/**
 * The same fit with the worst notes weighing more: evens the deviations out where the plain sum of squares leaves one note
 * beyond the rest. The better of both by its worst note.
 */
export function evenOut(problem: FitProblem, found: Fit): Fit {
  const rms = Math.sqrt(found.cents.reduce((sum, cents) => sum + cents * cents, 0) / found.cents.length);
  const weights = found.cents.map((cents) => Math.min(HEAVIEST, Math.max(1, Math.abs(cents) / rms)));
  const evened = fitFrom({ ...problem, weights }, found.x, wishToStay(problem, found.x, LEAST_FIRM));
  return worstOf(evened) < worstOf(found) ? { ...evened, multipliers: found.multipliers } : found;
}

/** No note outweighs another by more. */
const HEAVIEST = 2.5;

export function worstOf({ cents }: Fit): number {
  return Math.max(0, ...cents.map(Math.abs));
}

function fitFrom(
  problem: FitProblem,
  start: readonly number[],
  wish: readonly { value: number; weight: number }[],
): Fit {
  const { limits, mostSteps } = problem;
  const evaluate = (x: readonly number[]) => {
    const column = columnAt(problem, x);
    const found = soundings(problem, column);
    if (found === undefined) return undefined;
    const weigh = (value: number, i: number) => value * (problem.weights?.[i] ?? 1);
    const jacobian = () => slopesAt(problem, column, found).map((row, i) => row.map((slope) => weigh(slope, i)));
    return { residuals: found.cents.map(weigh), jacobian };
  };
  const solved = constrainedLeastSquares({ start, evaluate, wish, inequalities: limits, mostSteps });
  const { x, residuals, cost, multipliers } = solved;
  const cents = residuals.map((value, i) => value / (problem.weights?.[i] ?? 1));
  return { x, cents, cost, multipliers };
}

/** Cents per millimetre of each unknown, `[fingering][unknown]`. */
function slopesAt({ unknowns, analysis }: FitProblem, column: Column, found: Found): readonly (readonly number[])[] {
  const knobs = unknowns.map((unknown): Knob => {
    const value = valueIn(unknown, column);
    return {
      step: LENGTH_STEP,
      change: (step) => ({ column: withValue(column, unknown, value + step), air: analysis.air }),
    };
  });
  const slopes = sensitivities(column, analysis.air, found.queries, found.frequencies, knobs);
  return slopes.map((row) => row.map((cents) => cents * MM));
}

/** Deviations at a point and how they follow the unknowns; undefined where the point plays nothing. */
export function linearised(problem: FitProblem, x: readonly number[]) {
  const column = columnAt(problem, x);
  const found = soundings(problem, column);
  return found && { cents: found.cents, slopes: slopesAt(problem, column, found) };
}

interface Found {
  readonly queries: readonly Query[];
  readonly frequencies: readonly number[];
  readonly cents: readonly number[];
}

function columnAt({ column, unknowns }: FitProblem, x: readonly number[]): Column {
  return unknowns.reduce((changed, unknown, i) => withValue(changed, unknown, (x[i] ?? 0) * MM), column);
}

/** Frequencies and deviations of the fingerings that count; undefined where one has no resonance or the column is none. */
function soundings({ analysis, targets, shouldStop }: FitProblem, column: Column): Found | undefined {
  const counting = analysis.fingerings.flatMap(({ fingering: { covers, register }, predictedHz }, i) => {
    const target = targets[i];
    // A fingering that has no such register cannot be tuned.
    return covers === undefined || target === undefined || predictedHz === undefined
      ? []
      : [{ query: { covers, register }, target }];
  });
  const queries = counting.map(({ query }) => query);
  try {
    const found = soundingFrequencies(column, analysis.air, queries, shouldStop === undefined ? {} : { shouldStop });
    const frequencies = found.flatMap((sounding) => sounding?.frequency ?? []);
    if (frequencies.length < counting.length) return undefined;
    const cents = frequencies.map((frequency, i) => centsAbove(frequency, counting[i]?.target ?? frequency));
    return { queries, frequencies, cents };
  } catch (error) {
    // Dimensions that make no instrument: the solver steps back from them.
    if (error instanceof RangeError) return undefined;
    throw error;
  }
}
