/**
 * Harmonic polynomials on an ellipsoid, orthogonal by degree: the fields of which the air in and around it is made up. Those alike on
 * both sides of the plane z = 0 and those that change their sign there are orthogonal, too: the latter count only for openings out of it.
 *
 * Ellipsoidal harmonics up to a degree span the harmonic polynomials up to it and are orthogonal in the Dirichlet integral
 * ∫∇f·∇g dV (E. W. Hobson, The Theory of Spherical and Ellipsoidal Harmonics, 1931, from memory; the inner integrals here are worked
 * out, not quoted). So a Cholesky factor of the matrix of Dirichlet integrals of solid harmonics, taken degree by degree, gives them
 * without Lamé's functions.
 */

/** Highest degree. From 10 to 12 the notes of finite-element cases of 2 : 1 move by 1 cent at a sharp end and 0.5 elsewhere. */
export const HIGHEST_DEGREE = 12;

interface Solid {
  readonly degree: number;
  readonly order: number;
  /** Real or imaginary part of r^l P_l^m e^{imφ}/(l+m)!. */
  readonly part: 0 | 1;
}

/** 0 alike on both sides of z = 0, 1 with the sign changed. */
type Parity = 0 | 1;

const solidsOf = (parity: Parity): readonly Solid[] =>
  Array.from({ length: HIGHEST_DEGREE }, (_, i) => i + 1).flatMap((degree) =>
    Array.from({ length: degree + 1 }, (_, order) => order)
      .filter((order) => (degree + order) % 2 === parity)
      .flatMap((order): Solid[] =>
        order === 0
          ? [{ degree, order, part: 0 }]
          : [
              { degree, order, part: 0 },
              { degree, order, part: 1 },
            ],
      ),
  );

const SOLIDS = [solidsOf(0), solidsOf(1)] as const;

/** Values of the orthonormal fields at a point of the wall: those alike on both sides of z = 0, and the others, none in the plane. */
export interface FieldValues {
  readonly even: Float64Array;
  readonly odd: Float64Array | undefined;
}

export class EllipsoidHarmonics {
  private readonly axes: readonly [number, number, number];
  private readonly scale: number;

  constructor(semiAxes: readonly [number, number, number]) {
    // In units of the mean half axis, so that powers stay near one and all sizes of a shape share one set.
    const scale = Math.cbrt(semiAxes[0] * semiAxes[1] * semiAxes[2]);
    this.scale = scale;
    this.axes = semiAxes.map((axis) => axis / scale) as [number, number, number];
  }

  /**
   * Fields at a point of the wall, of unit Dirichlet integral and, weighted by the distance of the tangent plane, of mean 0
   * over the wall. In 1/√m: products of two are what `between` two points the wall's own fields contribute, 1/m.
   */
  at(x: number, y: number, z: number): FieldValues {
    const values = solids(x / this.scale, y / this.scale, z / this.scale);
    return { even: this.fields(values, 0), odd: z === 0 ? undefined : this.fields(values, 1) };
  }

  private fields(values: Float64Array, parity: Parity): Float64Array {
    const { factor, means } = shapeOf(this.axes, parity);
    const own = SOLIDS[parity];
    const n = own.length;
    const out = new Float64Array(n);
    const root = Math.sqrt(this.scale);
    for (let i = 0; i < n; i++) {
      let sum = fieldOf(values, own[i] as Solid) - (means[i] as number);
      for (let j = 0; j < i; j++) sum -= (factor[i * n + j] as number) * (out[j] as number);
      out[i] = sum / (factor[i * n + i] as number);
    }
    return out.map((value) => value / root);
  }
}

interface Shape {
  readonly factor: Float64Array;
  readonly means: Float64Array;
}

/** Shapes met last: most changes of a design leave its vessel's proportions alone. */
const shapes = new Map<string, Shape>();
const MOST_SHAPES = 16;

function shapeOf(axes: readonly [number, number, number], parity: Parity): Shape {
  // Twelve figures: rounding of a scaled size must not make another shape.
  const key = `${axes.map((axis) => axis.toPrecision(12)).join()} ${parity}`;
  const known = shapes.get(key);
  if (known !== undefined) return known;
  const { matrix, means } = integrals(axes, SOLIDS[parity]);
  const made = { factor: cholesky(matrix, SOLIDS[parity].length), means };
  const [oldest] = shapes.keys();
  if (oldest !== undefined && shapes.size >= MOST_SHAPES) shapes.delete(oldest);
  shapes.set(key, made);
  return made;
}

/** Sum of the products of two points' fields, 1/m, each degree with its own weight (a share). */
export function contributions(p: FieldValues, q: FieldValues, weight: (degree: number) => number): number {
  return productOf(SOLIDS[0], p.even, q.even, weight) + productOf(SOLIDS[1], p.odd, q.odd, weight);
}

function productOf(
  own: readonly Solid[],
  p: Float64Array | undefined,
  q: Float64Array | undefined,
  weight: (degree: number) => number,
): number {
  if (p === undefined || q === undefined) return 0;
  return own.reduce((sum, { degree }, i) => sum + weight(degree) * (p[i] as number) * (q[i] as number), 0);
}

