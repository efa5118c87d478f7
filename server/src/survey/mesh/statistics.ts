/** Robust lines, and numbers at random. */
import { median } from "../../sound/median.js";

export function mean(values: readonly number[]): number {
  return values.reduce((sum, each) => sum + each, 0) / values.length;
}

export interface Line {
  /** Value at 0. */
  readonly start: number;
  readonly slope: number;
  readonly residuals: readonly number[];
}

/** Least squares. */
export function lineThrough(xs: readonly number[], ys: readonly number[]): Line {
  const [mx, my] = [mean(xs), mean(ys)];
  let [xy, xx] = [0, 0];
  for (const [i, x] of xs.entries()) {
    xy += (x - mx) * ((ys[i] as number) - my);
    xx += (x - mx) ** 2;
  }
  const slope = xx > 0 ? xy / xx : 0;
  const start = my - slope * mx;
  return { start, slope, residuals: ys.map((y, i) => y - start - slope * (xs[i] as number)) };
}

/** How many times the middle second difference a value may leave a line and be on it. */
const NOISES = 4;

/**
 * Which places lie on straight lines, of several quantities at once: the most that any two of them make, in spite of others that leave
 * them gradually, as sides do toward rounded edges. @param least what a value may leave its line by in any case
 */
export function onOneLine(
  xs: readonly number[],
  quantities: readonly (readonly number[])[],
  least: number,
): readonly number[] {
  const limits = quantities.map((ys) => Math.max(least, NOISES * median(secondDifferences(ys)) || 0));
  let best: readonly number[] = [];
  for (let a = 0; a < xs.length; a++)
    for (let b = a + 2; b < xs.length; b++) {
      const [from, to] = [xs[a] as number, xs[b] as number];
      const on = xs.flatMap((x, i) => {
        const share = (x - from) / (to - from);
        const isOn = quantities.every((ys, q) => {
          const line = (ys[a] as number) + share * ((ys[b] as number) - (ys[a] as number));
          return Math.abs((ys[i] as number) - line) <= (limits[q] as number);
        });
        return isOn ? [i] : [];
      });
      if (on.length > best.length) best = on;
    }
  return best.length > 0 ? best : xs.map((_, i) => i);
}

function secondDifferences(ys: readonly number[]): readonly number[] {
  return ys.slice(1, -1).map((y, i) => Math.abs(y - ((ys[i] as number) + (ys[i + 2] as number)) / 2));
}

/** mulberry32: the same numbers every time, so that a file gives the same text. */
export function randomNumbers(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}
