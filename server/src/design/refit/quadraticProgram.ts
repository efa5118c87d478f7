/**
 * Strictly convex quadratic programs by the dual active-set method: D. Goldfarb, A. Idnani, "A numerically stable dual method for
 * solving strictly convex quadratic programs", Mathematical Programming 27 (1983) 1–33. It begins at the minimum without
 * constraints and adds one violated constraint after the other, so that it needs no feasible point to begin with. Written from
 * the paper's mathematics.
 */

import { t } from "../../words/translation.js";
import { ActiveSet, type Direction, type Normal } from "./activeSet.js";

/** `row · x ≥ least`. */
export interface Inequality {
  /** Coefficients by index of the unknown; those not named are 0. */
  readonly row: ReadonlyMap<number, number>;
  readonly least: number;
}

/** The inequalities contradict each other. */
export class Infeasible extends Error {}

export interface QuadraticSolution {
  readonly x: readonly number[];
  /** One for each inequality, ≥ 0; 0 where it does not bind. Gx + g is the sum of the rows, each times its multiplier. */
  readonly multipliers: readonly number[];
}

/** Sums are sure to some dozens of roundings of their largest term. */
const ROUNDING = 2 ** -47;
/** A limit that depends on others contradicts them by more than this share of them, or not at all: rounding, grown by nearly parallel normals. */
const NEGLIGIBLE = 2 ** -36;
/** The method ends by itself, mostly after fewer rounds than there are unknowns and limits; beyond this many times that, rounding keeps it going. */
const MOST_ROUNDS = 10;

/**
 * The x that makes ½xᵀGx + gᵀx least with row · x ≥ least for every inequality, held to rounding.
 * @param hessian G, n × n, symmetric (the lower triangle is read)
 * @param gradient g, n
 * @param tolerances for each inequality, by how much it may be missed in its own unit beyond the rounding of its sum; default 0
 * @throws Infeasible; RangeError where G is not positive definite or a number is not finite
 */
export function quadraticProgram(
  hessian: readonly (readonly number[])[],
  gradient: readonly number[],
  inequalities: readonly Inequality[],
  tolerances: readonly number[] = [],
): QuadraticSolution {
  const set = new ActiveSet(hessian);
  const constraints = inequalities.map((each, i) => constraintOf(each, tolerances[i] ?? 0));
  const search: Search = {
    set,
    constraints,
    x: set.unconstrained(gradient),
    multipliers: new Float64Array(constraints.length),
    implied: new Set(),
  };
  const most = MOST_ROUNDS * (constraints.length + gradient.length);
  for (let round = 0; round < most; round++) {
    const worst = mostViolated(search);
    if (worst === undefined) return refined(search, hessian, gradient);
    takeIn(search, worst);
  }
  throw new RangeError("the quadratic program does not converge");
}

interface Constraint {
  readonly normal: Normal;
  readonly least: number;
  readonly length: number;
  readonly tolerance: number;
}

interface Search {
  readonly set: ActiveSet;
  readonly constraints: readonly Constraint[];
  readonly x: Float64Array;
  readonly multipliers: Float64Array;
  /** Constraints that the active ones imply. */
  readonly implied: Set<number>;
}

function constraintOf({ row, least }: Inequality, tolerance: number): Constraint {
  if (!(least < Number.POSITIVE_INFINITY)) throw new RangeError("a limit of the quadratic program is not finite");
  const values = Float64Array.from(row.values());
  return { normal: { indices: Int32Array.from(row.keys()), values }, least, length: Math.hypot(...values), tolerance };
}

/** By how much a constraint is more than kept (negative: missed), and the size of the terms it is summed up from. */
function slackOf({ normal: { indices, values }, least }: Constraint, x: Float64Array) {
  let sum = -least;
  let size = Math.abs(least);
  for (let e = 0; e < indices.length; e++) {
    const term = (values[e] as number) * (x[indices[e] as number] as number);
    sum += term;
    size += Math.abs(term);
  }
  return { slack: sum, size };
}

/** The constraint farthest from being kept, as a distance in the unknowns; undefined where all are kept. */
function mostViolated({ set, constraints, x, implied }: Search): number | undefined {
  let worst: number | undefined;
  let farthest = 0;
  constraints.forEach((constraint, i) => {
    const { slack, size } = slackOf(constraint, x);
    // Not `slack < …`: NaN is not kept either.
    if (slack >= -(constraint.tolerance + ROUNDING * size) || implied.has(i) || set.active.includes(i)) return;
    const far = -slack / constraint.length;
    if (worst !== undefined && !(far > farthest)) return;
    worst = i;
    farthest = far;
  });
  return worst;
}

