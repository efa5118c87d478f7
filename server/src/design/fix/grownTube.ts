/** A vessel in the shape of a tube, grown or shrunk without its mouth. */
import type { Column } from "../../acoustics/column.js";

/** The mouth stays in the middle of the length, or at its end; holes stay where they are. */
export function grownTube(column: Column, mouthAtSide: boolean, length: number, radius: number): Column {
  const [near, far] = [column.bore[0]?.x ?? 0, column.bore.at(-1)?.x ?? 0];
  const grown = (far - near) * (length - 1);
  const above = mouthAtSide ? grown / 2 : 0;
  const { mouth, bodyEnds } = column;
  const moved = (x: number) => (x <= near ? x - above : x + grown - above);
  return {
    ...column,
    bore: column.bore.map((station) => ({ x: moved(station.x), radius: station.radius * radius })),
    ...(bodyEnds === undefined ? {} : { bodyEnds: bodyEnds.map(moved) }),
    mouth: mouth.kind === "embouchure" ? { ...mouth, stopper: mouth.stopper + above } : mouth,
  };
}
