/**
 * How openings act on each other and themselves through the air inside a vessel: the Green function of a rigid ellipsoid for sources in
 * its wall, without its uniform part −1/k²V. Pressure is jkρc·G·flow.
 *
 * Derived, nothing fitted. Static part, ∇²G = 1/V inside and ∂G/∂n = δ on the wall:
 *     G = (|r|²+|r′|²)/6V − (8/15)(a²+b²+c²)/6V + Σ E_n(r)E_n(r′),
 * E_n the harmonics of ellipsoidHarmonics.ts, each degree with its `share`. What is left is local and taken from the sphere, whose
 * whole sum is [1/χ − 2 − ln χ(1+χ)]/4πR with χ = sin(θ/2) (docs/coupled-model.md §10): between two openings at their angles on the unit
 * sphere the body is stretched from, at one opening the plane wall's part by `fineness` and the rest by the mean curvature, which is
 * what the singularity of a Neumann function goes by. For a sphere this is exact; against finite elements of three ellipsoids of 2 : 1
 * (test/reference/fem-ellipsoids.json) −3.2…+0.6 cents, +4.7 with the mouth at the sharp end. No constant is fitted to them, but how
 * the exact and the local parts divide was chosen with the first three in view.
 * Dynamic part: the fields x, y and z grow as those of a sphere of radius equal to their half axis,
 * j₁(x)/(x j₁′(x)), x = k·a.
 */
import { contributions, EllipsoidHarmonics, type FieldValues } from "./ellipsoidHarmonics.js";
import { FLANGED_LENGTH } from "./radiation.js";
import { cosineBetween, legendreSum, share, type Vessel, volumeOf, type WallPoint } from "./vesselShape.js";

/** The sphere's own sum of the part taken exactly, at one point: a flat wall's part, Σ2 with degree 0, and what curvature adds. */
const FLAT_SUM = legendreSum(1, () => 2);
const CURVATURE_SUM = legendreSum(1, (l) => (l === 0 ? -2 : 1 / l));

/** Beyond this x a sphere's own first resonance (2.08) is near and the growth is not followed any more. */
const GREATEST_X = 1.8;

export class Inside {
  private readonly volume: number;
  private readonly harmonics: EllipsoidHarmonics;
  private readonly uniform: number;

  constructor(private readonly vessel: Pick<Vessel, "semiAxes">) {
    this.volume = volumeOf(vessel);
    this.harmonics = new EllipsoidHarmonics(vessel.semiAxes);
    const [a, b, c] = vessel.semiAxes;
    this.uniform = (8 / 15) * (a * a + b * b + c * c);
  }

  /** The fields at a place, for the functions below. */
  fieldsAt({ x, y, z }: WallPoint): FieldValues {
    return this.harmonics.at(x, y, z);
  }

  /** Between two different openings, 1/m, at low frequency. */
  between(p: WallPoint, pFields: FieldValues, q: WallPoint, qFields: FieldValues): number {
    const cosine = cosineBetween(p, q);
    const chi = Math.sqrt(Math.max(0, (1 - cosine) / 2));
    const whole = 1 / chi - 2 - Math.log(chi * (1 + chi));
    const local = whole - legendreSum(cosine, (l) => (l === 0 ? 0 : (2 * l + 1) / l));
    return this.lowDegrees(p, pFields, q, qFields) + (local * Math.sqrt(p.fineness * q.fineness)) / (4 * Math.PI);
  }

  /**
   * Inner length of a round opening of radius `b` with the vessel's own answer in it, m, on the opening's area. `flange` is its end
   * correction in a plane wall over that of a circle.
   */
  ownLength(p: WallPoint, fields: FieldValues, b: number, flange: number): number {
    const { curvature } = p;
    const bent = Math.log(2 / (p.fineness * b)) - 1.75 - 0.45 * b * curvature - CURVATURE_SUM;
    const local = (curvature * bent - FLAT_SUM * p.fineness) / (4 * Math.PI);
    return FLANGED_LENGTH * b * flange + Math.PI * b * b * (local + this.lowDegrees(p, fields, p, fields));
  }

  /** What `between`, and `ownLength` over the area, grow by at wave number `k`, 1/m. */
  growthAt(k: number): (p: WallPoint, q: WallPoint) => number {
    const [x = 0, y = 0, z = 0] = this.vessel.semiAxes.map((axis) => (dipole(k * axis) - 1) / this.volume);
    return (p, q) => p.x * q.x * x + p.y * q.y * y + p.z * q.z * z;
  }

  private lowDegrees(p: WallPoint, pFields: FieldValues, q: WallPoint, qFields: FieldValues): number {
    const squares = p.x ** 2 + p.y ** 2 + p.z ** 2 + q.x ** 2 + q.y ** 2 + q.z ** 2;
    const uniform = (squares - this.uniform) / (6 * this.volume);
    return uniform + contributions(pFields, qFields, share);
  }
}

/** j₁(x)/(x j₁′(x)): 1 + x²/5 + …, spherical Bessel functions by their series. */
function dipole(argument: number): number {
  const z = Math.min(argument, GREATEST_X) ** 2;
  const j = 1 - (z / 10) * (1 - (z / 28) * (1 - (z / 54) * (1 - z / 88)));
  const slope = 1 - (3 * z) / 10 + (z * z) / 56 - z ** 3 / 2160 + z ** 4 / 147840;
  return j / slope;
}
