/** Values that fit a place: names from the schema, notes, fingering patterns, numbers with their unit. */

import { CompletionItemKind } from "vscode-languageserver";
import type { Path } from "../../instrument/finding.js";
import { noteFromMidi } from "../../music/note.js";
import { t } from "../../words/translation.js";
import { allows, type PropertySchema, schemaAt, takesExpression, unitOf } from "../schema.js";
import { plain } from "../words.js";
import { adapted } from "./adapted.js";
import { expressionSuggestions } from "./expressions.js";
import { comma } from "./names.js";
import { fittingExample } from "./relevance.js";
import { Renderer, scalarText } from "./render.js";
import type { Question, Suggestion } from "./suggestion.js";

export function valueSuggestions(question: Question): Suggestion[] {
  const { cursor } = question;
  const schema = schemaAt(cursor.path);
  if (schema === undefined) return [];
  if (takesExpression(schema) && cursor.typed.trimStart().startsWith("=")) return expressionSuggestions(question);
  if (schema["x-format"] === "fingering") return fingeringPatterns(question);
  const named = namedValues(schema).map((value) => scalar(question, value, { isDefault: value === schema.default }));
  if (named.length > 0) return [...named, ...structures(question, schema)];
  if (schema["x-format"] === "note") return notes(question);
  const examples = (schema.examples ?? []).filter(isPlainExample);
  const unit = unitOf(schema, question.document);
  return [
    ...examples.map((value) => scalar(question, value, { detail: unit })),
    ...parameters(question, schema),
    ...structures(question, schema),
  ];
}

/** Expressions are offered with the design's own parameters, not with those of an example. */
function isPlainExample(example: unknown): boolean {
  return typeof example !== "object" && !(typeof example === "string" && example.startsWith("="));
}

function namedValues(schema: PropertySchema): readonly unknown[] {
  if (schema.const !== undefined) return [schema.const];
  return schema.enum ?? schema["x-names"] ?? (allows(schema, "boolean") ? [true, false] : []);
}

interface Extra {
  readonly detail?: string | undefined;
  readonly documentation?: string;
  readonly isDefault?: boolean;
  readonly rank?: number;
  readonly kind?: CompletionItemKind;
}

function scalar(question: Question, value: unknown, extra: Extra = {}): Suggestion {
  const text = scalarText(value, question.rendering.style);
  return {
    label: String(value),
    kind: extra.kind ?? CompletionItemKind.Value,
    detail: extra.isDefault === true ? "default" : extra.detail,
    documentation: extra.documentation,
    text: withQuote(question, text),
    isSnippet: false,
    filter: filterOf(question, String(value)),
    rank: extra.rank ?? 0,
  };
}

/** Where the maker has opened a quote, the value keeps it. */
function withQuote({ cursor, ...question }: Question, text: string): string {
  const { quote } = cursor;
  const quoted =
    quote === undefined || text.startsWith(quote) ? text : `${quote}${text.replace(/^"(.*)"$/, "$1")}${quote}`;
  return `${quoted}${comma({ cursor, ...question })}`;
}

function filterOf({ cursor, rendering }: Question, value: string): string {
  return cursor.quote === undefined && rendering.style !== "json" ? value : `${cursor.quote ?? '"'}${value}`;
}

/** Maps and lists as the schema's examples have them, to be written at once. */
function structures(question: Question, schema: PropertySchema): Suggestion[] {
  const { cursor, document, rendering } = question;
  const path: Path = cursor.path;
  const given = (schema.examples ?? []).filter((example) => typeof example === "object" && example !== null);
  const { family } = document.resolution.instrument;
  const example = adapted(document, path, given.length === 0 ? undefined : fittingExample(path, given, family));
  if (example === undefined || cursor.quote !== undefined) return [];
  const renderer = new Renderer({ ...rendering, style: rendering.style === "block" ? "flow" : rendering.style });
  const label = new Renderer({ ...rendering, tabStops: false, style: "flow" }).flow(example);
  return [
    {
      label: label.length > LONGEST_LABEL ? `${label.slice(0, LONGEST_LABEL)}…` : label,
      kind: CompletionItemKind.Struct,
      documentation: schema.description && t(schema.description),
      text: `${renderer.flow(example)}${comma(question)}`,
      isSnippet: true,
      rank: 2,
    },
  ];
}

const LONGEST_LABEL = 60;

/** C3 to B6: the compass in which instruments of the flute family have their lowest notes. Common practice, no source. */
const [LOWEST_OFFERED, HIGHEST_OFFERED] = [48, 95];

function notes(question: Question): Suggestion[] {
  const midis = Array.from({ length: HIGHEST_OFFERED - LOWEST_OFFERED + 1 }, (_, i) => LOWEST_OFFERED + i);
  return midis.flatMap((midi) => {
    const note = noteFromMidi(midi);
    return note === undefined ? [] : [scalar(question, note.name, { kind: CompletionItemKind.Constant })];
  });
}

/** One hole after the other opened from the foot: the scale of a simple flute, with as many signs as there are holes. */
function fingeringPatterns(question: Question): Suggestion[] {
  const count = question.document.resolution.instrument.holes.length;
  if (count === 0) return [];
  return Array.from({ length: count + 1 }, (_, open) => {
    const pattern = "●".repeat(count - open) + "○".repeat(open);
    const detail = open === 0 ? t("all closed") : open === count ? t("all open") : t`${open} open`;
    return scalar(question, pattern, { detail });
  });
}

/** `=wall` for each parameter of the design, with its value. */
function parameters(question: Question, schema: PropertySchema): Suggestion[] {
  if (!takesExpression(schema)) return [];
  const { numbers } = question.document.resolution;
  const own = question.cursor.path[0] === "parameters" ? question.cursor.path[1] : undefined;
  return numbers
    .filter(({ path }) => path[0] === "parameters" && path[1] !== own)
    .map(({ path, value }) =>
      scalar(question, `=${path[1]}`, { detail: plain(value, 4), kind: CompletionItemKind.Variable, rank: 1 }),
    );
}
