/**
 * Rounds dimensions one after another, those whose step moves the notes most first, and lets all that are not rounded yet make up for
 * it: each time a convex quadratic program by the notes' slopes.
 */

import { type DrawingStep, neighbours } from "./drawingStep.js";
import { largest } from "./inTune.js";
import { normalEquations, residualsAt } from "./linear.js";
import { minimaxStep } from "./minimax.js";
import { type Inequality, Infeasible } from "./quadraticProgram.js";
import { keeps, quadraticStep, SLACK } from "./quadraticStep.js";

/** Cost of a millimetre's distance from the start, relative to cents: slopes hold only nearby. */
const STIFFNESS = 1;
/** The same after the slopes' prediction proved wrong. */
const STIFFER = 10;
/** Where a step moves the notes by less than this, the nearer of the two is taken if it can be, cents. */
const HARDLY_HEARD = 0.2;
/** What is minimised: the sum of squares, or the worst deviation; `nearby`: the sum of squares of dimensions that hardly move except to be rounded. */
export type Aim = "squares" | "worst" | "nearby";

/** @returns undefined where rounding one by one ends at a limit that cannot be kept */
export function roundOneByOne(
  x: readonly number[],
  cents: readonly number[],
  slopes: readonly (readonly number[])[],
  steps: readonly DrawingStep[],
  limits: readonly Inequality[],
  aim: Aim,
): readonly number[] | undefined {
  const heard = x.map((_, i) => (steps[i]?.step ?? 0) * Math.max(...slopes.map((row) => Math.abs(row[i] ?? 0))));
  const order = x.map((_, i) => i).sort((i, j) => (heard[j] ?? 0) - (heard[i] ?? 0));
  const centsAt = (there: readonly number[]) => residualsAt(cents, slopes, x, there);
  const cost = (there: readonly number[]) =>
    aim === "worst" ? largest(centsAt(there)) : centsAt(there).reduce((sum, value) => sum + value * value, 0);
  const fixed = new Set<number>();
  let now = x;
  for (const unknown of order) {
    fixed.add(unknown);
    const present = now;
    const drawnAs = (value: number) => {
      const held = present.map((before, i) => (i === unknown ? value : before));
      return bestWith({ held, fixed, cents: centsAt(held), slopes, limits, start: x, aim });
    };
    const [nearer, farther] = neighbours(now[unknown] ?? 0, steps[unknown] as DrawingStep);
    const first = drawnAs(nearer);
    const heardWell = (heard[unknown] ?? 0) > HARDLY_HEARD;
    const second = first === undefined || heardWell ? drawnAs(farther) : undefined;
    const better = first && !(second && cost(second) < cost(first)) ? first : second;
    if (better === undefined) return undefined;
    now = better;
  }
  return limits.every((limit) => keeps(limit, now)) ? now : undefined;
}

interface Held {
  /** The point with the fixed dimensions at their final values. */
  readonly held: readonly number[];
  readonly fixed: ReadonlySet<number>;
  /** The residuals there, by slopes. */
  readonly cents: readonly number[];
  readonly slopes: readonly (readonly number[])[];
  readonly limits: readonly Inequality[];
  readonly start: readonly number[];
  readonly aim: Aim;
}

/** The best point given all fixed dimensions; undefined if the limits allow none. */
function bestWith({ held, fixed, cents, slopes, limits, start, aim }: Held): readonly number[] | undefined {
  const free = held.flatMap((_, i) => (fixed.has(i) ? [] : [i]));
  const place = new Map(free.map((unknown, i) => [unknown, i]));
  const left: Inequality[] = [];
  for (const { row, least } of limits) {
    const still = [...row].filter(([i]) => place.has(i));
    const taken = [...row].reduce((sum, [i, factor]) => sum + (place.has(i) ? 0 : factor * (held[i] ?? 0)), 0);
    if (still.length > 0)
      left.push({ row: new Map(still.map(([i, factor]) => [place.get(i) ?? 0, factor])), least: least - taken });
    else if (taken < least - SLACK) return undefined;
  }
  if (free.length === 0) return held;
  const present = free.map((i) => held[i] ?? 0);
  const own = slopes.map((row) => free.map((i) => row[i] ?? 0));
  const stiffness = free.map(() => (aim === "nearby" ? STIFFER : STIFFNESS));
  const away = present.map((value, i) => value - (start[free[i] ?? -1] ?? 0));
  try {
    const step =
      aim === "worst"
        ? minimaxStep(cents, own, left, stiffness, present, 0, away)
        : leastSquares(cents, own, left, stiffness, present, away);
    return held.map((value, i) => value + (step[place.get(i) ?? -1] ?? 0));
  } catch (error) {
    if (error instanceof Infeasible) return undefined;
    throw error;
  }
}

function leastSquares(
  cents: readonly number[],
  slopes: readonly (readonly number[])[],
  limits: readonly Inequality[],
  stiffness: readonly number[],
  x: readonly number[],
  away: readonly number[],
): readonly number[] {
  const { hessian, gradient } = normalEquations(cents, slopes, x.length);
  stiffness.forEach((each, i) => {
    const line = hessian[i] as number[];
    line[i] = (line[i] ?? 0) + each ** 2;
    gradient[i] = (gradient[i] ?? 0) + each ** 2 * (away[i] ?? 0);
  });
  return quadraticStep(hessian, gradient, limits, x).step;
}
