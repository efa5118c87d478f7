/** Names inside `=…`: parameters, places and sizes of named holes and stations, and the functions there are. */
import { CompletionItemKind } from "vscode-languageserver";
import { nodeAt } from "../../document/tree.js";
import { FUNCTIONS, isFormulaName } from "../../instrument/formula/expression.js";
import { pathKey } from "../../instrument/path.js";
import { plain } from "../words.js";
import { escapeSnippet } from "./render.js";
import type { Question, Suggestion } from "./suggestion.js";

/** The word being typed, dots included. */
const WORD = /[\p{L}_][\p{L}\p{N}_.]*$/u;
const REST_OF_WORD = /^[\p{L}\p{N}_.]*/u;
const LONGEST_REST = 100;

export function expressionSuggestions({ cursor, document, context }: Question): Suggestion[] {
  const word = WORD.exec(cursor.typed)?.[0] ?? "";
  const quoteLength = cursor.quote === undefined ? 0 : 1;
  const offset = cursor.start + quoteLength + cursor.typed.length;
  const rest = REST_OF_WORD.exec(context.file.text.slice(offset, offset + LONGEST_REST))?.[0] ?? "";
  const place = { start: offset - word.length, end: offset + rest.length };
  const own = pathKey(cursor.path);
  const numbers = document.resolution.numbers.filter(({ path }) => pathKey(path) !== own);
  const named = numbers.flatMap(({ path, value }) => {
    const name = nameOf(document.root, path);
    return name === undefined ? [] : [{ name, value }];
  });
  return [
    ...named.map(({ name, value }) => ({
      label: name,
      kind: CompletionItemKind.Variable,
      detail: plain(value, 4),
      text: name,
      isSnippet: false,
      ...place,
    })),
    ...Object.keys(FUNCTIONS).map((name) => ({
      label: name,
      kind: CompletionItemKind.Function,
      detail: `${name}(…)`,
      text: `${escapeSnippet(name)}($1)`,
      isSnippet: true,
      rank: 1,
      ...place,
    })),
  ];
}

/** How an expression refers to a number: a parameter by its name, a hole's or station's by that one's name. */
function nameOf(root: Question["document"]["root"], path: readonly (string | number)[]): string | undefined {
  const [list, index, property] = path;
  if (list === "parameters" && path.length === 2) return String(index);
  if ((list !== "holes" && list !== "bore") || path.length !== 3 || index === undefined) return undefined;
  const name = nodeAt(root, [list, index, "name"]);
  if (name?.kind !== "scalar" || typeof name.value !== "string" || !isFormulaName(name.value)) return undefined;
  return `${name.value}.${property}`;
}
