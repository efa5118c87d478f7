/** Holes as a table: place, size, what drill to begin with. */
import type { HoleOutline } from "../../design/outline/outline.js";
import { lengthIn, type Pen, type Point, shortNumber } from "./sheet.js";
import { drawTable, ROW, tableWidth } from "./table.js";

/** Drills of common sets go by half millimetres from 1 to 13 (common practice, no source); one drills under and opens to size. */
const BIT_STEP = 0.5;
const BITS = { least: 1, most: 13 } as const;

/** mm of the drill to begin with; undefined where none of a set is small or large enough to be of use. */
export function bitFor(diameter: number): number | undefined {
  const bit = Math.floor(diameter / BIT_STEP + 1e-9) * BIT_STEP;
  return bit < BITS.least ? undefined : Math.min(bit, BITS.most);
}

const COLUMNS = [
  { head: "hole", width: 16 },
  { head: "from mouth", width: 20 },
  { head: "⌀", width: 20 },
  { head: "chimney", width: 16 },
  { head: "side", width: 16 },
  { head: "drill mm", width: 16 },
] as const;

export const TABLE_WIDTH = tableWidth(COLUMNS);

/** @param unit mm in one unit of the file @param most rows that have room; how many are left out is stated */
export function drawHoleTable(pen: Pen, at: Point, holes: readonly HoleOutline[], unit: number, most: number): void {
  const length = lengthIn(unit);
  const rows = holes.map((hole) => [
    hole.name,
    length(hole.at),
    `${sizeOf(hole, length)}${hole.undercut > 0 ? ` +${length(hole.undercut)}` : ""}`,
    length(hole.chimney),
    sideInWords(hole.angle),
    bitInWords(hole),
  ]);
  const [x, y] = at;
  drawTable(pen, at, COLUMNS, rows, most);
  if (holes.some(({ undercut }) => undercut > 0))
    pen.text([x, y + (Math.min(holes.length, most) + 1.6) * ROW], "+ undercut: how much wider at the bore", {
      size: 2.5,
    });
}

/** Of a diameter, or of an oval's two; in the file's unit. */
export function sizeOf(
  { width, length }: { readonly width: number; readonly length: number },
  inUnit: (mm: number) => string,
): string {
  return `${inUnit(width)}${length === width ? "" : ` × ${inUnit(length)}`}`;
}

export function bitInWords({ width, length }: { readonly width: number; readonly length: number }): string {
  return bitFor(Math.min(width, length))?.toFixed(1) ?? "–";
}

/** With a true minus. */
export function degrees(angle: number): string {
  return `${shortNumber(angle).replace("-", "−")}°`;
}

function sideInWords(angle: number): string {
  const turn = ((angle % 360) + 360) % 360;
  if (turn === 0) return "front";
  return turn === 180 ? "back" : degrees(angle);
}
