/** A closed chamber with openings in its wall: pure numbers, SI. */
import type { Mouth } from "./column.js";
import { HIGHEST_DEGREE } from "./ellipsoidHarmonics.js";

export interface VesselHole {
  /** Radius of the hole, m. */
  readonly radius: number;
  /** Wall thickness on the hole's axis, m. */
  readonly chimney: number;
  /** Round the vessel from the mouth's direction, in the plane of the first two half axes, rad. */
  readonly angle: number;
  /** Of the direction from the centre over that plane, rad. Default: 0, in it. */
  readonly elevation?: number;
}

export interface Vessel {
  /**
   * Half lengths of the cavity, m: along the direction of the mouth, across it in the plane from which elevations count, and across that plane.
   * Three equal ones are a sphere.
   */
  readonly semiAxes: readonly [number, number, number];
  readonly wall: number;
  /** At angle 0. A stopper belongs to tubes and is ignored. */
  readonly mouth: Extract<Mouth, { readonly kind: "window" | "embouchure" }>;
  readonly holes: readonly VesselHole[];
}

/** Where an opening pierces the wall. */
export interface WallPoint {
  /** Along the half axes, m. */
  readonly x: number;
  readonly y: number;
  readonly z: number;
  /** Outward normal. */
  readonly normal: readonly [number, number, number];
  /** Mean curvature of the wall's inner face, 1/m. */
  readonly curvature: number;
  /** The same point of the unit sphere that the cavity is stretched from. */
  readonly onSphere: readonly [number, number, number];
  /** 1/m: what a length on the unit sphere is worth here, averaged over directions (1/R of a sphere). */
  readonly fineness: number;
}

/** Of the cavity, m³. @param semiAxes m */
export function volumeOf({ semiAxes: [a, b, c] }: Pick<Vessel, "semiAxes">): number {
  return ((4 * Math.PI) / 3) * a * b * c;
}

/** Of K. Thomsen's formula for the surface of an ellipsoid, within 1.1 % (from memory): it only serves the wall losses. */
const SURFACE_POWER = 1.6075;

/** Of the cavity's wall, m², within 1.1 %. @param semiAxes m */
export function wallArea({ semiAxes: [a, b, c] }: Pick<Vessel, "semiAxes">): number {
  const p = SURFACE_POWER;
  return 4 * Math.PI * (((a * b) ** p + (b * c) ** p + (c * a) ** p) / 3) ** (1 / p);
}

/** Radius of the sphere of equal volume, m. */
export function equalRadius({ semiAxes: [a, b, c] }: Pick<Vessel, "semiAxes">): number {
  return Math.cbrt(a * b * c);
}

/** Where a direction from the centre meets the wall, m. @param angle @param elevation rad, as of a `VesselHole` */
export function wallPoint({ semiAxes }: Pick<Vessel, "semiAxes">, angle: number, elevation = 0): WallPoint {
  const level = Math.cos(elevation);
  return wallPointToward(semiAxes, [level * Math.cos(angle), level * Math.sin(angle), Math.sin(elevation)]);
}

/** Where a direction from the centre, of any length, meets the wall. Lengths in m. */
export function wallPointToward(
  [a, b, c]: Vessel["semiAxes"],
  [u, v, w]: readonly [number, number, number],
): WallPoint {
  const distance = 1 / Math.hypot(u / a, v / b, w / c);
  const [x, y, z] = [distance * u, distance * v, distance * w];
  const onSphere = [x / a, y / b, z / c] as const;
  // Distance of the tangent plane from the centre.
  const support = 1 / Math.hypot(x / (a * a), y / (b * b), z / (c * c));
  return {
    x,
    y,
    z,
    normal: [(support * x) / (a * a), (support * y) / (b * b), (support * z) / (c * c)],
    curvature: (support ** 3 * (a * a + b * b + c * c - (x * x + y * y + z * z))) / (2 * (a * b * c) ** 2),
    onSphere,
    fineness: 1 / arithmeticGeometricMean(...stretches([a, b, c], onSphere)),
  };
}

/** By how much lengths on the unit sphere grow in its tangent plane at a point, most and least: the singular values of the stretch there. */
function stretches([a, b, c]: Vessel["semiAxes"], [u, v, w]: WallPoint["onSphere"]): readonly [number, number] {
  const squares = a * a * (1 - u * u) + b * b * (1 - v * v) + c * c * (1 - w * w);
  const area = a * b * c * Math.hypot(u / a, v / b, w / c);
  const root = Math.sqrt(Math.max(0, squares * squares - 4 * area * area));
  return [Math.sqrt((squares + root) / 2), Math.sqrt((squares - root) / 2)];
}

/** Of two points, from the angle between them on the unit sphere. */
export function cosineBetween({ onSphere: [a, b, c] }: WallPoint, { onSphere: [x, y, z] }: WallPoint): number {
  return Math.max(-1, Math.min(1, a * x + b * y + c * z));
}

/** Straight from one to the other, m. */
export function straightBetween(p: WallPoint, q: WallPoint): number {
  return Math.hypot(p.x - q.x, p.y - q.y, p.z - q.z);
}

/** (1/2π)∮dφ/√(p²cos²φ + q²sin²φ) is one over it (C. F. Gauss). */
function arithmeticGeometricMean(p: number, q: number): number {
  let [high, low] = [p, q];
  for (let step = 0; step < AGM_STEPS; step++) [high, low] = [(high + low) / 2, Math.sqrt(high * low)];
  return high;
}

/** Digits double with each. */
const AGM_STEPS = 6;

/**
 * The share, 0 to 1, of each degree that is taken from the harmonics, the rest from what is local: falls smoothly to nothing, so that no ripples are left.
 */
export function share(degree: number): number {
  return Math.cos((Math.PI / 2) * (degree / (HIGHEST_DEGREE + 1))) ** 2;
}

/** Σ share(l)·weight(l)·P_l. */
export function legendreSum(cosine: number, weight: (degree: number) => number): number {
  let [before, own] = [1, cosine];
  let sum = weight(0) + share(1) * weight(1) * cosine;
  for (let l = 1; l < HIGHEST_DEGREE; l++) {
    [before, own] = [own, ((2 * l + 1) * cosine * own - l * before) / (l + 1)];
    sum += share(l + 1) * weight(l + 1) * own;
  }
  return sum;
}
