/** Lines of text as a code block of Markdown, in which nothing is markup, a mention or a link. */
import { visibleLines } from "./visible.js";

/** The fence is longer than any run of backticks in the text (CommonMark 0.31, §4.5). */
export function markdownBlock(lines: readonly string[]): readonly string[] {
  const text = lines.map(visibleLines);
  const longest = Math.max(0, ...[...text.join("\n").matchAll(/`+/g)].map(([run]) => run.length));
  const fence = "`".repeat(Math.max(3, longest + 1));
  return [`${fence}text`, ...text, fence];
}
