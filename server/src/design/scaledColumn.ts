/** A column grown or shrunk as a whole. */
import type { Column, Mouth } from "../acoustics/column.js";

/** Every length of a column times one factor. */
export function scaledColumn(column: Column, factor: number): Column {
  return {
    ...column,
    wall: column.wall * factor,
    bore: column.bore.map(({ x, radius }) => ({ x: x * factor, radius: radius * factor })),
    holes: column.holes.map((hole) => ({
      ...hole,
      x: hole.x * factor,
      radius: hole.radius * factor,
      chimney: hole.chimney * factor,
    })),
    mouth: scaledMouth(column.mouth, factor),
  };
}

/** A share that a lip covers is no length. */
function scaledMouth(mouth: Mouth, factor: number): Mouth {
  const entries = Object.entries(mouth).map(([name, value]) => [
    name,
    typeof value === "number" && name !== "cover" ? value * factor : value,
  ]);
  return Object.fromEntries(entries) as Mouth;
}
