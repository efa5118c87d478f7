/** Pairs things of two rows along an axis by their places alone. */
import type { Both } from "./pairs.js";

/**
 * The pairing in order along the axis with the least sum of distances, in which a thing without a partner counts half of
 * `farthest`: nothing is paired over more than that. (Needleman and Wunsch 1970: alignment of two sequences by dynamic programming.)
 * @param distance between thing i of the old row and thing j of the new one
 */
export function pairByPlace(
  oldCount: number,
  nextCount: number,
  distance: (old: number, next: number) => number,
  farthest: number,
): readonly Both[] {
  const gap = farthest / 2;
  const width = nextCount + 1;
  const cost = new Float64Array((oldCount + 1) * width);
  const at = (old: number, next: number) => cost[old * width + next] ?? 0;
  const paired = (old: number, next: number) => at(old - 1, next - 1) + distance(old - 1, next - 1);
  for (let old = 0; old <= oldCount; old++)
    for (let next = 0; next <= nextCount; next++) {
      if (old === 0 && next === 0) continue;
      cost[old * width + next] = Math.min(
        old > 0 && next > 0 ? paired(old, next) : Number.POSITIVE_INFINITY,
        old > 0 ? at(old - 1, next) + gap : Number.POSITIVE_INFINITY,
        next > 0 ? at(old, next - 1) + gap : Number.POSITIVE_INFINITY,
      );
    }
  const pairs: Both[] = [];
  for (let old = oldCount, next = nextCount; old > 0 && next > 0; ) {
    if (at(old, next) === paired(old, next)) pairs.push({ old: --old, next: --next });
    else if (at(old, next) === at(old - 1, next) + gap) old--;
    else next--;
  }
  return pairs.reverse();
}
