/** Small pieces of Markdown, and the way back to plain text for clients that show none. */

/** Text of the design inside Markdown: nothing in it may turn into a link, an image or a heading. */
export function escapeMarkdown(text: string): string {
  return text
    .replace(/[\\`*_{}[\]()#+!|<>~]/g, "\\$&")
    .replace(/\s+/g, " ")
    .slice(0, LONGEST_TEXT);
}

/** Longer names say nothing more in a hover. */
const LONGEST_TEXT = 200;

/** A table with a heading row; no rows, no table. */
export function table(heading: readonly string[], rows: readonly (readonly string[])[]): string[] {
  if (rows.length === 0) return [];
  const line = (cells: readonly string[]) => `| ${cells.join(" | ")} |`;
  return [[line(heading), line(heading.map(() => "---")), ...rows.map(line)].join("\n")];
}

/** The same words without marks, for a client that takes plain text only. */
export function toPlainText(markdown: string): string {
  return markdown
    .split("\n")
    .filter((line) => !/^\|( --- \|)+$/.test(line))
    .map((line) => line.replace(/^\| | \|$/g, "").replace(/(?<!\\) \| /g, "  "))
    .join("\n")
    .replace(/\*\*|(?<!\\)[_`]/g, "")
    .replace(/\\([\\`*_{}[\]()#+!|<>~])/g, "$1");
}
