/** How many sides a circle's polygon has, and how large it is. */

/** Farthest that a side may lie from its circle, mm: below what any printer resolves. */
export const CHORD_ERROR = 0.01;
const FEWEST = 12;

/** Sides of a circle, a multiple of four so that the extremes along the axes are corners. */
export function sidesOf(radius: number, error = CHORD_ERROR): number {
  const exact = Math.PI / Math.acos(1 - Math.min(error / radius, 0.5));
  return Math.max(FEWEST, 4 * Math.ceil(exact / 4));
}

/**
 * How much larger than the circle's radius the corners lie, so that the polygon has the circle's area: an inscribed one of 64 sides
 * would make a bore of 16.000 into one of 15.987.
 */
export function equalArea(sides: number): number {
  const turn = (2 * Math.PI) / sides;
  return Math.sqrt(turn / Math.sin(turn));
}
