/** Names of properties that a map does not have yet, each with a sensible value to start from. */
import { CompletionItemKind } from "vscode-languageserver";
import { nodeAt } from "../../document/tree.js";
import type { Path } from "../../instrument/finding.js";
import { t } from "../../words/translation.js";
import { allows, type PropertySchema, schemaAt, unitOf } from "../schema.js";
import { adapted } from "./adapted.js";
import { fittingExample, suits } from "./relevance.js";
import { Renderer } from "./render.js";
import type { Question, Suggestion } from "./suggestion.js";

export function nameSuggestions(question: Question): Suggestion[] {
  const { cursor, document } = question;
  const schema = schemaAt(cursor.path);
  const { family } = document.resolution.instrument;
  const present = new Set([...cursor.names, ...namesBesides(question)]);
  return Object.entries(schema?.properties ?? {})
    .filter(([name]) => !present.has(name) && suits([...cursor.path, name], family))
    .map(([name, property]) => suggestion(question, name, property, schema?.required?.includes(name) === true));
}

/** The map's names that the cursor is not on, those below it included. */
function namesBesides({ cursor, document }: Question): string[] {
  const node = nodeAt(document.root, cursor.path);
  if (node?.kind !== "map") return [];
  const elsewhere = node.entries.filter(({ keySpan }) => keySpan.end < cursor.start || keySpan.start > cursor.end);
  return elsewhere.map(({ key }) => key);
}

function suggestion(question: Question, name: string, property: PropertySchema, required: boolean): Suggestion {
  const { cursor, context, document, rendering } = question;
  const unit = unitOf(property, document);
  const renderer = new Renderer(rendering);
  const written = renderer.name(name);
  const value = hasColon(context.file.text, cursor.end)
    ? ""
    : `:${renderer.afterName(exampleOf(question, [...cursor.path, name], property), choicesOf(property))}${comma(question)}`;
  return {
    label: name,
    kind: CompletionItemKind.Property,
    detail: [required ? t("needed") : "", unit ?? ""].filter((part) => part !== "").join(", ") || undefined,
    documentation: property.description && t(property.description),
    text: `${written}${value}`,
    isSnippet: true,
    filter: rendering.style === "json" || cursor.quote !== undefined ? JSON.stringify(name) : name,
    rank: required ? 0.5 : 1,
  };
}

function exampleOf({ document }: Question, path: Path, property: PropertySchema): unknown {
  const { family } = document.resolution.instrument;
  const example = fittingExample(path, property.examples ?? [], family) ?? property.default ?? "";
  // An entry that every list opens with is a sensible start; a number that only refers to another name is not.
  if (typeof example === "string" && example.startsWith("=")) {
    return property.examples?.find((other) => typeof other === "number") ?? example;
  }
  return path[0] === "fingerings" && path.length === 1
    ? firstFingering(document.resolution.instrument.holes.length)
    : adapted(document, path, example);
}

/** All closed: the pattern has as many signs as the design has holes. */
function firstFingering(holes: number): unknown {
  return [{ degree: 1, holes: holes === 0 ? "●●●" : "●".repeat(holes) }];
}

function choicesOf(property: PropertySchema): readonly unknown[] {
  if (property.const !== undefined) return [];
  if (property.enum !== undefined) return property.enum;
  if (property["x-names"] !== undefined) return property["x-names"];
  return allows(property, "boolean") ? [true, false] : [];
}

function hasColon(text: string, offset: number): boolean {
  return /^[ \t]*:/.test(text.slice(offset, offset + 20));
}

/** A comma where another entry follows on; the blank or line break before that one stays. */
export function comma({ cursor, context }: Question): string {
  if (cursor.style === "block") return "";
  const next = /^\s*(\S)/.exec(context.file.text.slice(cursor.end))?.[1];
  return next === undefined || ",}]".includes(next)
    ? ""
    : cursor.style === "json" && next !== '"' && next !== "{"
      ? ""
      : ",";
}
