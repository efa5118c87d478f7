/**
 * Two openings near each other on the wall of an infinite cylinder, static, each giving out evenly over its area: what a modal sum or a single
 * effective distance cannot follow, side by side above all. All lengths over the cylinder's radius; results are times that radius.
 *
 * Derived: on the unrolled wall the Green function is 1/(2πρ), its first curvature term ∓(1/8π)(ln ρ + z²/ρ²) inside and outside, and inside less the
 * plane wave's −z/2π (both from Debye's expansion of I_m/κI′_m and K_m/κK′_m, averaged over round openings by 1/ρ's Laplacian). What is left is smooth,
 * and is a polynomial fitted to Σ_m ∫ of those functions over both openings' areas (docs/coupled-model.md §2, §3): within 0.004 inside (openings to
 * 0.6) and 2 % outside (to 0.45), all angles, from touching to 1.1 radii along the axis.
 */

/** Where two openings lie from each other, and how large they are. */
export interface NearPair {
  /** Along the axis, at least 0, and around it, rad. */
  readonly z: number;
  readonly angle: number;
  /** Half sizes of both, along the axis and across. */
  readonly along: readonly [number, number];
  readonly across: readonly [number, number];
}

/** Up to here the near field alone is taken, and from there on none of it; between, a smooth blend. */
const NEAR = 0.8;
const FAR = 1.2;
/** Openings that would cut each other are taken this share of their least sizes apart. */
const LEAST_APART = 0.85;

/** Polynomials of the rest in 1 − cos φ (u) and z² (v): 1, u, u², v, uv, v²; and, times both sizes squared, 1, u, v. */
const INSIDE = [-0.17965, -0.00258, 0.00071, -0.04606, 0.00208, 0.00172, -0.01527, -0.00079, 0.00991] as const;
const OUTSIDE = [-0.07722, -0.00557, 0.00037, -0.01516, 0.00361, 0.00361, 0, 0, 0] as const;

/**
 * How much more holes opposite each other in a bore are coupled, for their size, than even flow over them gives: times the product of their radii. Fitted to static
 * finite elements of two opposite holes alone (test/reference/fem/opposite.py): within 0.5 % to z = 1.
 */
const OPPOSITE = 0.043;
const OPPOSITE_APART = 0.08;
/** For a slope by difference, and for a slope's slope. */
const STEP = 1e-4;
const WIDE_STEP = 1e-2;

/** Share of the near field at a distance along the axis: 1 to 0, with no kink. */
export function nearShare(z: number): number {
  const t = Math.min(1, Math.max(0, (FAR - z) / (FAR - NEAR)));
  return t * t * (3 - 2 * t);
}

/** Green function of two openings outside, in units of 1/R (R the outer radius; lengths of `pair` over R): d = 1/(4π · this) is the distance in free air that couples alike. */
export function nearOutside(pair: NearPair): number {
  const { wall, curvature, rest } = parts(pair, OUTSIDE);
  return wall + curvature + rest;
}

/**
 * The share by which openings farther apart are coupled more than those for which one effective distance stands in, 0.3 of the radius wide: the second
 * and fourth moments of their areas on the unrolled wall, fading out where they no longer matter.
 * Of 0.47, 1.1 radii apart in line within 0.8 % instead of 2.8; 65° around 4.4 instead of 5.4.
 */
export function sizeShare(pair: NearPair): number {
  const { square, second, fourth } = moments(pair);
  const usual = moments({ ...pair, along: [USUAL, USUAL], across: [USUAL, USUAL] });
  return (second + fourth - usual.second - usual.fourth) / (1 + (square / FADED ** 2) ** 3);
}
const USUAL = 0.3;
const FADED = 1.6;

/** Coupling in the bore beyond the plane wave's, over 1/a. */
export function nearInside(pair: NearPair): number {
  const { growth } = grownBy(pair);
  return (evenInside(pair) + pair.z / (2 * Math.PI)) * growth;
}

/** −π times the slope of `nearInside` along the axis: flow along the bore that the one's outflow adds at the other's place, upstream of it. */
export function nearTurn(pair: NearPair): number {
  const { growth, perZ } = grownBy(pair);
  return -Math.PI * (slopeInside(pair) * growth + (evenInside(pair) + pair.z / (2 * Math.PI)) * perZ);
}

/** π times the slope's slope: flow along the bore that a dipole along the axis at the one's place adds at the other's, over 1/a. */
export function nearDipole(pair: NearPair): number {
  const { z } = pair;
  const at = (place: number) => evenInside({ ...pair, z: Math.abs(place) });
  const { growth, perZ } = grownBy(pair);
  const bend = (at(z + WIDE_STEP) - 2 * at(z) + at(z - WIDE_STEP)) / WIDE_STEP ** 2;
  return Math.PI * (bend * growth + 2 * slopeInside(pair) * perZ);
}

function slopeInside(pair: NearPair): number {
  const { z } = pair;
  const at = (place: number) => evenInside({ ...pair, z: Math.abs(place) });
  return (at(z + STEP) - at(z - STEP)) / (2 * STEP) + 1 / (2 * Math.PI);
}

/** What is even in z. */
function evenInside(pair: NearPair): number {
  const { wall, curvature, rest } = parts(pair, INSIDE);
  return wall - curvature + rest;
}

function grownBy({ angle, along, z }: NearPair) {
  const product = Math.max(0, -Math.cos(angle)) * along[0] * along[1];
  return { growth: 1 + product * (OPPOSITE + OPPOSITE_APART * z), perZ: product * OPPOSITE_APART };
}

function parts(
  { z, angle, along, across }: NearPair,
  [one, u1, u2, v1, uv, v2, q0, qu, qv]: typeof INSIDE | typeof OUTSIDE,
) {
  const u = 1 - Math.cos(angle);
  const v = z * z;
  const { square, c, second, fourth, alongs, acrosses } = moments({ z, angle, along, across });
  return {
    wall: (1 + second + fourth) / (2 * Math.PI * c),
    curvature: (Math.log(c) + v / square) / (8 * Math.PI),
    rest:
      one + u1 * u + u2 * u * u + v1 * v + uv * u * v + v2 * v * v + 4 * (alongs + acrosses) * (q0 + qu * u + qv * v),
  };
}

/** Distance on the unrolled wall, and what the openings' sizes add to the mean of its inverse, as shares. */
function moments({ z, angle, along, across }: NearPair) {
  const u = 1 - Math.cos(angle);
  const v = z * z;
  const least = LEAST_APART * (Math.min(along[0], across[0]) + Math.min(along[1], across[1]));
  const square = Math.max(2 * u + v, least * least);
  const c = Math.sqrt(square);
  // Means over ellipses: a quarter of each half size squared is the mean square of a place in them.
  const alongs = (along[0] ** 2 + along[1] ** 2) / 8;
  const acrosses = (across[0] ** 2 + across[1] ** 2) / 8;
  const second = (alongs * (2 * v - 2 * u) + acrosses * (4 * u - v)) / (square * square);
  const [p, q] = [along[0] * across[0], along[1] * across[1]];
  const fourth = (9 * ((p * p + q * q) / 192 + (p * q) / 64)) / (square * square);
  return { square, c, second, fourth, alongs, acrosses };
}
