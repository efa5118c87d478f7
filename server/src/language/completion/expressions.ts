/** Names inside `=…`: parameters, places and sizes of named holes and stations, and the functions there are. */
import { CompletionItemKind } from "vscode-languageserver";
import { nodeAt } from "../../document/tree.js";
import { FUNCTIONS } from "../../instrument/expression.js";
import { pathKey } from "../../instrument/path.js";
import { plain } from "../words.js";
import { escapeSnippet } from "./render.js";
import type { Question, Suggestion } from "./suggestion.js";

/** The word being typed, dots included. */
const WORD = /[\p{L}_][\p{L}\p{N}_.]*$/u;

export function expressionSuggestions({ cursor, document }: Question): Suggestion[] {
  const word = WORD.exec(cursor.typed)?.[0] ?? "";
  const quoteLength = cursor.quote === undefined ? 0 : 1;
  const start = cursor.start + quoteLength + cursor.typed.length - word.length;
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
      start,
    })),
    ...Object.keys(FUNCTIONS).map((name) => ({
      label: name,
      kind: CompletionItemKind.Function,
      detail: `${name}(…)`,
      text: `${escapeSnippet(name)}($1)`,
      isSnippet: true,
      rank: 1,
      start,
    })),
  ];
}

/** How an expression refers to a number: a parameter by its name, a hole's or station's by that one's name. */
function nameOf(root: Question["document"]["root"], path: readonly (string | number)[]): string | undefined {
  const [list, index, property] = path;
  if (list === "parameters" && path.length === 2) return String(index);
  if ((list !== "holes" && list !== "bore") || path.length !== 3 || index === undefined) return undefined;
  const name = nodeAt(root, [list, index, "name"]);
  if (name?.kind !== "scalar" || typeof name.value !== "string" || !IDENTIFIER.test(name.value)) return undefined;
  return `${name.value}.${property}`;
}

const IDENTIFIER = /^[\p{L}_][\p{L}\p{N}_]*$/u;
