/**
 * Non-linear least squares under linear inequalities: Gauss–Newton with Levenberg–Marquardt damping, each step a
 * convex quadratic program. Deterministic; the inequalities hold exactly at every point it visits.
 */
import { largest } from "./inTune.js";
import { normalEquations, residualsAt } from "./linear.js";
import type { Inequality } from "./quadraticProgram.js";
import { quadraticStep } from "./quadraticStep.js";

export interface LeastSquaresProblem {
  readonly start: readonly number[];
  /**
   * Residuals and their derivatives `[residual][unknown]` (worked out only where wanted) at a point; undefined where the point has none (a note is lost),
   * which the solver steps back from.
   */
  readonly evaluate: (
    x: readonly number[],
  ) => { readonly residuals: readonly number[]; readonly jacobian: () => readonly (readonly number[])[] } | undefined;
  /** Preferred value of an unknown, and the residual that one unit away from it costs. */
  readonly prior: readonly { readonly value: number; readonly weight: number }[];
  readonly inequalities: readonly Inequality[];
  /** Asked before each trial step: whether to stop with the point reached. */
  readonly isSpent?: () => boolean;
  /** Asked before each trial step, of which `step` have been: whether to stop with the point reached, for good or bad. Never, where it is not given. */
  readonly isEnough?: (here: Pick<LeastSquaresSolution, "residuals" | "cost">, step: number) => boolean;
  /** Trial steps at most; default 60. */
  readonly mostSteps?: number;
  /** Share of the cost below which a further step's gain is not worth its price; default 1e-4. */
  readonly leastGain?: number;
}

export interface LeastSquaresSolution {
  readonly x: readonly number[];
  readonly residuals: readonly number[];
  /** Sum of squares, the prior's included. */
  readonly cost: number;
  /** Multipliers of the inequalities at the end, 0 for those that do not bind. */
  readonly multipliers: readonly number[];
}

const USUAL_MOST_STEPS = 60;
const USUAL_LEAST_GAIN = 1e-4;
const FIRST_DAMPING = 1e-3;
const STRONGER = 4;
const LEAST_DAMPING = 1e-9;
const MOST_DAMPING = 1e9;
/** How far a step's gain may be from what its slopes predicted, as a share, for them to be used once more. */
const NEARLY_FORETOLD = 0.1;
/** Largest residual, cents of a refit, below which they may: farther from the end a wrong turn costs more than slopes do. */
const NEAR_THE_END = 15;

/** @throws Infeasible; RangeError where even the start, brought inside the inequalities, cannot be evaluated */
export function constrainedLeastSquares(problem: LeastSquaresProblem): LeastSquaresSolution {
  let x = nearestFeasible(problem);
  let here = problem.evaluate(x);
  if (here === undefined) throw new RangeError("the start cannot be evaluated");
  let jacobian = here.jacobian();
  let cost = costOf(problem, x, here.residuals);
  let multipliers: readonly number[] | undefined;
  let damping = FIRST_DAMPING;
  let wasForetold = false;
  const { mostSteps = USUAL_MOST_STEPS, leastGain = USUAL_LEAST_GAIN } = problem;
  for (let step = 0; step < mostSteps && damping < MOST_DAMPING; step++) {
    // The first says what binds.
    if (step > 0 && (problem.isSpent?.() || problem.isEnough?.({ residuals: here.residuals, cost }, step))) break;
    const trial = dampedStep(problem, x, { residuals: here.residuals, jacobian }, damping);
    // Where no step is ever taken, the start is the end: the first trial says what binds there.
    multipliers ??= trial.multipliers;
    const there = problem.evaluate(trial.x);
    const newCost = there === undefined ? Number.POSITIVE_INFINITY : costOf(problem, trial.x, there.residuals);
    if (there === undefined || !(newCost < cost)) {
      if (Math.abs(newCost - cost) <= leastGain * cost) break;
      damping *= STRONGER;
      continue;
    }
    const expected = cost - costOf(problem, trial.x, residualsAt(here.residuals, jacobian, x, trial.x));
    const gain = (cost - newCost) / Math.max(cost, Number.MIN_VALUE);
    const share = (cost - newCost) / Math.max(expected, Number.MIN_VALUE);
    damping = Math.max(LEAST_DAMPING, damping * bolder(share));
    const isForetold: boolean =
      !wasForetold && Math.abs(share - 1) < NEARLY_FORETOLD && largest(there.residuals) < NEAR_THE_END;
    if (isForetold) jacobian = secant(jacobian, x, trial.x, here.residuals, there.residuals);
    [x, here, cost, multipliers] = [trial.x, there, newCost, trial.multipliers];
    if (gain < leastGain) break;
    if (!isForetold) jacobian = here.jacobian();
    wasForetold = isForetold;
  }
  return { x, residuals: here.residuals, cost, multipliers: multipliers ?? problem.inequalities.map(() => 0) };
}

