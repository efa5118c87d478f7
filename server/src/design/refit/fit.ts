/** The numerical heart of a refit: dimensions by which every fingering comes nearest to its target, within the limits. */

import { type Preference as Comfort, comfortMissed, discomfortAt } from "../constraints/comfort.js";
import type { Limit } from "../constraints/limit.js";
import type { Unknown } from "../constraints/unknowns.js";
import { constrainedLeastSquares } from "./constrainedLeastSquares.js";
import { largest } from "./inTune.js";
import { minimaxFit } from "./minimax.js";
import { Infeasible } from "./quadraticProgram.js";
import type { Notes, Tuner } from "./tuner.js";

export interface FitProblem {
  readonly tuner: Tuner;
  readonly unknowns: readonly Unknown[];
  readonly limits: readonly Limit[];
  /** What a maker prefers, given up where the notes need more. */
  readonly comfort: readonly Comfort[];
  /** Worst note, cents, that need not be improved at the cost of comfort. */
  readonly enough: number;
  /**
   * Registers are counted from the bottom at each step. Else notes are followed, at a tenth of the cost, and what lies at the end
   * is to be `confirmed`.
   */
  readonly everyStepScanned?: boolean;
  /** Whether more work would be too much: then what is found is taken. */
  readonly isSpent: () => boolean;
  /** Trial steps at most from each start. */
  readonly mostSteps: number;
}

export interface Fit {
  /** Millimetres, by unknown. */
  readonly x: readonly number[];
  /** Deviations of the fingerings that count, cents. */
  readonly cents: readonly number[];
  /** Sum of squares, preferences included, cents squared. */
  readonly cost: number;
  /** Its part for missing comfort. */
  readonly discomfort: number;
  readonly multipliers: readonly number[];
}

/** Whether a point on the way says all that is wanted. @param step how many steps have been tried */
type IsEnough = (here: Pick<Fit, "cents" | "cost">, step: number) => boolean;

type Prior = readonly { readonly value: number; readonly weight: number }[];
/**
 * What a millimetre of change costs relative to cents: small, so that tuning wins, yet enough that what need not move stays.
 * Our own choice; places cost less than sizes, as a maker would have it.
 */
export const STIFFNESS: Record<Unknown["kind"], number> = {
  "hole-place": 0.004,
  "hole-radius": 0.08,
  "hole-undercut": 0.08,
  "station-place": 0.001,
  "station-radius": 0.08,
  stopper: 0.03,
};
/** How much more the prior weighs at first, so that small needs make small moves. */
const FIRMNESS = [12, 2, 1] as const;
/** Steps for each firmness: the first passes only lead the way. */
export const LEADING_STEPS = 7;
const LEAST_FIRM = 1;
/** The minimax step and the rounding that follow undo finer gains. */
const LEAST_GAIN = 0.02;
/** Share of the squares below which a less firm prior must bring the notes for a still less firm one to be tried: of 252 fits none else gained by it. */
const WORTH_LOOSENING = 0.95;
/** Good enough not to try less firmly: worst deviation, cents. */
const GOOD = 1.5;

/**
 * A fit from one start with few steps: enough to see whether a better one is worth looking for. Errors as below.
 * @param home where the dimensions would like to be
 * @param isEnough asked before each step but the first: whether that point, after so many steps, says all that is wanted
 */
export function coarseFit(
  problem: FitProblem,
  start: readonly number[],
  mostSteps = LEADING_STEPS,
  home: readonly number[] = start,
  isEnough?: IsEnough,
): Fit {
  return fitFrom({ ...problem, mostSteps }, start, priorAt(problem, home, LEAST_FIRM), isEnough);
}

/**
 * The best fit from one start, with a firm prior, which changes little, then less and less firmly until the notes are good. Deterministic.
 * @throws Infeasible, Cancelled, RangeError where the start does not sound
 */