/** Dirichlet integrals and weighted means by quadrature, exact for these degrees. */
function integrals([a, b, c]: readonly [number, number, number], own: readonly Solid[]) {
  const n = own.length;
  const matrix = new Float64Array(n * n);
  const means = new Float64Array(n);
  const across = gaussLegendre(HIGHEST_DEGREE + 1);
  const around = 2 * HIGHEST_DEGREE + 2;
  for (const [w, weight] of across) {
    for (let step = 0; step < around; step++) {
      const angle = (2 * Math.PI * (step + 0.5)) / around;
      const s = Math.sqrt(1 - w * w);
      const [u, v] = [s * Math.cos(angle), s * Math.sin(angle)];
      const values = solids(a * u, b * v, c * w);
      const solidAngle = (weight * 2 * Math.PI) / around;
      const area = [b * c * u * solidAngle, a * c * v * solidAngle, a * b * w * solidAngle] as const;
      const field = own.map((solid) => fieldOf(values, solid));
      const flux = own.map((solid) => fluxOf(values, solid, area));
      for (let i = 0; i < n; i++) {
        means[i] = (means[i] as number) + ((field[i] as number) * solidAngle) / (4 * Math.PI);
        for (let j = 0; j <= i; j++)
          matrix[i * n + j] = (matrix[i * n + j] as number) + (field[i] as number) * (flux[j] as number);
      }
    }
  }
  return { matrix, means };
}

/** Solid harmonics r^l P_l^m e^{imφ}/(l+m)!, real and imaginary part at 2(l(l+1)/2 + m), m ≥ 0. */
function solids(x: number, y: number, z: number): Float64Array {
  const values = new Float64Array((HIGHEST_DEGREE + 1) * (HIGHEST_DEGREE + 2));
  const squared = x * x + y * y + z * z;
  values[0] = 1;
  for (let m = 0; m <= HIGHEST_DEGREE; m++) {
    if (m > 0) {
      const [re, im] = pair(values, m - 1, m - 1);
      put(values, m, m, -(x * re - y * im) / (2 * m), -(x * im + y * re) / (2 * m));
    }
    for (let l = m; l < HIGHEST_DEGREE; l++) {
      const [re, im] = pair(values, l, m);
      const [before, beforeIm] = l > m ? pair(values, l - 1, m) : [0, 0];
      const norm = (l + 1) ** 2 - m * m;
      const twice = (2 * l + 1) * z;
      put(values, l + 1, m, (twice * re - squared * before) / norm, (twice * im - squared * beforeIm) / norm);
    }
  }
  return values;
}

function pair(values: Float64Array, l: number, m: number): readonly [number, number] {
  if (Math.abs(m) > l || l < 0) return [0, 0];
  const at = l * (l + 1) + 2 * Math.abs(m);
  const [re, im] = [values[at] as number, values[at + 1] as number];
  if (m >= 0) return [re, im];
  const sign = m % 2 === 0 ? 1 : -1;
  return [sign * re, -sign * im];
}

function put(values: Float64Array, l: number, m: number, re: number, im: number): void {
  const at = l * (l + 1) + 2 * m;
  values[at] = re;
  values[at + 1] = im;
}

function fieldOf(values: Float64Array, { degree, order, part }: Solid): number {
  return pair(values, degree, order)[part];
}

/**
 * Gradient times an element of area: ∂z R_l^m = R_{l−1}^m, (∂x + i∂y) R_l^m = R_{l−1}^{m+1}, (∂x − i∂y) R_l^m = −R_{l−1}^{m−1}.
 */
function fluxOf(values: Float64Array, { degree: l, order: m, part }: Solid, area: readonly [number, number, number]) {
  const [ur, ui] = pair(values, l - 1, m + 1);
  const [dr, di] = pair(values, l - 1, m - 1);
  const along = pair(values, l - 1, m)[part];
  const dx = part === 0 ? (ur - dr) / 2 : (ui - di) / 2;
  // i∂y = ((∂x + i∂y) − (∂x − i∂y))/2
  const dy = part === 0 ? (ui + di) / 2 : -(ur + dr) / 2;
  return dx * area[0] + dy * area[1] + along * area[2];
}

/** Lower factor of a symmetric positive matrix given by its lower half. */
function cholesky(matrix: Float64Array, n: number): Float64Array {
  const factor = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = matrix[i * n + j] as number;
      for (let k = 0; k < j; k++) sum -= (factor[i * n + k] as number) * (factor[j * n + k] as number);
      factor[i * n + j] = i === j ? Math.sqrt(sum) : sum / (factor[j * n + j] as number);
    }
  }
  return factor;
}

/** Nodes and weights on −1…1, by Newton's method from the usual first guess. */
function gaussLegendre(n: number): readonly (readonly [number, number])[] {
  return Array.from({ length: n }, (_, i) => {
    let x = Math.cos((Math.PI * (i + 0.75)) / (n + 0.5));
    let slope = 1;
    for (let round = 0; round < 8; round++) {
      let [before, own] = [1, x];
      for (let l = 1; l < n; l++) [before, own] = [own, ((2 * l + 1) * x * own - l * before) / (l + 1)];
      slope = (n * (x * own - before)) / (x * x - 1);
      x -= own / slope;
    }
    return [x, 2 / ((1 - x * x) * slope * slope)] as const;
  });
}
