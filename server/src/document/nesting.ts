/**
 * Guesses from text and signs alone how much there is to read and how deep values stand inside one another. The parsers are recursive, and a stack that ends
 * inside one of their regular expressions takes the whole process with it: such text must never reach them.
 */
import { CST, Lexer } from "yaml";
import type { Syntax } from "./designFile.js";

/** Deeper than any design goes by far, and a tenth of what the parsers were seen to fail at. */
const MOST_NESTED = 60;

/**
 * Words and signs of one file that are read. The largest design that the schema allows (1000 stations, 100 holes, 1000 fingerings)
 * has about 50,000; reading takes some 5 µs for each, on the thread that answers keystrokes.
 */
export const MOST_TOKENS = 120_000;

/** What stands in the way of giving a text to the parsers. Brackets in quotes count too: the guess errs upward. */
export function unfit(text: string, syntax: Syntax): "too deep" | "too much" | undefined {
  if (bracketsTooDeep(text)) return "too deep";
  if (syntax === "json") return jsonTooMuch(text) ? "too much" : undefined;
  return blocksTooDeep(text) ? "too deep" : lexed(text);
}

/** Each sign of JSON goes with one word, as a rule. */
function jsonTooMuch(text: string): boolean {
  let tokens = 0;
  for (const _ of text.matchAll(/[[\]{}:,]/g)) {
    tokens += 2;
    if (tokens > MOST_TOKENS) return true;
  }
  return false;
}

function bracketsTooDeep(text: string): boolean {
  let depth = 0;
  for (const [bracket] of text.matchAll(/[[\]{}]/g)) {
    depth = Math.max(0, depth + (bracket === "[" || bracket === "{" ? 1 : -1));
    if (depth > MOST_NESTED) return true;
  }
  return false;
}

/** Block style nests by indentation. */
function blocksTooDeep(text: string): boolean {
  const columns: number[] = [];
  for (const [line] of text.matchAll(/[^\r\n]+/g)) {
    const column = line.search(/[^ \t]/);
    if (column < 0 || line.charAt(column) === "#") continue;
    while ((columns.at(-1) ?? -1) >= column) columns.pop();
    columns.push(column);
    if (columns.length > MOST_NESTED) return true;
  }
  return false;
}

/**
 * Either style nests by the signs `-`, `?` and `:` one after the other in a line. The lexer knows what is a sign and what only looks
 * so, and is not recursive. Inside brackets a comma ends what signs began.
 */
function lexed(text: string): ReturnType<typeof unfit> {
  let tokens = 0;
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
    if (signs > MOST_NESTED) return "too deep";
    if (++tokens > MOST_TOKENS) return "too much";
  }
  return undefined;
}
