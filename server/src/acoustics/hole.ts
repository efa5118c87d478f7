/**
 * Lengths of one round, sharp-edged side hole, m (docs/coupled-model.md §1). T-circuit:
 * half the series length on each side of the node, then inner length, chimney line and outer length.
 * a bore radius, b hole radius, t chimney on the hole's axis, δ = b/a, q = b/(a+t).
 *
 * Sources: circuit and saddle volume, C. J. Nederveen, Acoustical Aspects of Woodwind Instruments, 1998, eq. 37; form of the inner
 * length, A. Lefebvre & G. P. Scavone, J. Acoust. Soc. Am. 131 (2012) 3153; outer length, J.-P. Dalmont, C. J. Nederveen &
 * N. Joly, J. Sound Vib. 244 (2001) 505. The changed coefficients were fitted to finite elements of 27 single holes
 * (δ 0.2…0.8, t/b 0.2…3, ka up to 0.4): shunt length within −0.1…+0.45 %.
 */
export interface HoleLengths {
  /** Chimney between the saddles, the line's length. */
  readonly line: number;
  /** Inner length at low frequency, and what (ka)² adds to it. */
  readonly inner: number;
  readonly innerGrowth: number;
  /** Volume between the outer saddle and the outer cylinder, as a length. */
  readonly outerSaddle: number;
  /** Outer length with its saddle at low frequency, and what k² adds to it, m³. */
  readonly outer: number;
  readonly outerGrowth: number;
  /** Series lengths (negative), referred to the bore's section: hole open, hole closed flush outside. */
  readonly seriesOpen: number;
  readonly seriesClosed: number;
}

/** Decay of the chimney's first transverse mode, j′11, down the chimney and back. */
const CHIMNEY_ROUND_TRIP = 3.68;

/** How the two edges of a thin wall interact, by (wall/radius): nothing from a quarter of the radius on. */
const EDGES_APART = 12;

/**
 * Series length of a hole closed flush outside, over −(b δ²): nothing without a wall, what is missing of the section in a thin one.
 * @param d radius of the circle of its area over the bore's @param depth of the chimney over its half length along the bore
 */
export function closedSeries(d: number, depth: number): number {
  const decay = Math.exp(-CHIMNEY_ROUND_TRIP * depth);
  return 0.3115 - 0.028 * d - (0.355 - 0.09 * d) * decay + (0.0435 - 0.062 * d) * Math.exp(-EDGES_APART * depth);
}

/** Volume between a plane across the hole and the cylinder it meets, as a length of hole; `ratio` hole to cylinder radius. */
export function saddleLength(radius: number, ratio: number): number {
  return ((radius * ratio) / 8) * (1 + 0.207 * ratio ** 3);
}

/** End correction of a hole in the side of a cylinder over the hole's radius (Dalmont, Nederveen & Joly 2001). */
export function cylinderFlange(ratio: number): number {
  return 0.822 - 0.47 * ratio ** 0.8;
}

/** What is left of axial flow after the chimney's length there and back, a share. @param radius m @param chimney m */
export function chimneyDecay(radius: number, chimney: number): number {
  return Math.exp((-CHIMNEY_ROUND_TRIP * chimney) / radius);
}

/** Lengths of a round hole in the wall of a tube, m (docs/coupled-model.md §1). @param a bore's radius, b hole's radius, t wall on the hole's axis, m */
export function holeLengths(a: number, b: number, t: number): HoleLengths {
  const outerRadius = a + t;
  const d = b / a;
  const q = b / outerRadius;
  const outerSaddle = saddleLength(b, q);
  const decay = chimneyDecay(b, t);
  const edges = Math.exp((-EDGES_APART * t) / b);
  const polynomial = 0.809 + 0.007 * d - 1.675 * d ** 2 + 2.14 * d ** 3 - 1.6 * d ** 4 + 0.5 * d ** 5;
  return {
    line: t + saddleLength(b, d) - outerSaddle,
    inner: b * (polynomial - 0.024 * Math.exp((-3.83 * t) / b) - Math.max(0, 0.05 - 0.12 * d * d) * edges),
    innerGrowth: b * (0.29 * d - 0.18 * d * d + (0.44 * d * d * t) / b),
    outerSaddle,
    outer: b * cylinderFlange(q) + outerSaddle,
    outerGrowth: 0.19 * b * b * outerRadius,
    seriesOpen: -b * d * d * (0.3115 - 0.028 * d + 0.082 * decay + 0.04 * edges),
    seriesClosed: -b * d * d * closedSeries(d, t / b),
  };
}

/**
 * Radiation resistance of an opening on a cylinder of outer radius R, over ρc/(area of the opening): k²S/4π as for any opening in
 * free space, times what the cylinder does to it (docs/coupled-model.md §1). @param area m²
 */
export function sideResistance(area: number, outerRadius: number, k: number): number {
  const x = k * outerRadius;
  return ((k * k * area) / (4 * Math.PI)) * (1 - 0.13 * x + 0.8 * x * x);
}