/** Slopes corrected to reproduce the last step, and changed no further (C. G. Broyden, Math. Comp. 19 (1965) 577, from memory). */
function secant(
  slopes: readonly (readonly number[])[],
  from: readonly number[],
  to: readonly number[],
  before: readonly number[],
  after: readonly number[],
): readonly (readonly number[])[] {
  const step = to.map((value, i) => value - (from[i] ?? 0));
  const length = step.reduce((sum, value) => sum + value * value, 0);
  return slopes.map((row, note) => {
    const told = row.reduce((sum, slope, i) => sum + slope * (step[i] ?? 0), 0);
    const missed = ((after[note] ?? 0) - (before[note] ?? 0) - told) / length;
    return row.map((slope, i) => slope + missed * (step[i] ?? 0));
  });
}

/**
 * By how much the next step is damped, from the share of the gain expected that a step brought: less only where slopes were right
 * (the rule of trust regions; Moré, in Watson (ed.), Numerical Analysis, Springer 1978, from memory).
 */
function bolder(share: number): number {
  if (share > 3 / 4) return 1 / 5;
  return share > 1 / 4 ? 1 : 2;
}

/**
 * The cost expected one step from `x`, by slopes alone: the effect of one inequality more or less, without a
 * solution. @throws Infeasible
 */
export function expectedCost(
  problem: Pick<LeastSquaresProblem, "prior" | "inequalities">,
  x: readonly number[],
  here: { readonly residuals: readonly number[]; readonly jacobian: readonly (readonly number[])[] },
): number {
  const { x: there } = dampedStep(problem, x, here, FIRST_DAMPING);
  return costOf(problem, there, residualsAt(here.residuals, here.jacobian, x, there));
}

function costOf(
  { prior }: Pick<LeastSquaresProblem, "prior">,
  x: readonly number[],
  residuals: readonly number[],
): number {
  const missed = residuals.reduce((sum, r) => sum + r * r, 0);
  return prior.reduce((sum, { value, weight }, i) => sum + (weight * ((x[i] ?? 0) - value)) ** 2, missed);
}

/** The point inside the inequalities that is nearest to the start, all distances with equal weight. */
function nearestFeasible({ start, inequalities }: LeastSquaresProblem): number[] {
  const n = start.length;
  const identity = Array.from({ length: n }, (_, i) => Array.from({ length: n }, (_, j) => (i === j ? 1 : 0)));
  const { step } = quadraticStep(identity, new Array(n).fill(0), inequalities, start);
  return start.map((value, i) => value + (step[i] ?? 0));
}

function dampedStep(
  { prior, inequalities }: Pick<LeastSquaresProblem, "prior" | "inequalities">,
  x: readonly number[],
  here: { readonly residuals: readonly number[]; readonly jacobian: readonly (readonly number[])[] },
  damping: number,
): { x: number[]; multipliers: readonly number[] } {
  const n = x.length;
  const { hessian, gradient } = normalEquations(here.residuals, here.jacobian, n);
  prior.forEach(({ value, weight }, i) => {
    const line = hessian[i] as number[];
    line[i] = (line[i] ?? 0) + weight * weight;
    gradient[i] = (gradient[i] ?? 0) + weight * weight * ((x[i] ?? 0) - value);
  });
  // Where no note depends on any unknown, any positive number holds them where they are.
  const largest = Math.max(...hessian.map((line, i) => line[i] ?? 0)) || 1;
  hessian.forEach((line, i) => {
    const own = line[i] ?? 0;
    line[i] = own + damping * own + 1e-12 * largest;
  });
  const { step, multipliers } = quadraticStep(hessian, gradient, inequalities, x);
  return { x: x.map((value, i) => value + (step[i] ?? 0)), multipliers };
}
