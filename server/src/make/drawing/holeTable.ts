/** Holes as a table: place, size, what drill to begin with. */
import type { HoleOutline } from "../../design/outline/outline.js";
import { type Pen, type Point, shortNumber } from "./sheet.js";

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
const ROW = 4.6;

export const TABLE_WIDTH = COLUMNS.reduce((sum, { width }) => sum + width, 0);

/** @param unit mm in one unit of the file @param most rows that have room; the rest is told */
export function drawHoleTable(
  pen: Pen,
  [x, y]: Point,
  holes: readonly HoleOutline[],
  unit: number,
  most: number,
): void {
  const decimals = unit === 1 ? 2 : 3;
  const length = (mm: number) => shortNumber(mm / unit, decimals);
  const rows = holes
    .slice(0, most)
    .map((hole) => [
      hole.name,
      length(hole.at),
      `${length(hole.width)}${hole.length === hole.width ? "" : ` × ${length(hole.length)}`}${hole.undercut > 0 ? ` +${length(hole.undercut)}` : ""}`,
      length(hole.chimney),
      sideInWords(hole.angle),
      bitFor(Math.min(hole.width, hole.length))?.toFixed(1) ?? "–",
    ]);
  for (const [r, cells] of [COLUMNS.map(({ head }) => head), ...rows].entries()) {
    let left = x;
    for (const [c, { width }] of COLUMNS.entries()) {
      const [first, text] = [c === 0, cells[c] ?? ""];
      pen.text([first ? left : left + width, y + r * ROW], text, { size: 2.8, anchor: first ? "start" : "end" });
      left += width;
    }
    if (r === 0)
      pen.line([
        [x, y + 1.4],
        [x + TABLE_WIDTH, y + 1.4],
      ]);
  }
  if (holes.length > most) pen.text([x, y + (most + 1) * ROW], `and ${holes.length - most} more`, { size: 2.8 });
  if (holes.some(({ undercut }) => undercut > 0))
    pen.text([x, y + (Math.min(holes.length, most) + 1.6) * ROW], "+ undercut: so much wider at the bore", {
      size: 2.5,
    });
}

function sideInWords(angle: number): string {
  const turn = ((angle % 360) + 360) % 360;
  if (turn === 0) return "front";
  return turn === 180 ? "back" : `${shortNumber(angle)}°`;
}
