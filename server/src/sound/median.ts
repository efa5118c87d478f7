/** Robust statistics. */

/** Taken again by each call: a recording and a survey ask for a hundred thousand medians. */
let room = new Float64Array(64);

/** NaN for an empty list. What is not a number counts as greater than all others. */
export function median(values: ArrayLike<number>): number {
  const numbers = numbersOf(values);
  return medianIn(room, numbers, values.length);
}

/** As `median`, of the values that are numbers. */
export function medianOfNumbers(values: ArrayLike<number>): number {
  const numbers = numbersOf(values);
  return medianIn(room, numbers, numbers);
}

/** Puts the numbers among the values into `room`, and gives how many there are. */
function numbersOf(values: ArrayLike<number>): number {
  if (room.length < values.length) room = new Float64Array(2 * values.length);
  let numbers = 0;
  for (let i = 0; i < values.length; i++) {
    const value = values[i] as number;
    if (!Number.isNaN(value)) room[numbers++] = value;
  }
  return numbers;
}

/** As `median`, of `count` numbers by their index, without a list of them. */
export function medianOver(count: number, valueAt: (index: number) => number): number {
  if (room.length < count) room = new Float64Array(2 * count);
  for (let i = 0; i < count; i++) room[i] = valueAt(i);
  return medianIn(room, count, count);
}

/** Of the first `numbers` values, after which others would stand up to `count`. */
function medianIn(values: Float64Array, numbers: number, count: number): number {
  const middle = count >> 1;
  if (middle >= numbers) return Number.NaN;
  const upper = nthSmallest(values, numbers, middle);
  if (count % 2 === 1) return upper;
  // What stands before the middle is no greater than it, in any order.
  let lower = values[0] as number;
  for (let i = 1; i < middle; i++) if ((values[i] as number) > lower) lower = values[i] as number;
  return (lower + upper) / 2;
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
