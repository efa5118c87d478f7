/** The size at which the notes are right on average, given that rounded numbers make the pitch move in steps. */
import { ratioOfCents } from "../../music/cents.js";
import type { Analysis } from "../predict/analysis.js";

/** The mean deviation is right within this, cents: a fifth of what listeners hear. Nothing is rewritten for less. */
export const RIGHT_ON_AVERAGE = 0.5;
/** The search ends this close, cents. */
const CLOSE_ENOUGH = 0.01;
/** Because of losses and undersize pitch does not follow size exactly; each iteration gains about two digits. */
const ROUNDS = 8;
/** Below this relative step another iteration gains nothing. */
const SMALLEST_STEP = 1e-5;
/** Where roundings add up, sizes around the best are tried, the nearest first: cents apart, and how many each way. */
const APART = 0.4;
const EACH_WAY = 8;

export interface Sized {
  readonly after: Analysis;
}

/** The factor, and what it makes, whose mean deviation is least; undefined where no note sounds at one that must be tried. */
export function bestSize<S extends Sized>(
  sized: (factor: number) => S,
  start: number,
): { readonly factor: number; readonly result: S } | undefined {
  let factor = start;
  let best: { factor: number; result: S; off: number } | undefined;
  const tried = (at: number) => {
    const result = sized(at);
    const mean = result.after.summary?.meanCents;
    const off = Math.abs(mean ?? Number.POSITIVE_INFINITY);
    if (mean !== undefined && (best === undefined || off < best.off)) best = { factor: at, result, off };
    return mean;
  };
  for (let round = 0; round < ROUNDS; round++) {
    const mean = tried(factor);
    if (mean === undefined) return undefined;
    // Try the size of every table and title first, and keep it if it is right on average as drawn.
    if (Math.abs(mean) < (round === 0 ? RIGHT_ON_AVERAGE : CLOSE_ENOUGH)) break;
    const next = factor * ratioOfCents(mean);
    if (Math.abs(next / factor - 1) < SMALLEST_STEP) break;
    factor = next;
  }
  for (let n = 1; n <= 2 * EACH_WAY && best !== undefined && best.off > RIGHT_ON_AVERAGE; n++)
    tried(factor * ratioOfCents((n % 2 === 0 ? 1 : -1) * Math.ceil(n / 2) * APART));
  return best;
}

/** A drawing whose roundings add up may be off by this much: another one with the same rounding is no better. Cents. */
const LEFT_BY_ROUNDING = 3;

/** Whether a design that is asked for in its own key stays as it is: it is as right as what would be written. */
export function staysAsItIs({ summary }: Analysis, by: "print-scale" | "redraw"): boolean {
  return Math.abs(summary?.meanCents ?? 0) <= (by === "redraw" ? LEFT_BY_ROUNDING : RIGHT_ON_AVERAGE);
}
