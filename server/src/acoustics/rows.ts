/** Sums of rows of flat matrices: the innermost loops of a network. */

/**
 * Adds `sign` × factor × source to the row at `row`, for `count` sources, between two places. Four sources at once: the row is then gone
 * through a quarter as often.
 */
export function addRows(
  to: Float64Array,
  row: number,
  first: number,
  end: number,
  flows: Float64Array,
  sources: Int32Array,
  factors: Float64Array,
  count: number,
  sign: number,
): void {
  let n = 0;
  for (; n + 3 < count; n += 4) {
    const x0 = sign * (factors[n] as number);
    const x1 = sign * (factors[n + 1] as number);
    const x2 = sign * (factors[n + 2] as number);
    const x3 = sign * (factors[n + 3] as number);
    const s0 = sources[n] as number;
    const s1 = sources[n + 1] as number;
    const s2 = sources[n + 2] as number;
    const s3 = sources[n + 3] as number;
    for (let u = first; u < end; u++) {
      to[row + u] =
        (to[row + u] as number) +
        x0 * (flows[s0 + u] as number) +
        x1 * (flows[s1 + u] as number) +
        x2 * (flows[s2 + u] as number) +
        x3 * (flows[s3 + u] as number);
    }
  }
  for (; n < count; n++) {
    const x = sign * (factors[n] as number);
    const source = sources[n] as number;
    for (let u = first; u < end; u++) to[row + u] = (to[row + u] as number) + x * (flows[source + u] as number);
  }
}

/** Rows of an n × n matrix as columns, in its unit. */
export function transposed(n: number, matrix: Float64Array): Float64Array {
  const columns = new Float64Array(n * n);
  for (let i = 0; i < n; i++) for (let j = 0; j < n; j++) columns[j * n + i] = matrix[i * n + j] as number;
  return columns;
}
