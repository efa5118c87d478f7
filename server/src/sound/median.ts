/** Robust statistics. */

/** Not a number of an empty list. */
export function median(values: readonly number[]): number {
  const sorted = Float64Array.from(values).sort();
  const middle = sorted.length >> 1;
  const upper = sorted[middle] ?? Number.NaN;
  return sorted.length % 2 === 1 ? upper : ((sorted[middle - 1] ?? Number.NaN) + upper) / 2;
}

/** Median absolute deviation to standard deviation, of normally distributed values: 1/Φ⁻¹(3/4). */
const TO_DEVIATION = 1.4826;

/** Standard deviation estimated by the median absolute deviation from `centre`. */
export function robustDeviation(values: readonly number[], centre = median(values)): number {
  return TO_DEVIATION * median(values.map((value) => Math.abs(value - centre)));
}
