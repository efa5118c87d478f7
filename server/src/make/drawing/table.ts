/** A table on a sheet: the first column from its left edge, the others up to their right ones. */
import type { Pen, Point } from "./sheet.js";

export interface TableColumn {
  readonly head: string;
  /** mm */
  readonly width: number;
}

/** mm from row to row, and of letters. */
export const ROW = 4.6;
const SIZE = 2.8;

export function tableWidth(columns: readonly TableColumn[]): number {
  return columns.reduce((sum, { width }) => sum + width, 0);
}

/** @param most rows that have room; how many are left out is stated */
export function drawTable(
  pen: Pen,
  [x, y]: Point,
  columns: readonly TableColumn[],
  rows: readonly (readonly string[])[],
  most: number,
): void {
  const lines = [columns.map(({ head }) => head), ...rows.slice(0, most)];
  for (const [r, cells] of lines.entries()) {
    let left = x;
    for (const [c, { width }] of columns.entries()) {
      const isFirst = c === 0;
      const at: Point = [isFirst ? left : left + width, y + r * ROW];
      pen.text(at, cells[c] ?? "", { size: SIZE, anchor: isFirst ? "start" : "end" });
      left += width;
    }
  }
  pen.line([
    [x, y + 1.4],
    [x + tableWidth(columns), y + 1.4],
  ]);
  if (rows.length > most) pen.text([x, y + (most + 1) * ROW], `and ${rows.length - most} more`, { size: SIZE });
}
