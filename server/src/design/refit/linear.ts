/** Residuals (cents, say) that follow unknowns by slopes `[residual][unknown]`. */

/** The residuals at `to`, given `residuals` at `from`. */
export function residualsAt(
  residuals: readonly number[],
  slopes: readonly (readonly number[])[],
  from: readonly number[],
  to: readonly number[],
): readonly number[] {
  return residuals.map((value, r) =>
    to.reduce((sum, each, i) => sum + (each - (from[i] ?? 0)) * (slopes[r]?.[i] ?? 0), value),
  );
}

/** JᵀJ and Jᵀr of least squares, to be added to. */
export function normalEquations(
  residuals: readonly number[],
  slopes: readonly (readonly number[])[],
  n: number,
): { readonly hessian: number[][]; readonly gradient: number[] } {
  const hessian = Array.from({ length: n }, () => new Array<number>(n).fill(0));
  const gradient = new Array<number>(n).fill(0);
  slopes.forEach((row, r) => {
    for (let i = 0; i < n; i++) {
      const slope = row[i] ?? 0;
      gradient[i] = (gradient[i] ?? 0) + slope * (residuals[r] ?? 0);
      const line = hessian[i] as number[];
      for (let j = 0; j < n; j++) line[j] = (line[j] ?? 0) + slope * (row[j] ?? 0);
    }
  });
  return { hessian, gradient };
}
