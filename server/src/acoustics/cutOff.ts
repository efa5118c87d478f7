/** Where a row of open holes begins to let sound through: above it, notes neither resonate well nor carry by their fundamental. */
import type { AirState } from "./airState.js";
import { boreRadiusAt, type Column, type Cover, type ToneHole } from "./column.js";
import { shapedLengths } from "./holeShape.js";

export interface CutOff {
  /** Indices of the two open holes in the column's own list, from the mouth. */
  readonly holes: readonly [number, number];
  /** Hz. */
  readonly frequency: number;
}

/**
 * Cut-off frequency of each pair of neighbouring open holes as if they were part of an infinite row of equal holes:
 * fc = (c/2π)(b/a)/√(2s·te), 2s their distance, te the hole's effective length (A. H. Benade, J. Acoust. Soc. Am. 32 (1960) 1591,
 * from memory). For two unlike holes, the mean of b²/te and the bore's radius between them. A half-closed hole counts as closed.
 * Good where the wave is long compared with the distance of the holes.
 */
export function cutOffFrequencies(column: Column, air: AirState, covers: readonly Cover[]): readonly CutOff[] {
  const open = column.holes
    .map((hole, index) => ({ hole, index }))
    .filter(({ index }) => covers[index] === 0)
    .sort((a, b) => a.hole.x - b.hole.x);
  return open.slice(1).flatMap(({ hole, index }, i): CutOff[] => {
    const before = open[i];
    if (before === undefined || hole.x <= before.hole.x) return [];
    const a = boreRadiusAt(column.bore, (hole.x + before.hole.x) / 2);
    const conductance = (conductanceOf(column, before.hole) + conductanceOf(column, hole)) / 2;
    const frequency = (air.soundSpeed / (2 * Math.PI * a)) * Math.sqrt(conductance / (hole.x - before.hole.x));
    return [{ holes: [before.index, index], frequency }];
  });
}

/** b²/te, m: area over effective length, over π; for an undercut hole, each length with its own area. */
function conductanceOf({ bore, wall }: Column, hole: ToneHole): number {
  const { inner, line, outer, inside, outside } = shapedLengths(boreRadiusAt(bore, hole.x), hole, wall);
  const [b1, b2] = [inside, outside].map(({ along, across }) => along * across) as [number, number];
  return 1 / (inner / b1 + line / Math.sqrt(b1 * b2) + outer / b2);
}
