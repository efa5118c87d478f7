/** Small pieces of Markdown, and the way back to plain text for clients that show none. */
import { unescapeMarkdown } from "../../escape/markdown.js";

/** A table with a heading row; no rows, no table. */
export function table(heading: readonly string[], rows: readonly (readonly string[])[]): string[] {
  if (rows.length === 0) return [];
  const line = (cells: readonly string[]) => `| ${cells.join(" | ")} |`;
  return [[line(heading), line(heading.map(() => "---")), ...rows.map(line)].join("\n")];
}

/** The same words without marks, for a client that takes plain text only. */
export function toPlainText(markdown: string): string {
  const plain = markdown
    .split("\n")
    .filter((line) => !/^\|( --- \|)+$/.test(line))
    .map((line) => line.replace(/^\| | \|$/g, "").replace(/(?<!\\) \| /g, "  "))
    .join("\n")
    .replace(/\*\*|(?<!\\)[_`]/g, "");
  return unescapeMarkdown(plain);
}
