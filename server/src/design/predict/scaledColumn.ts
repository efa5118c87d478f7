/** A column grown or shrunk as a whole. */
import type { Column, Mouth, ToneHole } from "../../acoustics/column.js";

/** Every length of a column times one factor. */
export function scaledColumn(column: Column, factor: number): Column {
  return {
    ...column,
    wall: column.wall * factor,
    bore: column.bore.map(({ x, radius }) => ({ x: x * factor, radius: radius * factor })),
    holes: column.holes.map((hole) => scaledHole(hole, factor)),
    mouth: scaledMouth(column.mouth, factor),
    ...(column.bodyEnds === undefined ? {} : { bodyEnds: column.bodyEnds.map((x) => x * factor) }),
  };
}

/** Every number of a hole but its direction is a length. */
function scaledHole(hole: ToneHole, factor: number): ToneHole {
  const entries = Object.entries(hole).map(([name, value]) => [name, name === "angle" ? value : value * factor]);
  return Object.fromEntries(entries) as ToneHole;
}

/** A share that a lip covers is not a length, and how far a lip lies from a notch is the player's. */
function scaledMouth(mouth: Mouth, factor: number): Mouth {
  const entries = Object.entries(mouth).map(([name, value]) => [
    name,
    typeof value === "number" && name !== "cover" ? value * factor : value,
  ]);
  const scaled = Object.fromEntries(entries) as Mouth;
  if (mouth.kind !== "notch" || mouth.depth === undefined) return scaled;
  const depth = mouth.depth * factor;
  if (mouth.gap !== undefined) return { ...scaled, gap: mouth.gap, cutUp: depth + mouth.gap } as Mouth;
  return { ...scaled, cutUp: mouth.cutUp > mouth.depth ? Math.max(depth, mouth.cutUp) : depth } as Mouth;
}
