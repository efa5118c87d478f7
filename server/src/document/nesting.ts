/**
 * Guesses from text and signs alone how deep values stand inside one another. The parsers are recursive, and a stack that ends
 * inside one of their regular expressions takes the whole process with it: such text must never reach them.
 */
import { CST, Lexer } from "yaml";
import type { Syntax } from "./designFile.js";

/** Deeper than any design goes by far, and a tenth of what the parsers were seen to fail at. */
const MOST_NESTED = 60;

/** True for text that a recursive parser must not be given. Brackets in quotes count too: the guess errs upward. */
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

/** Block style nests by indentation, and either style by the signs `-`, `?` and `:` one after the other in a line. */
function blocksTooDeep(text: string): boolean {
  const columns: number[] = [];
  for (const [line] of text.matchAll(/[^\r\n]+/g)) {
    const column = line.search(/[^ \t]/);
    if (column < 0 || line.charAt(column) === "#") continue;
    while ((columns.at(-1) ?? -1) >= column) columns.pop();
    columns.push(column);
    if (columns.length > MOST_NESTED) return true;
  }
  return signsTooMany(text);
}

/** The lexer knows what is a sign and what only looks so, and is not recursive. Inside brackets a comma ends what signs began. */
function signsTooMany(text: string): boolean {
  let signs = 0;
  let brackets = 0;
  let scalarFollows = false;
  for (const lexeme of new Lexer().lex(text)) {
    const type: string | null = scalarFollows ? "scalar" : CST.tokenType(lexeme);
    scalarFollows = !scalarFollows && type === "scalar";
    if (type === "flow-map-start" || type === "flow-seq-start") brackets++;
    else if (type === "flow-map-end" || type === "flow-seq-end") brackets--;
    else if (type === "newline" || (type === "comma" && brackets > 0)) signs = 0;
    else if (type === "seq-item-ind" || type === "explicit-key-ind" || type === "map-value-ind") signs++;
    if (signs > MOST_NESTED) return true;
  }
  return false;
}
