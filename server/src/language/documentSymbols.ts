/** The outline: each instrument, in it the bore, the holes, the fingerings and whatever else it says. */

import { type DocumentSymbol, type SymbolInformation, SymbolKind } from "vscode-languageserver";
import type { DesignDocument } from "../document/designFile.js";
import type { Span } from "../document/span.js";
import { type MapEntry, nodeAt, type TreeNode } from "../document/tree.js";
import { label } from "../escape/label.js";
import { t } from "../words/translation.js";
import { type DesignContext, rangeOf } from "./designContext.js";
import { plural } from "./words.js";

/** Entries of one list shown in the outline; more would make it useless and slow. */
const MOST_CHILDREN = 500;

/** A text as it was read: an outline needs no prediction. */
export type DesignText = Pick<DesignContext, "uri" | "file" | "text">;

export function documentSymbols(context: DesignText): DocumentSymbol[] {
  const instruments = context.file.documents.filter(({ root }) => root !== undefined);
  return instruments.map((document) => instrumentSymbol(context, document));
}

/** Named things of a design that one may search for: the instruments, their holes and parameters. */
export function namedParts(context: DesignText): SymbolInformation[] {
  return documentSymbols(context).flatMap(({ children = [], ...instrument }) => {
    const parts = children.filter(({ name }) => name === "holes" || name === "parameters");
    return [instrument, ...parts.flatMap((list) => list.children ?? [])].map((symbol) => ({
      name: symbol.name,
      kind: symbol.kind,
      location: { uri: context.uri, range: symbol.selectionRange },
      ...(symbol === instrument ? {} : { containerName: instrument.name }),
    }));
  });
}

/** The same outline as a flat list, for a client that takes no tree. */
export function flatSymbols(context: DesignText): SymbolInformation[] {
  const flatten = (symbol: DocumentSymbol, containerName?: string): SymbolInformation[] => [
    {
      name: symbol.name,
      kind: symbol.kind,
      location: { uri: context.uri, range: symbol.range },
      ...(containerName === undefined ? {} : { containerName }),
    },
    ...(symbol.children ?? []).flatMap((child) => flatten(child, symbol.name)),
  ];
  return documentSymbols(context).flatMap((symbol) => flatten(symbol));
}

function instrumentSymbol(context: DesignText, document: DesignDocument): DocumentSymbol {
  const { instrument } = document.resolution;
  const root = document.root as TreeNode;
  const entries = root.kind === "map" ? root.entries.filter((entry) => !entry.merged) : [];
  const named = entries.find(({ key }) => key === "name");
  const detail = [instrument.key?.name, instrument.family].filter((part) => part !== undefined).join(" ");
  const children = entries.filter(({ key }) => key !== "borewright" && key !== "name");
  return {
    name: label(instrument.name?.trim() || t`Instrument ${document.index + 1}`),
    detail: label(detail),
    kind: SymbolKind.Class,
    ...ranges(context, document.span, named?.value.span ?? entries[0]?.keySpan ?? root.span),
    children: children.map((entry) => entrySymbol(context, document, entry)),
  };
}

function entrySymbol(context: DesignText, document: DesignDocument, entry: MapEntry): DocumentSymbol {
  const { key, keySpan, value } = entry;
  const span = { start: keySpan.start, end: Math.max(keySpan.end, value.span.end) };
  return {
    name: label(key) || t("(no name)"),
    detail: label(detailOf(context, value)),
    kind: value.kind === "list" ? SymbolKind.Array : value.kind === "map" ? SymbolKind.Object : SymbolKind.Property,
    ...ranges(context, span, keySpan),
    children: childSymbols(context, document, entry),
  };
}

function childSymbols(context: DesignText, document: DesignDocument, { key, value }: MapEntry): DocumentSymbol[] {
  if (value.source !== undefined) return []; // written elsewhere: an outline's ranges must nest
  if (value.kind === "list") {
    return value.items.slice(0, MOST_CHILDREN).map((item, index) => ({
      name: label(itemName(document, key, item, index)),
      detail: label(detailOf(context, item)),
      kind: key === "fingerings" ? SymbolKind.Event : key === "holes" ? SymbolKind.Field : SymbolKind.Number,
      ...ranges(context, item.span, item.span),
    }));
  }
  if (value.kind !== "map") return [];
  return value.entries
    .filter((entry) => !entry.merged)
    .slice(0, MOST_CHILDREN)
    .map((entry) => entrySymbol(context, document, entry));
}

function itemName(document: DesignDocument, key: string, item: TreeNode, index: number): string {
  const { instrument } = document.resolution;
  if (key === "holes") return instrument.holes[index]?.name.trim() || t`hole ${index + 1}`;
  if (key === "fingerings") return instrument.fingerings[index]?.target?.name ?? t`fingering ${index + 1}`;
  const at = nodeAt(item, ["at"]);
  if (key === "bore" && at?.kind === "scalar") return t`station at ${typeof at.value === "number" ? at.raw : at.value}`;
  const note = nodeAt(item, ["note"]);
  if (note?.kind === "scalar" && note.value !== null && note.value !== "") return String(note.value);
  return `${index + 1}`;
}

/** A value on one line as written, a list by its length. */
function detailOf(context: DesignText, value: TreeNode): string {
  if (value.kind === "list" && !value.flow) return plural(value.items.length, "entry", "entries");
  if (value.kind === "map" && !value.flow) return "";
  const text = context.file.text.slice(value.span.start, value.span.end);
  return text.includes("\n") ? "" : text;
}

/** The protocol wants the name's range within the whole's. */
function ranges(context: DesignText, whole: Span, name: Span) {
  const start = Math.min(whole.start, name.start);
  const end = Math.max(whole.end, name.end);
  return { range: rangeOf(context, { start, end }), selectionRange: rangeOf(context, name) };
}
