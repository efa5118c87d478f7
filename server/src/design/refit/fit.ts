/** The numerical heart of a refit: dimensions by which every fingering comes nearest to its target, within the limits. */
import { constrainedLeastSquares } from "./constrainedLeastSquares.js";
import { largest } from "./inTune.js";
import type { Limit } from "./limit.js";
import type { Notes, Tuner } from "./tuner.js";
import type { Unknown } from "./unknowns.js";

export interface FitProblem {
  readonly tuner: Tuner;
  readonly unknowns: readonly Unknown[];
  readonly limits: readonly Limit[];
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

type Wish = readonly { readonly value: number; readonly weight: number }[];
/**
 * What a millimetre of change costs beside cents missed: small, so that tuning wins, yet enough that what need not move stays.
 * Our own choice; places cost less than sizes, as a maker would have it.
 */
export const WISH: Record<Unknown["kind"], number> = {
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

/** A fit from one start with few steps: enough to see whether a better one is worth seeking. Errors as below. */
export function coarseFit(problem: FitProblem, start: readonly number[], mostSteps = LEADING_STEPS): Fit {
  return fitFrom({ ...problem, mostSteps }, start, wishToStay(problem, start, LEAST_FIRM));
}

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
function wishToStay({ unknowns }: FitProblem, x: readonly number[], firmness: number): Wish {
  return unknowns.map(({ kind }, i) => ({ value: x[i] ?? 0, weight: firmness * WISH[kind] }));
}

/**
 * The same fit with the worst notes weighing more, round by round: evens the deviations out where the plain sum of squares leaves
 * one note beyond the rest. The best by its worst note.
 * @param good worst deviation, cents, that is even enough
 */
export function evenOut(problem: FitProblem, found: Fit, good: number): Fit {
  let best = found;
  let weights: readonly number[] = found.cents.map(() => 1);
  for (let round = 0; round < EVENING_ROUNDS && worstOf(best) > good; round++) {
    const rms = Math.sqrt(best.cents.reduce((sum, cents) => sum + cents * cents, 0) / best.cents.length);
    weights = weights.map((weight, i) => {
      const share = Math.abs(best.cents[i] ?? 0) / rms;
      return Math.min(HEAVIEST, Math.max(1, weight * (round === 0 ? share : Math.sqrt(share))));
    });
    const evened = tried(() => fitFrom({ ...problem, weights }, best.x, wishToStay(problem, best.x, LEAST_FIRM)));
    if (evened === undefined || worstOf(evened) >= worstOf(best)) break;
    best = { ...evened, multipliers: found.multipliers };
  }
  return best;
}

const EVENING_ROUNDS = 3;

/** Undefined where the way led to where a note is lost. */
function tried(work: () => Fit): Fit | undefined {
  try {
    return work();
  } catch (error) {
    if (error instanceof RangeError) return undefined;
    throw error;
  }
}
/** No note outweighs another by more. */
const HEAVIEST = 2.5;

export function worstOf({ cents }: Fit): number {
  return largest(cents);
}

function fitFrom(problem: FitProblem, start: readonly number[], wish: Wish): Fit {
  const found = fitBy(problem, start, wish, (x) => problem.tuner.at(x));
  // The way there was followed; what lies at its end is asked anew, and where another register came up, so is the whole way.
  const here = problem.tuner.scanned(found.x);
  if (here?.cents.every((cents, i) => Math.abs(cents - (found.cents[i] ?? 0)) < SAME_NOTE)) return found;
  return fitBy(problem, start, wish, (x) => problem.tuner.scanned(x));
}

/** Followed and scanned frequencies of one resonance agree far better, those of two registers never. Cents. */
const SAME_NOTE = 0.1;

function fitBy(
  { tuner, limits, mostSteps, weights }: FitProblem,
  start: readonly number[],
  wish: Wish,
  notesAt: (x: readonly number[]) => Notes | undefined,
): Fit {
  const weigh = (value: number, i: number) => value * (weights?.[i] ?? 1);
  const evaluate = (x: readonly number[]) => {
    const notes = notesAt(x);
    if (notes === undefined) return undefined;
    const jacobian = () => tuner.slopes(notes).map((row, i) => row.map((slope) => weigh(slope, i)));
    return { residuals: notes.cents.map(weigh), jacobian };
  };
  const solved = constrainedLeastSquares({ start, evaluate, wish, inequalities: limits, mostSteps });
  const { x, residuals, cost, multipliers } = solved;
  const cents = residuals.map((value, i) => value / (weights?.[i] ?? 1));
  return { x, cents, cost, multipliers };
}
