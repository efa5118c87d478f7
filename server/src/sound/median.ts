/** Robust statistics. */

/** NaN for an empty list. */
export function median(values: readonly number[]): number {
  const sorted = new Float64Array(values).sort();
  const middle = sorted.length >> 1;
  const upper = sorted[middle] ?? Number.NaN;
  return sorted.length % 2 === 1 ? upper : ((sorted[middle - 1] ?? Number.NaN) + upper) / 2;
}

/** Taken again by each call: a recording asks for a hundred thousand medians of a dozen values. */
let room = new Float64Array(64);

/** As `median`, of `count` values by their index, without a list of them. */
export function medianOver(count: number, valueAt: (index: number) => number): number {
  if (room.length < count) room = new Float64Array(2 * count);
  for (let i = 0; i < count; i++) room[i] = valueAt(i);
  const upper = nthSmallest(room, count, count >> 1);
  return count % 2 === 1 ? upper : (nthSmallest(room, count, (count >> 1) - 1) + upper) / 2;
}

/** The value that would stand at an index were the first `count` sorted; changes their order (Hoare, Comm. ACM 4, 1961, algorithm 65). */
export function nthSmallest(values: Float64Array, count: number, index: number): number {
  let [low, high] = [0, count - 1];
  while (low < high) {
    const pivot = values[(low + high) >> 1] as number;
    let i = low;
    let j = high;
    while (i <= j) {
      while ((values[i] as number) < pivot) i++;
      while ((values[j] as number) > pivot) j--;
      if (i > j) break;
      const swapped = values[i] as number;
      values[i++] = values[j] as number;
      values[j--] = swapped;
    }
    if (index <= j) high = j;
    else if (index >= i) low = i;
    else break;
  }
  return values[index] ?? Number.NaN;
}

/** Median absolute deviation to standard deviation, of normally distributed values: 1/Φ⁻¹(3/4). */
const TO_DEVIATION = 1.4826;

/** Standard deviation estimated by the median absolute deviation from `centre`. */
export function robustDeviation(values: readonly number[], centre = median(values)): number {
  return TO_DEVIATION * median(values.map((value) => Math.abs(value - centre)));
}
