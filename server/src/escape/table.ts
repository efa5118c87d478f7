/** Plain text tables for terminals. */
import { visible } from "./visible.js";

export type Align = "left" | "right";

/** Rows of cells as aligned text, two spaces between columns; widths count code points, enough for notes and ●○. One text a line. */
export function table(
  header: readonly string[],
  align: readonly Align[],
  rows: readonly (readonly string[])[],
): readonly string[] {
  const width = (text: string) => [...text].length;
  const all = [header, ...rows].map((row) => row.map(visible));
  const widths = header.map((_, column) => Math.max(...all.map((row) => width(row[column] ?? ""))));
  const line = (row: readonly string[]) =>
    widths
      .map((size, column) => {
        const cell = row[column] ?? "";
        const space = " ".repeat(size - width(cell));
        return align[column] === "right" ? space + cell : cell + space;
      })
      .join("  ")
      .trimEnd();
  return all.map(line);
}

/** Blocks of lines with an empty line between them. */
export function spaced(blocks: readonly (readonly string[])[]): readonly string[] {
  return blocks.flatMap((block, i) => (i === 0 ? block : ["", ...block]));
}
