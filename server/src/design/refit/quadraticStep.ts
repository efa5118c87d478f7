/**
 * The convex quadratic program in each step of a refit, by the dual method of Goldfarb and Idnani (Mathematical Programming 27,
 * 1–33, 1983) in the library `quadprog`, which holds inequalities exactly.
 */
import { solveQP } from "quadprog";

/** `row · x ≥ least`. */
export interface Inequality {
  /** Coefficients by index of the unknown; those not named are 0. */
  readonly row: ReadonlyMap<number, number>;
  readonly least: number;
}

/** Within which an inequality holds, in the unknowns' own unit (millimetres): the noise of sums. */
export const SLACK = 1e-9;

export function keeps({ row, least }: Inequality, x: readonly number[]): boolean {
  return [...row].reduce((sum, [i, factor]) => sum + factor * (x[i] ?? 0), 0) >= least - SLACK;
}

/** The inequalities contradict each other. */
export class Infeasible extends Error {}

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
  const n = gradient.length;
  const pad = (row: readonly number[]) => [0, ...row];
  const columns = Array.from({ length: n }, (_, i) => pad(inequalities.map(({ row }) => row.get(i) ?? 0)));
  const limits = inequalities.map(
    ({ row, least }) => least - [...row].reduce((sum, [i, a]) => sum + a * (x[i] ?? 0), 0),
  );
  const { solution, Lagrangian, message } = solveQP(
    [[], ...hessian.map(pad)],
    pad(gradient.map((g) => -g)),
    [[], ...columns],
    pad(limits),
  );
  if (message.includes("inconsistent")) throw new Infeasible("the limits contradict each other");
  if (message !== "") throw new RangeError(message);
  return { step: solution.slice(1), multipliers: Lagrangian.slice(1) };
}
