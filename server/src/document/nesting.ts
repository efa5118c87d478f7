/**
 * Guesses from the text alone how deep values stand inside one another. The parsers are recursive, and a stack that ends
 * inside one of their regular expressions takes the whole process with it: such text must never reach them.
 */
import type { Syntax } from "./designFile.js";

/** Deeper than any design goes by far, and a tenth of what the parsers were seen to fail at. */
const MOST_NESTED = 60;

/** True for text that a recursive parser must not be given. Quotes count as if they were none: the guess errs upward. */
export function nestsTooDeep(text: string, syntax: Syntax): boolean {
  return bracketsTooDeep(text) || (syntax === "yaml" && blocksTooDeep(text));
}

function bracketsTooDeep(text: string): boolean {
  let depth = 0;
  for (const [bracket] of text.matchAll(/[[\]{}]/g)) {
    depth = Math.max(0, depth + (bracket === "[" || bracket === "{" ? 1 : -1));
    if (depth > MOST_NESTED) return true;
  }
  return false;
}

/** Block style nests by indentation, and by the signs `-`, `?` and `:` one after the other in a line. */
function blocksTooDeep(text: string): boolean {
  const columns: number[] = [];
  for (const [line] of text.matchAll(/[^\r\n]+/g)) {
    const column = line.search(/[^ \t]/);
    if (column < 0 || line.charAt(column) === "#") continue;
    while ((columns.at(-1) ?? -1) >= column) columns.pop();
    columns.push(column);
    if (columns.length > MOST_NESTED || signsBeforeComment(line) > MOST_NESTED) return true;
  }
  return false;
}

function signsBeforeComment(line: string): number {
  let signs = 0;
  for (const { 0: sign } of line.matchAll(/[-?:](?=[ \t]|$)|[ \t]#/g)) {
    if (sign.length > 1) break;
    signs++;
  }
  return signs;
}
