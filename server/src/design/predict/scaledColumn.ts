/** A column grown or shrunk as a whole. */
import type { Column, Mouth, ToneHole } from "../../acoustics/column.js";
import { notchReach } from "../../acoustics/notchReach.js";

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

/** Not lengths of the instrument: the share that a lip covers, and how far it lies from a notch. */
const OF_THE_LIP: ReadonlySet<string> = new Set(["cover", "gap", "lipToEdge"]);

function scaledMouth(mouth: Mouth, factor: number): Mouth {
  const entries = Object.entries(mouth).map(([name, value]) => [
    name,
    typeof value === "number" && !OF_THE_LIP.has(name) ? value * factor : value,
  ]);
  const scaled = Object.fromEntries(entries) as Mouth;
  if (scaled.kind !== "notch" || scaled.depth === undefined) return scaled;
  return { ...scaled, cutUp: notchReach(scaled.depth, scaled) };
}
