/** A closed chamber with openings in its wall: pure numbers, SI. All openings lie in one plane through the mouth's axis. */
import type { Mouth } from "./column.js";
import { HIGHEST_DEGREE } from "./ellipsoidHarmonics.js";

export interface VesselHole {
  /** Radius of the hole, m. */
  readonly radius: number;
  /** Wall thickness on the hole's axis, m. */
  readonly chimney: number;
  /** Round the vessel from the mouth's direction, rad. */
  readonly angle: number;
}

export interface Vessel {
  /**
   * Half lengths of the cavity, m: along the direction of the mouth, in the plane of the openings across it, and across that plane.
   * Three equal ones are a sphere.
   */
  readonly semiAxes: readonly [number, number, number];
  readonly wall: number;
  /** At angle 0. A stopper belongs to tubes and is not looked at. */
  readonly mouth: Extract<Mouth, { readonly kind: "window" | "embouchure" }>;
  readonly holes: readonly VesselHole[];
}

/** Where an opening pierces the wall. */
export interface WallPoint {
  /** In the plane of the openings, m: along the mouth's direction and across it. */
  readonly x: number;
  readonly y: number;
  /** Outward normal. */
  readonly normal: readonly [number, number];
  /** Mean curvature of the wall's inner face, 1/m. */
  readonly curvature: number;
  /** The same point of the unit sphere that the cavity is stretched from: its angle, rad. */
  readonly sphereAngle: number;
  /** 1/m: what a length on the unit sphere is worth here, averaged over directions (1/R of a sphere). */
  readonly fineness: number;
}

export function volumeOf({ semiAxes: [a, b, c] }: Pick<Vessel, "semiAxes">): number {
  return ((4 * Math.PI) / 3) * a * b * c;
}

/** Of K. Thomsen's formula for the surface of an ellipsoid, within 1.1 % (from memory): it only serves the wall losses. */
const SURFACE_POWER = 1.6075;

export function wallArea({ semiAxes: [a, b, c] }: Pick<Vessel, "semiAxes">): number {
  const p = SURFACE_POWER;
  return 4 * Math.PI * (((a * b) ** p + (b * c) ** p + (c * a) ** p) / 3) ** (1 / p);
}

/** Radius of the sphere of equal volume, m. */
export function equalRadius({ semiAxes: [a, b, c] }: Pick<Vessel, "semiAxes">): number {
  return Math.cbrt(a * b * c);
}

export function wallPoint({ semiAxes: [a, b, c] }: Pick<Vessel, "semiAxes">, angle: number): WallPoint {
  const distance = 1 / Math.hypot(Math.cos(angle) / a, Math.sin(angle) / b);
  const x = distance * Math.cos(angle);
  const y = distance * Math.sin(angle);
  const sphereAngle = Math.atan2(y / b, x / a);
  // Distance of the tangent plane from the centre.
  const support = 1 / Math.hypot(x / (a * a), y / (b * b));
  return {
    x,
    y,
    normal: [(support * x) / (a * a), (support * y) / (b * b)],
    curvature: (support ** 3 * (a * a + b * b + c * c - distance * distance)) / (2 * (a * b * c) ** 2),
    sphereAngle,
    fineness: 1 / arithmeticGeometricMean(Math.hypot(a * Math.sin(sphereAngle), b * Math.cos(sphereAngle)), c),
  };
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
 * How much of each degree is taken from the harmonics, the rest from what is local: falls smoothly to nothing, so that no ripples are left.
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
