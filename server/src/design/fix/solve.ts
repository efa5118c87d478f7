import { drained, type Steps } from "../../acoustics/steps.js";
import { orNoneSteps } from "../predict/orNone.js";

/**
 * Root of a smooth, nearly linear function by the secant method, kept inside bounds. Where the function has no value, or the
 * physics refuses the numbers with a RangeError, the step is halved.
 * Undefined when it does not come within `tolerance` of zero in `STEPS` steps or leaves the bounds for good.
 */
export function secant(
  valueAt: (x: number) => number | undefined,
  first: number,
  second: number,
  options: Bounds,
): number | undefined {
  return drained(secantSteps(plain(valueAt), first, second, options));
}

interface Bounds {
  readonly least: number;
  readonly greatest: number;
  readonly tolerance: number;
  /** The value at the first of the two, where it is known already. */
  readonly atFirst?: number | undefined;
}

/** A function that takes one step. */
export function plain(valueAt: (x: number) => number | undefined): (x: number) => Steps<number | undefined> {
  return function* (x) {
    yield undefined;
    return valueAt(x);
  };
}

/** As `secant`, of a function that is worked out step by step. */
export function* secantSteps(
  valueAt: (x: number) => Steps<number | undefined>,
  first: number,
  second: number,
  options: Bounds,
): Steps<number | undefined> {
  const { least, greatest, tolerance, atFirst } = options;
  const inside = (x: number) => Math.min(greatest, Math.max(least, x));
  let [x0, x1] = [inside(first), inside(second)];
  const value = (x: number) => orNoneSteps(() => valueAt(x));
  let y0 = x0 === first && atFirst !== undefined ? atFirst : yield* value(x0);
  if (y0 === undefined) return undefined;
  if (Math.abs(y0) <= tolerance) return x0;
  let best = Math.abs(y0);
  for (let step = 0, gone = 0; step < STEPS && gone < PATIENCE; step++) {
    if (x1 === x0) return undefined; // where the bounds leave no room
    const y1 = yield* value(x1);
    if (y1 === undefined) {
      x1 = (x0 + x1) / 2;
      continue;
    }
    if (Math.abs(y1) <= tolerance) return x1;
    if (y1 === y0) return undefined;
    gone = Math.abs(y1) < best ? 0 : gone + 1;
    best = Math.min(best, Math.abs(y1));
    const next = inside(x1 - (y1 * (x1 - x0)) / (y1 - y0));
    [x0, y0, x1] = [x1, y1, next];
  }
  return undefined;
}

/** A secant on cents against millimetres gains about one and a half times the digits each step; 12 is ample. */
const STEPS = 12;
/** This many steps in a row without progress: there is a least value, and no root. */
const PATIENCE = 3;
