/**
 * Two-ports on flat arrays. One matrix takes eight numbers, A B C D each as (real, imaginary):
 * p1 = A p2 + B U2, U1 = C p2 + D U2; A and D have no unit, B is an impedance, Pa·s/m³, and C an admittance, or all are over one reference
 * impedance. The kernel allocates nothing; `at` is where a matrix begins in its array.
 */
export const TWO_PORT = 8;

/** Writes the identity (A = D = 1 without a unit, B = C = 0). */
export function identity(out: Float64Array, at = 0): void {
  out.fill(0, at, at + TWO_PORT);
  out[at] = 1;
  out[at + 6] = 1;
}

/** left ← left · right, both in one unit of impedance. */
export function multiplyRight(left: Float64Array, leftAt: number, right: Float64Array, rightAt: number): void {
  for (let row = leftAt; row < leftAt + TWO_PORT; row += 4) {
    const ar = left[row] as number;
    const ai = left[row + 1] as number;
    const br = left[row + 2] as number;
    const bi = left[row + 3] as number;
    for (let column = 0; column < 4; column += 2) {
      const cr = right[rightAt + column] as number;
      const ci = right[rightAt + column + 1] as number;
      const dr = right[rightAt + column + 4] as number;
      const di = right[rightAt + column + 5] as number;
      left[row + column] = ar * cr - ai * ci + br * dr - bi * di;
      left[row + column + 1] = ar * ci + ai * cr + br * di + bi * dr;
    }
  }
}

/** left ← left · a reactance `x` in series (impedance jx), in the unit of the matrix. */
export function seriesReactance(left: Float64Array, at: number, x: number): void {
  for (let row = at; row < at + TWO_PORT; row += 4) {
    left[row + 2] = (left[row + 2] as number) - x * (left[row + 1] as number);
    left[row + 3] = (left[row + 3] as number) + x * (left[row] as number);
  }
}

/** Determinant AD − BC, without a unit: 1 for every reciprocal two-port. */
export function determinant(m: Float64Array, at = 0): { re: number; im: number } {
  const [ar, ai, br, bi, cr, ci, dr, di] = m.subarray(at, at + TWO_PORT) as unknown as number[] as [
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  return { re: ar * dr - ai * di - br * cr + bi * ci, im: ar * di + ai * dr - br * ci - bi * cr };
}