export function solveFit(problem: FitProblem, start: readonly number[]): Fit {
  let best: Fit | undefined;
  let lastError: unknown;
  for (const firmness of FIRMNESS) {
    const mostSteps = firmness > LEAST_FIRM ? LEADING_STEPS : problem.mostSteps;
    const firmer = best;
    try {
      best = fitFrom({ ...problem, mostSteps }, best?.x ?? start, priorAt(problem, start, firmness));
    } catch (error) {
      if (!(error instanceof RangeError)) throw error;
      lastError = error;
    }
    if (best === undefined) continue;
    const hasGained = firmer === undefined || squares(best.cents) < WORTH_LOOSENING * squares(firmer.cents);
    if (worstOf(best) < GOOD || !hasGained || problem.isSpent()) return best;
  }
  if (best === undefined) throw lastError;
  return best;
}

/** The prior that keeps every unknown where it is at `x`. */
function priorAt({ unknowns }: FitProblem, x: readonly number[], firmness: number): Prior {
  return unknowns.map(({ kind }, i) => ({ value: x[i] ?? 0, weight: firmness * STIFFNESS[kind] }));
}

/** How much more comfort weighs where no note is far: a small remaining deviation is not worth a hole that nobody would drill. Our own choice. */
const DEAR = 3;

/** The same fit with its largest deviation minimised (minimax), where that helps. @param good largest deviation that needs no further work, cents */
export function minimaxOf(problem: FitProblem, found: Fit, good: number): Fit {
  const there = minimaxPoint(problem, found, good);
  if (there === undefined) return found;
  const discomfort = discomfortAt(problem.comfort, there.x);
  return { ...found, ...there, discomfort, cost: squares(there.cents) + discomfort };
}

/** Where bringing the worst note nearest leads; undefined where it leads nowhere. @param mostRounds steps at most; default: as many as it takes */
export function minimaxPoint(
  problem: FitProblem,
  found: Pick<Fit, "x" | "cents">,
  good: number,
  mostRounds?: number,
): Pick<Fit, "x" | "cents"> | undefined {
  const { tuner, limits, unknowns, comfort } = problem;
  const listener = { at: (x: readonly number[]) => notesAt(problem, x), slopes: (notes: Notes) => tuner.slopes(notes) };
  const stiffness = unknowns.map(({ kind }) => STIFFNESS[kind]);
  const times = largest(found.cents) <= problem.enough ? DEAR : 1;
  const weighted = comfort.map((each) => ({ ...each, weight: times * each.weight }));
  const beside = weighted.length === 0 ? undefined : (x: readonly number[]) => comfortMissed(weighted, x);
  const x = tried(() => minimaxFit(listener, found.x, limits, stiffness, good, beside, mostRounds)) ?? found.x;
  const notes = x === found.x ? undefined : notesAt(problem, x);
  return notes && { x, cents: notes.cents };
}

/** Undefined where a note was lost on the way, or the limits leave no way. */
export function tried<T>(work: () => T): T | undefined {
  try {
    return work();
  } catch (error) {
    if (error instanceof RangeError || error instanceof Infeasible) return undefined;
    throw error;
  }
}

export function worstOf({ cents }: Fit): number {
  return largest(cents);
}

function fitFrom(problem: FitProblem, start: readonly number[], prior: Prior, isEnough: IsEnough = () => false): Fit {
  const { tuner, limits, comfort, mostSteps } = problem;
  const notesOf = (residuals: readonly number[]) => residuals.length - comfort.length;
  const evaluate = (x: readonly number[]) => {
    const notes = notesAt(problem, x);
    if (notes === undefined) return undefined;
    const missed = comfortMissed(comfort, x);
    return {
      residuals: [...notes.cents, ...missed.residuals],
      jacobian: () => [...tuner.slopes(notes), ...missed.slopes],
    };
  };
  const { x, residuals, cost, multipliers } = constrainedLeastSquares({
    start,
    evaluate,
    prior,
    inequalities: limits,
    mostSteps,
    isSpent: problem.isSpent,
    isEnough: ({ residuals, cost }, step) => isEnough({ cost, cents: residuals.slice(0, notesOf(residuals)) }, step),
    leastGain: LEAST_GAIN,
  });
  const notes = notesOf(residuals);
  return { x, cents: residuals.slice(0, notes), cost, discomfort: squares(residuals.slice(notes)), multipliers };
}

function squares(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value * value, 0);
}

function notesAt({ tuner, everyStepScanned }: FitProblem, x: readonly number[]): Notes | undefined {
  return everyStepScanned ? tuner.scanned(x) : tuner.at(x);
}
