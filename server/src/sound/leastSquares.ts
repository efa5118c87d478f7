/** Weighted linear least squares of a few unknowns, and its robust form. */
import { median, robustDeviation } from "./median.js";

/**
 * Coefficients of the columns that come nearest to the values, by the normal equations.
 * @param rows a row an observation, a column an unknown; well conditioned: columns of like size
 */
export function weightedLeastSquares(
  rows: readonly (readonly number[])[],
  values: readonly number[],
  weights: readonly number[],
): number[] {
  const n = rows[0]?.length ?? 0;
  const matrix = Array.from({ length: n }, () => new Array<number>(n + 1).fill(0));
  rows.forEach((row, i) => {
    const weight = weights[i] as number;
    for (let p = 0; p < n; p++) {
      const line = matrix[p] as number[];
      const weighted = weight * (row[p] as number);
      for (let q = 0; q < n; q++) line[q] = (line[q] as number) + weighted * (row[q] as number);
      line[n] = (line[n] as number) + weighted * (values[i] as number);
    }
  });
  // Keeps a column that nothing depends on at zero.
  matrix.forEach((line, p) => {
    line[p] = (line[p] as number) + 1e-9;
  });
  return eliminated(matrix);
}

/** Gauss and Jordan, the right side in the last column. Symmetric and positive definite: no pivoting is needed. */
function eliminated(matrix: number[][]): number[] {
  const n = matrix.length;
  for (let p = 0; p < n; p++) {
    const pivot = matrix[p] as number[];
    for (let q = 0; q < n; q++) {
      if (q === p) continue;
      const line = matrix[q] as number[];
      const share = (line[p] as number) / (pivot[p] as number);
      for (let k = p; k <= n; k++) line[k] = (line[k] as number) - share * (pivot[k] as number);
    }
  }
  return matrix.map((line, p) => (line[n] as number) / (line[p] as number));
}

export interface RobustFit {
  readonly coefficients: readonly number[];
  readonly residuals: readonly number[];
  readonly weights: readonly number[];
  /** Standard deviation of the residuals that count. */
  readonly deviation: number;
}

/** Tukey's constant: 95 % efficient where the noise is normal (Huber, Robust Statistics). */
const BIWEIGHT = 4.685;
const ROUNDS = 5;

/**
 * The same with outliers left out, by Tukey's biweight.
 * @param finest least deviation assumed, in the values' unit
 * @param near values farther from the median, and farther than four deviations, are left out at first
 */
export function robustLeastSquares(
  rows: readonly (readonly number[])[],
  values: readonly number[],
  finest: number,
  near: number,
): RobustFit {
  const centre = median(values);
  const reach = Math.max(near, 4 * robustDeviation(values, centre));
  let weights: number[] = values.map((value) => (Math.abs(value - centre) < reach ? 1 : 0));
  let coefficients: number[] = [];
  let residuals: number[] = [];
  let deviation = finest;
  for (let round = 0; round < ROUNDS; round++) {
    coefficients = weightedLeastSquares(rows, values, weights);
    residuals = values.map((value, i) => value - dot(rows[i] as readonly number[], coefficients));
    deviation = Math.max(finest, robustDeviation(residuals, 0));
    weights = residuals.map((residual) => {
      const u = residual / (BIWEIGHT * deviation);
      return Math.abs(u) < 1 ? (1 - u * u) ** 2 : 0;
    });
  }
  return { coefficients, residuals, weights, deviation };
}

/** @param b as long as `a` at least */
export function dot(a: readonly number[], b: readonly number[]): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += (a[i] as number) * (b[i] as number);
  return sum;
}
