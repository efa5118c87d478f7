/**
 * Openings of a vessel in the outside air, taken as that round an ellipsoid. Derived as inside (vesselInside.ts), from the sphere's sum
 * Σ(2l+1)/(l+1)P_l = 1/χ − ln(1+1/χ) over 4πR (docs/coupled-model.md §10). Degree 0 is exact by the body's capacity, degree 1 by its
 * depolarisation factors n, x x′/V · n/(1−n); from degree 2 on it is local.
 */
import { FLANGED_LENGTH } from "./radiation.js";
import {
  cosineBetween,
  straightBetween,
  type Vessel,
  volumeOf,
  type WallPoint,
  wallPointToward,
} from "./vesselShape.js";

/** (2l+1)/(l+1) = 2 − 1/(l+1) at degrees 0 and 1: a plane wall's part, and what curvature takes away. */
const FLAT_SUM = 4;
const CURVATURE_SUM = -1.5;

export class Outside {
  private readonly body: Pick<Vessel, "semiAxes">;
  private readonly volume: number;
  private readonly monopole: number;
  private readonly dipoles: readonly [number, number, number];

  constructor({ semiAxes: [a, b, c], wall }: Pick<Vessel, "semiAxes" | "wall">) {
    const axes = [a + wall, b + wall, c + wall] as const;
    this.body = { semiAxes: axes };
    this.volume = volumeOf(this.body);
    const { capacity, depolarisation } = exteriorIntegrals(axes);
    this.monopole = 1 / (4 * Math.PI * capacity);
    this.dipoles = depolarisation.map((factor) => factor / (1 - factor)) as [number, number, number];
  }

  /** Where the axis of an opening leaves the body. */
  exit(p: WallPoint, chimney: number): WallPoint {
    const [u, v, w] = p.normal;
    return wallPointToward(this.body.semiAxes, [p.x + chimney * u, p.y + chimney * v, p.z + chimney * w]);
  }

  /** Between two openings, 1/m, at low frequency. */
  between(p: WallPoint, q: WallPoint): number {
    const cosine = cosineBetween(p, q);
    const chi = Math.sqrt(Math.max(0, (1 - cosine) / 2));
    const local = 1 / chi - Math.log(1 + 1 / chi) - 1 - 1.5 * cosine;
    return this.lowDegrees(p, q) + (local * Math.sqrt(p.fineness * q.fineness)) / (4 * Math.PI);
  }

  /** End correction of an opening of radius `b`, m; `flange` is that in a plane wall over a circle's. */
  ownLength(p: WallPoint, b: number, flange: number): number {
    const { curvature, fineness } = p;
    const bent = Math.log(2 / (fineness * b)) + 0.25 + 0.45 * b * curvature + CURVATURE_SUM;
    const local = -(curvature * bent + FLAT_SUM * fineness) / (4 * Math.PI);
    return FLANGED_LENGTH * b * flange + Math.PI * b * b * (local + this.lowDegrees(p, p));
  }

  private lowDegrees(p: WallPoint, q: WallPoint): number {
    const [nx, ny, nz] = this.dipoles;
    return this.monopole + (p.x * q.x * nx + p.y * q.y * ny + p.z * q.z * nz) / this.volume;
  }
}

/** On a sphere the way round is at most this much longer than the straight one: of openings opposite each other. */
const LONGEST_WAY = 1 / (1 - Math.LN2) / 2;

/**
 * How far sound goes from one opening to the other, m: that distance in free air at which it would couple as much as at rest, `green`.
 */
export function propagationDistance(p: WallPoint, q: WallPoint, green: number): number {
  const most = LONGEST_WAY * straightBetween(p, q);
  return green > 0 ? Math.min(most, 1 / (4 * Math.PI * green)) : most;
}

/** Of the quadrature below: seven figures for bodies up to ten times as long as wide. */
const STEPS = 400;

/**
 * Capacity 2/∫ds/√((a²+s)(b²+s)(c²+s)) and depolarisation factors (abc/2)∫ds/((a_i²+s)√…) of an ellipsoid (textbooks of potential
 * theory; from memory). Substituted s = g²(t/(1−t))², by the midpoint rule.
 */
function exteriorIntegrals(axes: readonly [number, number, number]) {
  const [a, b, c] = axes;
  const scale = Math.cbrt(a * b * c);
  let plain = 0;
  const factors = [0, 0, 0];
  for (let step = 0; step < STEPS; step++) {
    const t = (step + 0.5) / STEPS;
    const root = (scale * t) / (1 - t);
    const s = root * root;
    const width = (2 * root * scale) / (1 - t) ** 2 / STEPS;
    const term = width / Math.sqrt((a * a + s) * (b * b + s) * (c * c + s));
    plain += term;
    axes.forEach((axis, i) => {
      factors[i] = (factors[i] as number) + (term * a * b * c) / (2 * (axis * axis + s));
    });
  }
  return { capacity: 2 / plain, depolarisation: factors as [number, number, number] };
}
