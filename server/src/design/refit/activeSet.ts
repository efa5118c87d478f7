/**
 * The constraints that hold with equality in a strictly convex quadratic program with Hessian G (n × n). Their normals N (n × q) are
 * kept factorised: JᵀGJ = 1 and JᵀN = [R; 0], R upper triangular, updated by plane rotations as constraints come and go
 * (D. Goldfarb, A. Idnani, Mathematical Programming 27 (1983) 1–33, sections 3 and 4, whose names J, R, d, z, r are kept).
 */

/** A normal by its non-zero entries. */
export interface Normal {
  readonly indices: Int32Array;
  readonly values: Float64Array;
}

/**
 * A normal counts as a combination of the active ones where what is left of it is below this share of its size: some thousand
 * roundings of double precision (2⁻⁵²), as many as there may be rotations.
 */
const DEPENDENT = 2 ** -40;

export interface Direction {
  /** Of the unknowns, in which the active constraints stay as they are; undefined where the normal depends on the active ones. */
  readonly primal: Float64Array | undefined;
  /** How fast the normal's constraint rises in that direction, zᵀn = |d₂|². */
  readonly rise: number;
  /** Of the active multipliers, downward, in the order of `active`. */
  readonly dual: Float64Array;
  /** What the normal and its combination of the active ones are summed up from: their rounding is in proportion to it. */
  readonly size: number;
}

export class ActiveSet {
  /** Which constraints are active, in the order of R's columns. */
  readonly active: number[] = [];
  /** J, column after column. */
  private readonly j: Float64Array;
  /** R, column after column, each with room for n entries. */
  private readonly r: Float64Array;
  /** Length of each row of J, which no rotation changes: how far an unknown moves for a unit of cost. */
  private readonly reach: Float64Array;
  private readonly d: Float64Array;
  /** Of each active normal, in the order of `active`: the terms that its d is summed up from. */
  readonly sizes: number[] = [];
  private readonly n: number;

  /** @throws RangeError where G is not positive definite */
  constructor(hessian: readonly (readonly number[])[]) {
    const n = hessian.length;
    this.n = n;
    this.j = inverseOfUpperFactor(hessian);
    this.r = new Float64Array(n * n);
    this.d = new Float64Array(n);
    this.reach = Float64Array.from({ length: n }, (_, i) =>
      Math.hypot(...Array.from({ length: n }, (_, k) => at(this.j, k * n + i))),
    );
  }

  /** −G⁻¹g: where the program without constraints is least. */
  unconstrained(gradient: readonly number[]): Float64Array {
    const { n, j } = this;
    const x = new Float64Array(n);
    for (let k = 0; k < n; k++) {
      let sum = 0;
      for (let i = 0; i < n; i++) sum += at(j, k * n + i) * (gradient[i] ?? 0);
      for (let i = 0; i < n; i++) x[i] = at(x, i) - at(j, k * n + i) * sum;
    }
    return x;
  }

  /** Where unknowns and multipliers go as the multiplier of `normal` grows by one. */
  direction(normal: Normal): Direction {
    const { n, j, d } = this;
    const q = this.active.length;
    this.project(normal);
    let rise = 0;
    for (let k = q; k < n; k++) rise += at(d, k) ** 2;
    const dual = this.solveUpper();
    // As far as a normal is a combination of the active ones, it has their rounding, too.
    const size = dual.reduce((sum, each, i) => sum + Math.abs(each) * (this.sizes[i] as number), this.size(normal));
    if (Math.sqrt(rise) <= DEPENDENT * size) return { primal: undefined, rise: 0, dual, size };
    const primal = new Float64Array(n);
    for (let k = q; k < n; k++) {
      const share = at(d, k);
      for (let i = 0; i < n; i++) primal[i] = at(primal, i) + share * at(j, k * n + i);
    }
    return { primal, rise, dual, size };
  }

  /** Adds a constraint whose normal does not depend on the active ones. */
  add(constraint: number, normal: Normal): void {
    const { n, d } = this;
    const q = this.active.length;
    this.project(normal);
    for (let k = n - 1; k > q; k--) {
      const [cos, sin, length] = rotation(at(d, k - 1), at(d, k));
      d[k - 1] = length;
      if (sin !== 0) rotate(this.j, (k - 1) * n, k * n, n, cos, sin);
    }
    this.r.set(d.subarray(0, q + 1), q * n);
    this.active.push(constraint);
    this.sizes.push(this.size(normal));
  }

