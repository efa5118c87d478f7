/** Which holes lie under neighbouring fingers of one hand. */
import type { Column } from "../../acoustics/column.js";
import { UPPER_HAND } from "../../instrument/defaults.js";
import type { Analysis } from "../predict/analysis.js";

/**
 * Pairs of holes that neighbouring fingers of one hand cover, upper hole first. Hands by the names where every hole in front
 * is called L… or R…; else the upper three are one hand's. Holes at the back are a thumb's and pair with nothing.
 */
export function neighbouringFingers(analysis: Analysis, column: Column): readonly (readonly [number, number])[] {
  const front = column.holes
    .map(({ x, angle }, hole) => ({ x, hole, front: Math.cos(angle) > 0.5 }))
    .filter((hole) => hole.front)
    .sort((a, b) => a.x - b.x);
  const names = front.map(({ hole }) => analysis.instrument.holes[hole]?.name ?? "");
  const named = names.every((name) => /^[LR]/i.test(name));
  const hand = (i: number) => (named ? names[i]?.charAt(0).toUpperCase() : i < UPPER_HAND ? "upper" : "lower");
  return front.flatMap(({ hole }, i) => {
    const next = front[i + 1];
    return next !== undefined && hand(i) === hand(i + 1) ? [[hole, next.hole] as const] : [];
  });
}
