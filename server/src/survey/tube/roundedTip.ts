/** What a scan may have lost of a labium's thin edge. */
import { lineThrough } from "../mesh/statistics.js";

/** Levels of the ramp that its line is taken from, as shares from the edge outward: neither end of it is straight in a scan. */
const STRAIGHT = [0.3, 0.9] as const;
const FEWEST = 8;
/** mm: a level nearer to the ramp's line is on it; levels that differ less are an edge cut square, which has no tip to lose. */
const ON_LINE = 0.06;
const SQUARE = 0.1;

/**
 * How much farther upstream a labium would end if its ramp went on to the height of its foremost edge, mm. A blunt edge and a sharp one look alike once they
 * are rounded, so that this is the most that is lost, not what is; 0 where the edge is sharp or cut square.
 * @param downs the wood's beginning along the axis, level by level from the bore outward
 */
export function roundedTip(downs: readonly number[]): number {
  const seen = downs.filter(Number.isFinite);
  const foremost = seen.indexOf(Math.min(...seen));
  const [from, to] = STRAIGHT.map((share) => foremost + Math.round(share * (seen.length - foremost))) as [
    number,
    number,
  ];
  if (to - from < FEWEST) return 0;
  const levels = seen.map((_, i) => i);
  const { start, slope } = lineThrough(levels.slice(from, to), seen.slice(from, to));
  if (!(slope > 0)) return 0;
  const begins = seen.findIndex((down, i) => i >= foremost && down - (start + slope * i) <= ON_LINE);
  const nose = seen.slice(foremost, begins);
  if (nose.length < 2 || Math.max(...nose) - Math.min(...nose) < SQUARE) return 0;
  return Math.max(0, (seen[foremost] as number) - (start + slope * foremost));
}
