/** The wall left between two openings of a tube. */

/** An elliptical opening on the bore's surface. Lengths in any one unit. */
export interface SurfaceOpening {
  /** Of its centre, along the axis. */
  readonly at: number;
  /** Degrees round the axis. */
  readonly angle: number;
  /** Along the axis, edge to edge. */
  readonly length: number;
  /** Across the axis, edge to edge. */
  readonly width: number;
}

/**
 * Least distance between the edges of two openings on the bore's surface, unrolled, in their unit; negative by how far they overlap.
 * @param boreRadius of the surface between them, same unit
 */
export function wallGap(a: SurfaceOpening, b: SurfaceOpening, boreRadius: number): number {
  const along = Math.abs(a.at - b.at);
  const across = degreesBetween(a.angle, b.angle) * (Math.PI / 180) * boreRadius;
  if (isRound(a) && isRound(b)) return Math.hypot(along, across) - (a.width + b.width) / 2;
  // Two convex shapes are as far apart as the widest strip that fits between them; its direction lies between along and across.
  const strip = (direction: number) => {
    const [x, y] = [Math.cos(direction), Math.sin(direction)];
    const reach = ({ length, width }: SurfaceOpening) => Math.hypot((length / 2) * x, (width / 2) * y);
    return along * x + across * y - reach(a) - reach(b);
  };
  return greatest(strip, Math.PI / 2);
}

/** The smaller angle between two directions, 0 to 180°. */
export function degreesBetween(a: number, b: number): number {
  const turn = Math.abs(a - b) % 360;
  return Math.min(turn, 360 - turn);
}

const isRound = ({ length, width }: SurfaceOpening) => length === width;

/** Steps that are tried before the best of them is refined; overlapping ovals have two maxima at most. */
const LOOKS = 16;
const NARROWINGS = 40;
/** Each narrowing keeps this share: (√5 − 1)/2, the golden section. */
const KEEP = (Math.sqrt(5) - 1) / 2;

/** From 0 to `most`. */
function greatest(f: (x: number) => number, most: number): number {
  const step = most / LOOKS;
  const looks = Array.from({ length: LOOKS + 1 }, (_, i) => f(i * step));
  const best = looks.indexOf(Math.max(...looks));
  let [low, high] = [Math.max(0, best - 1) * step, Math.min(LOOKS, best + 1) * step];
  for (let n = 0; n < NARROWINGS; n++) {
    const [left, right] = [high - KEEP * (high - low), low + KEEP * (high - low)];
    if (f(left) < f(right)) low = left;
    else high = right;
  }
  return Math.max(f(low), f(high), f((low + high) / 2));
}
