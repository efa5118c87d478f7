/** Vectors and directions of three numbers. */
export type Vector = readonly [x: number, y: number, z: number];
/** Three directions square to each other, right-handed: what becomes x, y and z. */
export type Rows = readonly [x: Vector, y: Vector, z: Vector];

export const dot = (a: Vector, b: Vector): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const cross = (a: Vector, b: Vector): Vector => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
/** a + k·b */
export const plus = (a: Vector, b: Vector, k = 1): Vector => [a[0] + k * b[0], a[1] + k * b[1], a[2] + k * b[2]];
export const times = (a: Vector, k: number): Vector => [a[0] * k, a[1] * k, a[2] * k];
export const unit = (a: Vector): Vector => times(a, 1 / Math.hypot(...a));

/** A frame whose z is `z`. */
export function frameAlong(z: Vector): Rows {
  const x = unit(cross(z, Math.abs(z[0]) < 0.8 ? [1, 0, 0] : [0, 1, 0]));
  return [x, cross(z, x), z];
}

const GOLDEN_ANGLE = Math.PI * (3 - Math.sqrt(5));

/** Directions evenly over the sphere, on a spiral from z to −z. */
export function spiral(count: number): readonly Vector[] {
  return Array.from({ length: count }, (_, i): Vector => {
    const z = 1 - (2 * i + 1) / count;
    const r = Math.sqrt(1 - z * z);
    return [r * Math.cos(i * GOLDEN_ANGLE), r * Math.sin(i * GOLDEN_ANGLE), z];
  });
}

export interface Eigen {
  readonly value: number;
  readonly vector: Vector;
}

/** Of a symmetric matrix, least value first. Jacobi's rotations (Golub and Van Loan, Matrix Computations; from memory). */
export function eigen(matrix: readonly (readonly number[])[]): readonly [Eigen, Eigen, Eigen] {
  const a = matrix.map((row) => [...row]) as number[][];
  const v = [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ] as number[][];
  const get = (m: number[][], r: number, c: number) => (m[r] as number[])[c] as number;
  const set = (m: number[][], r: number, c: number, value: number) => {
    (m[r] as number[])[c] = value;
  };
  const turn = (m: number[][], p: readonly [number, number], q: readonly [number, number], c: number, s: number) => {
    const [x, y] = [get(m, ...p), get(m, ...q)];
    set(m, ...p, c * x - s * y);
    set(m, ...q, s * x + c * y);
  };
  for (let sweep = 0; sweep < SWEEPS; sweep++)
    for (const [p, q] of [
      [0, 1],
      [0, 2],
      [1, 2],
    ] as const) {
      if (Math.abs(get(a, p, q)) < Number.MIN_VALUE * 1e20) continue;
      const theta = (get(a, q, q) - get(a, p, p)) / (2 * get(a, p, q));
      const t = Math.sign(theta || 1) / (Math.abs(theta) + Math.hypot(theta, 1));
      const c = 1 / Math.hypot(t, 1);
      const s = t * c;
      for (let k = 0; k < 3; k++) turn(a, [k, p], [k, q], c, s);
      for (let k = 0; k < 3; k++) {
        turn(a, [p, k], [q, k], c, s);
        turn(v, [k, p], [k, q], c, s);
      }
    }
  const found = [0, 1, 2].map((i) => ({
    value: get(a, i, i),
    vector: [get(v, 0, i), get(v, 1, i), get(v, 2, i)] as Vector,
  }));
  return found.sort((x, y) => x.value - y.value) as unknown as readonly [Eigen, Eigen, Eigen];
}

const SWEEPS = 40;
