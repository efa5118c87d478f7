/** Whole fingering systems of the trade, for a design that has as many holes. Common practice, no source. */

import { CompletionItemKind } from "vscode-languageserver";
import { FINGERING_SYSTEMS, fingeringText } from "../../music/fingeringSystems.js";
import { t } from "../../words/translation.js";
import type { Question, Suggestion } from "./suggestion.js";

/** Before what is offered for one entry. */
const RANK = -1;
const INDENT = 2;

export function systemSuggestions({ cursor, document, rendering }: Question): Suggestion[] {
  const [list, index, ...deeper] = cursor.path;
  if (list !== "fingerings" || deeper.length > 0 || cursor.quote !== undefined) return [];
  const isWhole = cursor.role === "value" && index === undefined;
  const isItem = cursor.role === "dash" || (cursor.role === "key" && index === undefined);
  const inBlock = rendering.style === "block";
  // Many lines are written only where the editor leaves their indentation alone.
  if (inBlock && !rendering.manyLines) return [];
  if (!isWhole && !(isItem && inBlock) && !(rendering.style === "json" && typeof index === "number")) return [];
  const { holes } = document.resolution.draft;
  return Object.values(FINGERING_SYSTEMS)
    .filter((system) => system.holes.length === holes.length)
    .map(({ title, rows }) => {
      const entries = rows.map(fingeringText);
      const text = inBlock
        ? blockText(entries, isWhole, rendering.column)
        : listText(entries.map(quoted), isWhole, rendering.style === "json");
      const label = `${isItem && inBlock ? "- " : ""}${t(title)}`;
      const documentation = t`All ${rows.length} fingerings. Common practice, no source: schools differ in the crossed ones.`;
      return {
        label,
        kind: CompletionItemKind.Snippet,
        documentation,
        text,
        isSnippet: false,
        filter: label,
        rank: RANK,
      };
    });
}

function blockText(entries: readonly string[], isWhole: boolean, column: number): string {
  const line = `\n${" ".repeat(isWhole ? column + INDENT : column)}`;
  return `${isWhole ? line : ""}${entries.map((entry) => `- ${entry}`).join(line)}`;
}

function listText(entries: readonly string[], isWhole: boolean, json: boolean): string {
  const all = entries.join(json ? ",\n    " : ", ");
  return isWhole ? `[${json ? "\n    " : ""}${all}${json ? "\n  " : ""}]` : all;
}

/** JSON quotes names and patterns; YAML's flow style reads it as well. */
function quoted(entry: string): string {
  return entry.replace(/([a-z]+):/g, '"$1":').replace(/: ([●○◐]+|[b#]\d+)/g, ': "$1"');
}
