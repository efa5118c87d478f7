import { type NearPair, nearDipole, nearInside, nearOutside, nearShare, nearTurn, sizeShare } from "./nearWall.js";

/** An opening as its neighbours see it. */
export interface Place {
  readonly x: number;
  /** Around the axis, rad. */
  readonly angle: number;
  /** Outer radius of the body there, m: bore radius + chimney. */
  readonly outerRadius: number;
  /** The side of the bore, or one of its two ends. */
  readonly on: "side" | "mouthEnd" | "footEnd";
  /** Radius of the circle of its area outside, m; not used for ends. */
  readonly radius?: number;
}

/** Where an end acts: one outer radius beyond itself (read from exterior finite elements, docs/coupled-model.md §2). */
function actingX(end: Place): number {
  return end.on === "footEnd" ? end.x + end.outerRadius : end.x - end.outerRadius;
}

/**
 * The distance in free air that couples two openings as the body between them does, m: mutual impedance
 * jkρc·exp(−jkd)/(4πd). Compact fit of the Green function of an infinite rigid cylinder, within 3 % for kR ≤ 0.4, any direction, wider openings by their
 * areas' moments; nearer along the axis than 1.2 R it goes over to the near field of both openings' areas (docs/coupled-model.md §2).
 */
export function effectiveDistance(p: Place, q: Place): number {
  if (p.on !== "side" && q.on !== "side") return Math.abs(actingX(p) - actingX(q));
  if (p.on !== "side") return Math.hypot(actingX(p) - q.x, q.outerRadius);
  if (q.on !== "side") return Math.hypot(actingX(q) - p.x, p.outerRadius);
  const radius = Math.sqrt(p.outerRadius * q.outerRadius);
  const z = Math.abs(p.x - q.x) / radius;
  const s = 1 - Math.cos(p.angle - q.angle);
  const z2 = z * z;
  const near = z2 - (0.6 * z2) / (1 + 0.207 * z2);
  const far = z2 + 15 + (1.5 * z2) / (z2 + 12);
  const exponent = 1 + (0.6 + 1.3 * s) / (1 + (0.5 + 0.5 * s) * z);
  const compact = Math.sqrt(near + (far - near) * (s / 2) ** exponent);
  if (p.radius === undefined || q.radius === undefined) return radius * compact;
  const share = nearShare(z);
  const sizes = [p.radius / radius, q.radius / radius] as const;
  const pair = { z, angle: p.angle - q.angle, along: sizes, across: sizes };
  const apart = compact / (1 + sizeShare(pair));
  return radius * (share === 0 ? apart : share / (4 * Math.PI * nearOutside(pair)) + (1 - share) * apart);
}

/** A hole as the bore's near field sees it. */
export interface BoreOpening {
  readonly x: number;
  readonly angle: number;
  /** Radius of the bore there, m. */
  readonly boreRadius: number;
  /** Half its length along the bore and half its width, m: of a round hole the radius twice. */
  readonly along: number;
  readonly across: number;
}

/**
 * Evanescent modes of the bore: order m, zero α of J′m, weight ε_m/[2πα(1−m²/α²)]. The last weight closes the alternating tail
 * (docs/coupled-model.md §3).
 */
const MODES = [
  { m: 1, alpha: 1.841, weight: 0.2452 },
  { m: 2, alpha: 3.054, weight: 0.1825 },
  { m: 0, alpha: 3.832, weight: 0.0415 },
  { m: 3, alpha: 4.201, weight: 0.1546 },
  { m: 4, alpha: 5.318, weight: 0.0452 },
] as const;

/** 2 I1(y)/y, the mean of a mode over a hole, from y² (below 0 of a wide oval: 2 J1/|y|); power series, as y stays below 5. */
function holeMean(y2: number): number {
  const quarter = y2 / 4;
  let term = 1;
  let sum = 1;
  for (let n = 1; n < 200 && Math.abs(term) > sum * 1e-17; n++) {
    term *= quarter / (n * (n + 1));
    sum += term;
  }
  return sum;
}

/** Mean of exp(αz) cos(mφ) over an opening on a bore of radius `a`, the opening laid flat. */
function modeMean({ along, across }: BoreOpening, a: number, alpha: number, m: number): number {
  return holeMean(((along * alpha) ** 2 - (across * m) ** 2) / (a * a));
}

/**
 * Modes beyond those above, for openings in line: the rest of the sum over Bessel's zeros is NEXT·exp(−αz)/z, within 5 % for z
 * from 0.3 to 0.7 and nothing beyond.
 */
const NEXT = { alpha: 5.3, weight: 0.19 } as const;

/**
 * Coupling of an opening with its own mirror image `distance` m away along the bore, 1/m: within 5 % of static finite elements of one
 * hole before a rigid end (test/reference/fem/single.py, group `image`: holes of 0.265 and 0.45 of the bore, from touching it on).
 */
export function imageCoupling(opening: BoreOpening, distance: number): number {
  const a = opening.boreRadius;
  // Nearer than touching its image, an opening would be cut.
  const z = Math.max(distance, 2 * opening.along) / a;
  if (z > NEGLIGIBLE_FROM) return 0;
  const mean = ({ alpha, m = 0 }: { alpha: number; m?: number }) => modeMean(opening, a, alpha, m) ** 2;
  const modes = MODES.reduce((sum, mode) => sum + mode.weight * Math.exp(-mode.alpha * z) * mean(mode), 0);
  return (modes + (NEXT.weight * Math.exp(-NEXT.alpha * z) * mean(NEXT)) / z) / a;
}

/** Bore radii beyond which the slowest mode's share is 1e-8 and less. */
const NEGLIGIBLE_FROM = 10;

