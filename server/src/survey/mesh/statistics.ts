/** Robust statistics and lines. */

/** Not a number of an empty list. */
export function median(values: ArrayLike<number>): number {
  const sorted = Float64Array.from(values).sort();
  const middle = sorted.length >> 1;
  const upper = sorted[middle] ?? Number.NaN;
  return sorted.length % 2 === 1 ? upper : ((sorted[middle - 1] ?? Number.NaN) + upper) / 2;
}

/** Median absolute deviation to standard deviation, of normally distributed values: 1/Φ⁻¹(3/4). */
const TO_DEVIATION = 1.4826;

export function robustDeviation(values: readonly number[]): number {
  const centre = median(values);
  return TO_DEVIATION * median(values.map((value) => Math.abs(value - centre)));
}

export interface Line {
  /** Value at 0. */
  readonly start: number;
  readonly slope: number;
  readonly residuals: readonly number[];
}

/** Least squares. */
export function lineThrough(xs: readonly number[], ys: readonly number[]): Line {
  const mean = (values: readonly number[]) => values.reduce((sum, each) => sum + each, 0) / values.length;
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

/** Values off a line by more than so many deviations are another thing. */
const CUT = 3 * TO_DEVIATION;
const ROUNDS = 4;

/** Which values lie on one line, in spite of others. @param least deviation that is none */
export function onOneLine(xs: readonly number[], ys: readonly number[], least: number): readonly number[] {
  let used = xs.map((_, i) => i);
  for (let round = 0; round < ROUNDS; round++) {
    const { start, slope } = lineThrough(
      used.map((i) => xs[i] as number),
      used.map((i) => ys[i] as number),
    );
    const off = xs.map((x, i) => Math.abs((ys[i] as number) - start - slope * x));
    const most = Math.max(CUT * median(off), least);
    const now = xs.map((_, i) => i).filter((i) => (off[i] as number) <= most);
    if (now.length < xs.length / 2 || now.length === used.length) break;
    used = now;
  }
  return used;
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