  /** The least change of x, in G's measure, that raises each active constraint by its number in `rises`. */
  correction(rises: readonly number[]): Float64Array {
    const { n, j, r } = this;
    const change = new Float64Array(n);
    const weights = new Float64Array(rises.length);
    rises.forEach((rise, k) => {
      let sum = rise;
      for (let i = 0; i < k; i++) sum -= at(r, k * n + i) * at(weights, i);
      const weight = sum / at(r, k * n + k);
      weights[k] = weight;
      for (let i = 0; i < n; i++) change[i] = at(change, i) + weight * at(j, k * n + i);
    });
    return change;
  }

  /** Drops the active constraint at `place` of `active`. */
  drop(place: number): void {
    const { n, r } = this;
    this.active.splice(place, 1);
    this.sizes.splice(place, 1);
    const q = this.active.length;
    // What stands right of the column moves left by one, and has one entry below the diagonal too many.
    r.copyWithin(place * n, (place + 1) * n, (q + 1) * n);
    for (let i = place; i < q; i++) {
      const [cos, sin, length] = rotation(at(r, i * n + i), at(r, i * n + i + 1));
      r[i * n + i] = length;
      if (sin === 0) continue;
      for (let column = i + 1; column < q; column++) {
        const above = at(r, column * n + i);
        const below = at(r, column * n + i + 1);
        r[column * n + i] = cos * above + sin * below;
        r[column * n + i + 1] = cos * below - sin * above;
      }
      rotate(this.j, i * n, (i + 1) * n, n, cos, sin);
    }
  }

  /** d = Jᵀn. */
  private project({ indices, values }: Normal): void {
    const { n, j, d } = this;
    for (let k = 0; k < n; k++) {
      let sum = 0;
      for (let e = 0; e < indices.length; e++) sum += at(j, k * n + at(indices, e)) * at(values, e);
      d[k] = sum;
    }
  }

  /** Solves R r = d₁. */
  private solveUpper(): Float64Array {
    const { n, r } = this;
    const solution = this.d.slice(0, this.active.length);
    for (let k = solution.length - 1; k >= 0; k--) {
      const value = at(solution, k) / at(r, k * n + k);
      solution[k] = value;
      for (let i = 0; i < k; i++) solution[i] = at(solution, i) - value * at(r, k * n + i);
    }
    return solution;
  }

  /** The terms that d is summed up from, without their signs: what rounding is in proportion to. */
  private size({ indices, values }: Normal): number {
    let sum = 0;
    for (let e = 0; e < indices.length; e++) sum += Math.abs(at(values, e)) * at(this.reach, at(indices, e));
    return sum;
  }
}

/** L⁻ᵀ, column after column, with G = LLᵀ by Cholesky. */
function inverseOfUpperFactor(g: readonly (readonly number[])[]): Float64Array {
  const n = g.length;
  /** L, row after row. */
  const l = new Float64Array(n * n);
  for (let i = 0; i < n; i++)
    for (let k = 0; k <= i; k++) {
      let sum = g[i]?.[k] ?? 0;
      for (let e = 0; e < k; e++) sum -= at(l, i * n + e) * at(l, k * n + e);
      if (i > k) l[i * n + k] = sum / at(l, k * n + k);
      else if (sum > 0) l[i * n + i] = Math.sqrt(sum);
      else throw new RangeError("the quadratic program is not strictly convex");
    }
  // Column k of L⁻ᵀ is row k of L⁻¹: forward substitution gives L⁻¹, row after row.
  const inverse = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    const pivot = at(l, i * n + i);
    for (let k = 0; k < i; k++) {
      let sum = 0;
      for (let e = k; e < i; e++) sum -= at(l, i * n + e) * at(inverse, e * n + k);
      inverse[i * n + k] = sum / pivot;
    }
    inverse[i * n + i] = 1 / pivot;
  }
  return inverse;
}

/** Cosine and sine of the rotation that takes (a, b) to (length, 0). */
function rotation(a: number, b: number): readonly [number, number, number] {
  if (b === 0) return [1, 0, a];
  const length = Math.hypot(a, b);
  return [a / length, b / length, length];
}

/** Rotates two columns of `length` entries that begin at `first` and `second`. */
function rotate(m: Float64Array, first: number, second: number, length: number, cos: number, sin: number): void {
  for (let i = 0; i < length; i++) {
    const a = at(m, first + i);
    const b = at(m, second + i);
    m[first + i] = cos * a + sin * b;
    m[second + i] = cos * b - sin * a;
  }
}

function at(values: Float64Array | Int32Array, i: number): number {
  return values[i] as number;
}
