/** Plain text tables for terminals. */
export type Align = "left" | "right";

/** Rows of cells as aligned text, two spaces between columns; widths count code points, enough for notes and ●○. */
export function table(
  header: readonly string[],
  align: readonly Align[],
  rows: readonly (readonly string[])[],
): string {
  const width = (text: string) => [...text].length;
  const all = [header, ...rows];
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
  return all.map(line).join("\n");
}
