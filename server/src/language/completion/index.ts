/** Completion: names not yet written, values that fit the place, whole files for an empty one. */
import {
  type CompletionItem,
  InsertTextFormat,
  InsertTextMode,
  MarkupKind,
  type Position,
  TextEdit,
} from "vscode-languageserver";
import type { DesignDocument } from "../../document/designFile.js";
import { readDesign } from "../../document/read.js";
import { label } from "../../escape/label.js";
import { type DesignContext, documentAt, rangeOf } from "../designContext.js";
import { schemaAt } from "../schema.js";
import { type Cursor, cursorAt } from "./cursor.js";
import { nameSuggestions } from "./names.js";
import type { Rendering } from "./render.js";
import { starterSuggestions } from "./starters.js";
import type { Question, Suggestion } from "./suggestion.js";
import { systemSuggestions } from "./systems.js";
import { valueSuggestions } from "./values.js";

export function completion(context: DesignContext, position: Position): CompletionItem[] {
  // A file that is not read is not scanned at every keystroke either.
  if (context.file.documents.some(({ findings }) => findings.some(({ code }) => code === "file/too-large"))) return [];
  const offset = context.text.offsetAt(position);
  const cursor = cursorAt(context.file.text, offset, context.file.syntax);
  const document = cursor && documentOf(context, offset, cursor);
  if (cursor === undefined || document === undefined) return [];
  const rendering: Rendering = {
    style: cursor.style,
    column: cursor.column,
    tabStops: context.client.snippets,
    manyLines: context.client.keepsIndentation,
  };
  const question: Question = { context, document, cursor, rendering };
  const suggestions = [...suggestionsFor(question), ...systemSuggestions(question)];
  return suggestions.map((suggestion, i) => item(question, suggestion, i));
}

/** The cursor's document; an empty one where only its `---` is written yet and the reader sees none. */
function documentOf({ file }: DesignContext, offset: number, cursor: Cursor): DesignDocument | undefined {
  const document = documentAt(file, offset);
  const isBefore = document?.root !== undefined && document.root.span.end <= cursor.documentStart;
  return isBefore ? readDesign("", file.syntax).documents[0] : document;
}

function suggestionsFor(question: Question): Suggestion[] {
  const { cursor, document } = question;
  const { root } = document;
  const isEmpty = root === undefined || root.kind === "scalar" || (root.kind === "map" && root.entries.length === 0);
  const starters = isEmpty && cursor.path.length === 0 ? starterSuggestions(question) : [];
  if (cursor.role === "dash") return newItems(question);
  if (cursor.role === "value") return [...valueSuggestions(question), ...starters];
  const schema = schemaAt(cursor.path);
  if (schema?.items !== undefined) return newItems(question);
  if (schema?.properties === undefined) return valueSuggestions(question);
  const atDash = typeof cursor.path.at(-1) === "number" && cursor.names.length === 0 && cursor.style === "block";
  return [...nameSuggestions(question), ...(atDash ? valueSuggestions(question) : []), ...starters];
}

/** Another entry of a block list, its dash included. */
function newItems(question: Question): Suggestion[] {
  const { cursor } = question;
  const path = cursor.role === "dash" ? cursor.path : [...cursor.path, 0];
  const inItem: Question = { ...question, cursor: { ...cursor, path, role: "value" } };
  return valueSuggestions(inItem).map((suggestion) => ({
    ...suggestion,
    label: `- ${suggestion.label}`,
    text: `- ${suggestion.text}`,
    filter: `- ${suggestion.filter ?? suggestion.label}`,
  }));
}

function item({ context, cursor }: Question, suggestion: Suggestion, index: number): CompletionItem {
  const { label: name, kind, detail, documentation, isSnippet, rank = 0 } = suggestion;
  const snippet = isSnippet && context.client.snippets;
  const newText = `${cursor.needsBlank ? " " : ""}${isSnippet && !snippet ? withoutStops(suggestion.text) : suggestion.text}`;
  return {
    label: label(name),
    kind,
    ...(detail === undefined ? {} : { detail: label(detail) }),
    ...(documentation === undefined ? {} : { documentation: documented(context, documentation) }),
    filterText: suggestion.filter ?? name,
    sortText: `${rank.toFixed(2).padStart(6, "0")}${String(index).padStart(4, "0")}`,
    insertTextFormat: snippet ? InsertTextFormat.Snippet : InsertTextFormat.PlainText,
    ...(context.client.keepsIndentation ? { insertTextMode: InsertTextMode.asIs } : {}),
    textEdit: TextEdit.replace(rangeOf(context, replaced(cursor, suggestion)), newText),
  };
}

function replaced({ start, end }: Cursor, suggestion: Suggestion) {
  return { start: suggestion.start ?? start, end: suggestion.end ?? end };
}

/** `min($1)` for a client that knows no snippets. */
function withoutStops(text: string): string {
  return text.replace(/\$\d/g, "");
}

function documented({ client }: DesignContext, value: string) {
  return { kind: client.markdownDocumentation ? MarkupKind.Markdown : MarkupKind.PlainText, value };
}