/**
 * Raises the multiplier of a violated constraint until it is kept with equality, and drops those whose multiplier falls to zero on
 * the way. @throws Infeasible
 */
function takeIn(search: Search, index: number): void {
  const { set, constraints, x, multipliers, implied } = search;
  const constraint = constraints[index] as Constraint;
  for (let first = true; ; first = false) {
    const direction = set.direction(constraint.normal);
    const { primal, rise, dual } = direction;
    const missed = -slackOf(constraint, x).slack;
    if (first && primal === undefined && !violated(search, constraint, direction)) {
      implied.add(index);
      return;
    }
    const full = primal === undefined ? Number.POSITIVE_INFINITY : missed / rise;
    const { place, step: partial } = firstToZero(set, direction, multipliers);
    const step = Math.min(full, partial);
    if (step === Number.POSITIVE_INFINITY) throw new Infeasible(t("the limits contradict each other"));
    if (Number.isNaN(step)) throw new RangeError("the quadratic program has a number that is not finite");
    set.active.forEach((each, i) => {
      multipliers[each] = Math.max(0, (multipliers[each] as number) - step * (dual[i] as number));
    });
    multipliers[index] = (multipliers[index] as number) + step;
    if (primal !== undefined) move(x, primal, step);
    if (full <= partial) set.add(index, constraint.normal);
    else {
      multipliers[set.active[place] as number] = 0;
      set.drop(place);
      implied.clear();
    }
    // Where x came from afar, its rounding is that of where it was.
    move(x, set.correction(set.active.map((each) => -slackOf(constraints[each] as Constraint, x).slack)), 1);

    if (full <= partial) return;
  }
}

/**
 * The solution with the rounding of the way there taken out: where the minimum without constraints lies far off, it is felt. What is left
 * of the gradient, Gx + g − Σuᵢnᵢ, is the right side of the same equations once more.
 */
function refined(
  { set, constraints, x, multipliers }: Search,
  hessian: readonly (readonly number[])[],
  gradient: readonly number[],
): QuadraticSolution {
  const left = Float64Array.from(gradient, (g, i) =>
    (hessian[i] ?? []).reduce((sum, each, j) => sum + each * (x[j] as number), g),
  );
  for (const each of set.active) {
    const { indices, values } = (constraints[each] as Constraint).normal;
    indices.forEach((i, e) => {
      left[i] = (left[i] as number) - (multipliers[each] as number) * (values[e] as number);
    });
  }
  const { primal } = set.direction({ indices: Int32Array.from(left.keys()), values: left });
  if (primal !== undefined) move(x, primal, -1);
  return { x: [...x], multipliers: [...multipliers] };
}

function move(x: Float64Array, along: Float64Array, by: number): void {
  along.forEach((each, i) => {
    x[i] = (x[i] as number) + by * each;
  });
}

/**
 * Whether a constraint that depends on the active ones is violated where these are kept, by more than rounding. Its normal is Σ rᵢnᵢ of
 * theirs, each part sure to its share of `size`. The limits alone tell, so that no rounding of x enters.
 */
function violated({ set, constraints }: Search, { least, tolerance }: Constraint, { dual, size }: Direction): boolean {
  let gap = least;
  let noise = tolerance + NEGLIGIBLE * Math.abs(least);
  set.active.forEach((each, i) => {
    const active = constraints[each] as Constraint;
    const share = dual[i] as number;
    gap -= share * active.least;
    noise +=
      Math.abs(share) * active.tolerance + NEGLIGIBLE * (size / (set.sizes[i] as number)) * Math.abs(active.least);
  });
  return gap > noise;
}

/** Which active multiplier reaches zero first, and after how long a step. */
function firstToZero({ active, sizes }: ActiveSet, { dual, size }: Direction, multipliers: Float64Array) {
  let place = -1;
  let step = Number.POSITIVE_INFINITY;
  active.forEach((each, i) => {
    const fall = dual[i] as number;
    if (!(fall * (sizes[i] as number) > ROUNDING * size)) return;
    const until = (multipliers[each] as number) / fall;
    if (!(until < step)) return;
    place = i;
    step = until;
  });
  return { place, step };
}
