import type { Column } from "./column.js";

/**
 * An opening near a flat end of the body has less of a wall round it, and a shorter outer length. At a straight edge between two faces at
 * right angles the field that an opening makes at itself is weaker than in a plane by EDGE over the distance: Macdonald's static
 * Green function of the wedge of 3π/2, (1/4π²r)∫[coth(πζ/2α)/α − coth(ζ/2)/π]dζ/sinh(ζ/2) with α = 3π/2. On a cylinder it falls off
 * sooner, and a wide opening feels it more: DECAY, POWER and WIDTH are fitted to static finite elements of one hole alone
 * (test/reference/fem/single.py, group `bodyend`: holes of 0.15 and 0.3 of the outer radius, distances 0.35 to 2 of it), within 0.0007 of it
 * over the distance.
 */
const EDGE = 0.0183;
const DECAY = 2.04;
const POWER = 0.78;
const WIDTH = 0.2;

/** What the body's ends take from the outer length of a hole, m on its area (negative). @param radius of its outer opening, m */
export function bodyEndLength({ bodyEnds = [] }: Column, x: number, radius: number, outerRadius: number): number {
  return bodyEnds.reduce((sum, end) => {
    const distance = Math.max(Math.abs(end - x), radius);
    const near = 1 + WIDTH * (radius / distance) ** 2;
    const share = near * Math.exp(-DECAY * (distance / outerRadius) ** POWER);
    return sum - (Math.PI * radius * radius * EDGE * share) / distance;
  }, 0);
}
