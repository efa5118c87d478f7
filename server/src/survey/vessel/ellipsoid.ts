/** The ellipsoid through points of a chamber's skin. */
import { median } from "../../sound/median.js";
import { dot, eigen, plus, times, unit, type Vector } from "../mesh/vector.js";

export interface Ellipsoid {
  readonly centre: Vector;
  /** Half axes, least first, and their directions. */
  readonly axes: readonly [number, number, number];
  readonly vectors: readonly [Vector, Vector, Vector];
  /** Of the skin from the origin, in a unit direction. */
  readonly radius: (direction: Vector) => number;
  /** Out of the chamber, where that ray meets the skin. */
  readonly normal: (direction: Vector) => Vector;
  /** Direction from the origin to the point of the skin whose normal passes through a place. */
  readonly under: (place: Vector) => Vector;
}

/** Least squares of x·A·x + 2·b·x = 1. Undefined where that is not an ellipsoid. */
export function ellipsoidThrough(points: readonly Vector[]): Ellipsoid | undefined {
  const scale = median(points.map((point) => Math.hypot(...point)));
  const solved = solve(points.map((point) => times(point, 1 / scale)));
  if (solved === undefined) return undefined;
  const [xx, yy, zz, xy, xz, yz, x, y, z] = solved as [
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  const found = eigen([
    [xx, xy, xz],
    [xy, yy, yz],
    [xz, yz, zz],
  ]);
  if (!(found[0].value > 0)) return undefined;
  const b: Vector = [x, y, z];
  const centre = found.reduce<Vector>(
    (sum, { value, vector }) => plus(sum, vector, -dot(vector, b) / value),
    [0, 0, 0],
  );
  const level = 1 + found.reduce((sum, { value, vector }) => sum + value * dot(vector, centre) ** 2, 0);
  // The greatest value is the least axis.
  const ordered = [...found].reverse();
  const axes = ordered.map(({ value }) => scale * Math.sqrt(level / value)) as unknown as Ellipsoid["axes"];
  const vectors = ordered.map(({ vector }) => vector) as unknown as Ellipsoid["vectors"];
  return ellipsoid(times(centre, scale), axes, vectors);
}

function ellipsoid(centre: Vector, axes: Ellipsoid["axes"], vectors: Ellipsoid["vectors"]): Ellipsoid {
  const form = (p: Vector) =>
    vectors.reduce<Vector>((sum, vector, i) => plus(sum, vector, dot(vector, p) / (axes[i] as number) ** 2), [0, 0, 0]);
  const radius = (u: Vector) => {
    const mu = form(u);
    const [a, b, c] = [dot(u, mu), -dot(centre, mu), dot(centre, form(centre)) - 1];
    return (-b + Math.sqrt(Math.max(0, b * b - a * c))) / a;
  };
  const normal = (u: Vector) => unit(form(plus(times(u, radius(u)), centre, -1)));
  const under = (place: Vector) => {
    let u = unit(place);
    for (let round = 0; round < 12; round++) {
      const skin = times(u, radius(u));
      const n = normal(u);
      u = unit(plus(place, n, -dot(plus(place, skin, -1), n)));
    }
    return u;
  };
  return { centre, axes, vectors, radius, normal, under };
}

/** Normal equations by elimination with pivots. */
function solve(points: readonly Vector[]): readonly number[] | undefined {
  const n = 9;
  const rows: Float64Array[] = Array.from({ length: n }, () => new Float64Array(n + 1));
  for (const [x, y, z] of points) {
    const f = [x * x, y * y, z * z, 2 * x * y, 2 * x * z, 2 * y * z, 2 * x, 2 * y, 2 * z];
    for (let i = 0; i < n; i++) {
      const row = rows[i] as Float64Array;
      for (let j = 0; j < n; j++) row[j] = (row[j] as number) + (f[i] as number) * (f[j] as number);
      row[n] = (row[n] as number) + (f[i] as number);
    }
  }
  for (let i = 0; i < n; i++) {
    let pivot = i;
    for (let r = i + 1; r < n; r++)
      if (Math.abs((rows[r] as Float64Array)[i] as number) > Math.abs((rows[pivot] as Float64Array)[i] as number))
        pivot = r;
    const [a, b] = [rows[i] as Float64Array, rows[pivot] as Float64Array];
    [rows[i], rows[pivot]] = [b, a];
    if (!(Math.abs(b[i] as number) > 1e-12)) return undefined;
    for (let r = 0; r < n; r++) {
      if (r === i) continue;
      const row = rows[r] as Float64Array;
      const k = (row[i] as number) / (b[i] as number);
      for (let c = i; c <= n; c++) row[c] = (row[c] as number) - k * (b[c] as number);
    }
  }
  return rows.map((row, i) => (row[n] as number) / (row[i] as number));
}
