/** What a design names, and every place that uses it: parameters, holes, stations and the numbers of the design. */
import type { DesignDocument } from "../../document/designFile.js";
import { pathAt, spanOf } from "../../document/locate.js";
import { spanWithin } from "../../document/place.js";
import type { Span } from "../../document/span.js";
import { type MapEntry, nodeAt } from "../../document/tree.js";
import type { Path } from "../../instrument/finding.js";
import { signOffsets } from "../../instrument/fingerings.js";
import type { NameUse } from "../../instrument/numbers.js";
import { samePath } from "../../instrument/path.js";

export interface Reference {
  readonly span: Span;
  /** What is meant: `["parameters", "tube"]`, `["holes", 2]`, or the place of a number. */
  readonly to: Path;
  /** Where the name is given, written out in an expression, or where a sign of a fingering stands for a hole. */
  readonly as: "definition" | "name" | "sign";
  /** Of a name in an expression: the path of that expression. */
  readonly expression?: Path;
}

/** Every reference of a document, in no order; of fingerings' signs, with an offset, only those in the fingering that it touches. */
export function referencesIn(document: DesignDocument, offset?: number): readonly Reference[] {
  return [
    ...parameterDefinitions(document),
    ...partDefinitions(document, "holes"),
    ...partDefinitions(document, "bore"),
    ...document.resolution.nameUses().flatMap((use) => expressionReferences(document, use)),
    ...signs(document, "fingerings", offset),
    ...signs(document, "measured", offset),
  ];
}

/** The reference that an offset touches; of several the shortest. */
export function referenceAt(document: DesignDocument, offset: number): Reference | undefined {
  const touching = referencesIn(document, offset).filter(({ span }) => offset >= span.start && offset <= span.end);
  return touching.sort((a, b) => a.span.end - a.span.start - (b.span.end - b.span.start))[0];
}

/** All references to what one refers to, the definition first, then as they stand in the text. */
export function referencesTo(document: DesignDocument, to: Path): readonly Reference[] {
  const all = referencesIn(document).filter((each) => samePath(each.to, to));
  return all.sort(
    (a, b) => Number(b.as === "definition") - Number(a.as === "definition") || a.span.start - b.span.start,
  );
}

/** Where what is meant is written: its name, or the key of the number. */
export function definitionOf(document: DesignDocument, to: Path): Span {
  const named = referencesTo(document, to).find(({ as }) => as === "definition");
  return named?.span ?? spanOf(document, to, typeof to.at(-1) === "number" ? "value" : "key");
}

/** What stands at an offset that others may refer to: a reference, or the number itself. */
export function meantAt(document: DesignDocument, offset: number): Path | undefined {
  const reference = referenceAt(document, offset);
  if (reference !== undefined) return reference.to;
  const { path } = pathAt(document, offset);
  return document.resolution.numbers.some((number) => samePath(number.path, path)) ? path : undefined;
}

function parameterDefinitions({ root, text }: DesignDocument): readonly Reference[] {
  const parameters = nodeAt(root, ["parameters"]);
  if (parameters?.kind !== "map" || parameters.source !== undefined) return [];
  return parameters.entries
    .filter(({ merged }) => !merged)
    .map((entry) => ({ span: nameSpan(entry, text), to: ["parameters", entry.key], as: "definition" }));
}

/** A key without its quotes. */
function nameSpan({ key, keySpan }: MapEntry, text: string): Span {
  const written = text.slice(keySpan.start, keySpan.end);
  return written.slice(1, -1) === key ? { start: keySpan.start + 1, end: keySpan.end - 1 } : keySpan;
}

function partDefinitions(document: DesignDocument, list: "holes" | "bore"): readonly Reference[] {
  const parts = nodeAt(document.root, [list]);
  if (parts?.kind !== "list") return [];
  return parts.items.flatMap((part, i): Reference[] => {
    const name = nodeAt(part, ["name"]);
    if (name?.kind !== "scalar" || typeof name.value !== "string") return [];
    const span = spanWithin(document, [list, i, "name"], [0, name.value.length]);
    return span === undefined ? [] : [{ span, to: [list, i], as: "definition" }];
  });
}

/** `L1.at` refers to the hole by its first step, and to the number by the rest. */
function expressionReferences(document: DesignDocument, use: NameUse): readonly Reference[] {
  const { path, within, steps, to } = use;
  const [start, end] = within;
  const reference = (from: number, until: number, meant: Path): Reference[] => {
    const span = spanWithin(document, path, [from, until]);
    return span === undefined ? [] : [{ span, to: meant, as: "name", expression: path }];
  };
  const [first] = steps;
  if (to[0] === "parameters" || typeof first !== "string") return reference(start, end, to);
  if (!isNamedPart(to) || first === to[0]) return reference(start, end, to);
  const split = start + first.length;
  return [...reference(start, split, to.slice(0, 2)), ...reference(Math.min(split + 1, end), end, to)];
}

function isNamedPart(to: Path): boolean {
  return (to[0] === "holes" || to[0] === "bore") && to.length > 2;
}

/** Each sign of a fingering stands for the hole in its place. */
function signs(document: DesignDocument, list: "fingerings" | "measured", at?: number): readonly Reference[] {
  const { root, resolution } = document;
  const drawn = nodeAt(root, [list]);
  if (drawn?.kind !== "list") return [];
  const count = resolution.instrument.holes.length;
  return drawn.items.flatMap((item, i) => {
    const holes = nodeAt(item, ["holes"]);
    if (holes?.kind !== "scalar" || typeof holes.value !== "string") return [];
    if (at !== undefined && (at < holes.span.start || at > holes.span.end)) return [];
    const offsets = signOffsets(holes.value);
    const whole = spanWithin(document, [list, i, "holes"], [0, holes.value.length]);
    if (offsets?.length !== count || whole === undefined) return [];
    return offsets.map((offset, hole): Reference => {
      const start = whole.start + offset;
      return { span: { start, end: start + 1 }, to: ["holes", hole], as: "sign" };
    });
  });
}