/**
 * By how much more holes opposite each other are coupled, for their size, than points would be: OPPOSITE × (radii over the bore's, multiplied) with
 * what is added for each bore radius between them along the bore. Fitted to static finite elements of two opposite holes alone
 * (test/reference/fem/opposite.py: holes of 0.3 to 0.6 of the bore): within 1.3 % up to one bore radius apart; at 1.6, where little is
 * of weight, 0.5 to 8.6 % too little.
 */
const OPPOSITE = 0.235;
const OPPOSITE_APART = 0.34;

/** Bore radii over which openings come clear of each other along the bore. */
const CLEARING = 0.2;

/**
 * Sum over the modes that two holes exchange, each by `weightOf` it. Between holes on one side and opposite ones the sizes' part is taken
 * to go over as the cosine of the angle between them. @param z along the bore, in its radii @param touching what the sizes add where z is 0
 */
function exchanged(
  p: BoreOpening,
  q: BoreOpening,
  a: number,
  z: number,
  touching: number,
  weightOf: (mode: (typeof MODES)[number]) => number,
): number {
  const angle = p.angle - q.angle;
  const opposite = Math.max(0, -Math.cos(angle));
  const grown = 1 + ((p.along * q.along) / (a * a)) * (touching + OPPOSITE_APART * z);
  // The means do not exist for openings that overlap along the bore; they fade in as the two come clear of each other.
  const clear = opposite < 1 ? Math.min(1, Math.max(0, 1 + (z - (p.along + q.along) / a) / CLEARING)) : 0;
  let sum = 0;
  for (const mode of MODES) {
    const { m, alpha } = mode;
    const means = clear > 0 ? 1 + clear * (modeMean(p, a, alpha, m) * modeMean(q, a, alpha, m) - 1) : 1;
    sum += weightOf(mode) * Math.cos(m * angle) * Math.exp(-alpha * z) * (means + opposite * (grown - means));
  }
  return sum;
}

/** Whether they are too far apart for any coupling inside the bore, their mirror images in its ends, which are farther, included. */
export function areUncoupled(p: BoreOpening, q: BoreOpening): boolean {
  return Math.abs(p.x - q.x) > NEGLIGIBLE_FROM * Math.max(p.boreRadius, q.boreRadius);
}

/** Coupling of two holes inside the bore, 1/m: mutual impedance jkρc times this, holes open or closed (docs/coupled-model.md §3). */
export function boreCoupling(p: BoreOpening, q: BoreOpening): number {
  const a = (p.boreRadius + q.boreRadius) / 2;
  const z = Math.abs(p.x - q.x) / a;
  if (z > NEGLIGIBLE_FROM) return 0;
  return (
    blended(
      z,
      () => nearInside(nearPair(p, q, a, z)),
      () => exchanged(p, q, a, z, OPPOSITE, ({ weight }) => weight),
    ) / a
  );
}

/** The near field, the modes, or a blend of the two. */
function blended(z: number, near: () => number, far: () => number): number {
  const share = nearShare(z);
  return (share > 0 ? share * near() : 0) + (share < 1 ? (1 - share) * far() : 0);
}

function nearPair(p: BoreOpening, q: BoreOpening, a: number, z: number): NearPair {
  return { z, angle: p.angle - q.angle, along: [p.along / a, q.along / a], across: [p.across / a, q.across / a] };
}

/** Bore radii beyond which a hole's outflow induces no axial flow at another's place that would move a note by 0.05 cent. */
const UNTURNED = 2.6;

/**
 * Share of a hole's outflow by which the bore's flow at another hole exceeds the plane wave's upstream of it, and falls short
 * downstream: −∂/∂x of the modes above. Without a fit within 2 % of static finite elements of an open and a closed hole opposite each
 * other (`opposite.py`, group `turn`: 0.25 to 1.5 bore radii apart); the sizes' part is as above without what touches.
 */
export function inducedAxialFlow(p: BoreOpening, q: BoreOpening): number {
  const a = (p.boreRadius + q.boreRadius) / 2;
  const z = Math.abs(p.x - q.x) / a;
  if (z > UNTURNED) return 0;
  const share = blended(
    z,
    () => nearTurn(nearPair(p, q, a, z)),
    () => Math.PI * exchanged(p, q, a, z, 0, ({ weight, alpha }) => weight * alpha),
  );
  return share * fading(z);
}

/** From here on induced flow, and what series lengths are to each other, fade out. */
const FADING = 2.4;

const fading = (z: number) => Math.min(1, (UNTURNED - z) / (UNTURNED - FADING));

/**
 * Flow along the bore that a dipole along it at the one hole's place adds at the other's, over the dipole's strength (flow × length), 1/m: the slope of
 * the flow that an outflow induces. A series length t is a dipole −t times the flow that passes it, so of two near holes each sees a flow greater by −t times this.
 * Nothing fitted; within 6 % of static finite elements of two closed holes alone (test/reference/fem/corners.py, group `pairs`: 0.6 and 0.75 of the bore,
 * 1.6 to 2.1 bore radii apart).
 */
export function axialCoupling(p: BoreOpening, q: BoreOpening): number {
  const a = (p.boreRadius + q.boreRadius) / 2;
  const z = Math.abs(p.x - q.x) / a;
  if (z > UNTURNED) return 0;
  const dipole = blended(
    z,
    () => nearDipole(nearPair(p, q, a, z)),
    () => Math.PI * exchanged(p, q, a, z, 0, ({ weight, alpha }) => weight * alpha * alpha),
  );
  return (dipole * fading(z)) / a;
}
