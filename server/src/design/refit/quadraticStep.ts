/** The convex quadratic program in each step of a refit. */
import { type Inequality, quadraticProgram } from "./quadraticProgram.js";

/** Within which an inequality holds, in the unknowns' own unit (millimetres): the noise of sums. */
export const SLACK = 1e-9;

export function keeps({ row, least }: Inequality, x: readonly number[]): boolean {
  return [...row].reduce((sum, [i, factor]) => sum + factor * (x[i] ?? 0), 0) >= least - SLACK;
}

/** Limits stand at hundreds of millimetres and steps are small: what they differ by is sure to some roundings of the former. */
const ROUNDING = 2 ** -50;

/**
 * The step s that makes ½sᵀHs + gᵀs least with row·(x+s) ≥ least for every inequality.
 * @throws Infeasible; RangeError where `hessian` is not positive definite
 */
export function quadraticStep(
  hessian: readonly (readonly number[])[],
  gradient: readonly number[],
  inequalities: readonly Inequality[],
  x: readonly number[],
): { step: readonly number[]; multipliers: readonly number[] } {
  const limits: Inequality[] = [];
  const tolerances: number[] = [];
  for (const { row, least } of inequalities) {
    let left = least;
    let size = Math.abs(least);
    for (const [i, factor] of row) {
      const term = factor * (x[i] ?? 0);
      left -= term;
      size += Math.abs(term);
    }
    limits.push({ row, least: left });
    tolerances.push(ROUNDING * size);
  }
  const { x: step, multipliers } = quadraticProgram(hessian, gradient, limits, tolerances);
  return { step, multipliers };
}
