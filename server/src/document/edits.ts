/**
 * Changes to a design as changes to its text: the characters of one value, or one more entry. Every other byte stays.
 * An edit of a design that is not written as expected (nothing to insert into, say) is an empty list of edits.
 */

import type { Path } from "../instrument/finding.js";
import { insertion } from "./insertion.js";
import { quotedLike } from "./quoting.js";
import type { Span } from "./span.js";
import { allowsText, numberUnder, tagSpan } from "./tags.js";
import type { Editable, Meant, TextEdit } from "./textEdit.js";
import { type MapNode, nodeAt, type ScalarNode } from "./tree.js";

/** The text with all edits made; they must not overlap. Edits at one place are made in the order given. */
export function applyEdits(text: string, edits: readonly TextEdit[]): string {
  let result = "";
  let at = 0;
  for (const edit of inOrder(edits)) {
    result += text.slice(at, edit.span.start) + edit.text;
    at = edit.span.end;
  }
  return result + text.slice(at);
}

/** By their places; those at one place as given. @throws RangeError where they overlap */
export function inOrder(edits: readonly TextEdit[]): readonly TextEdit[] {
  const ordered = edits
    .map((edit, order) => ({ edit, order }))
    .sort((a, b) => a.edit.span.start - b.edit.span.start || a.order - b.order)
    .map(({ edit }) => edit);
  if (ordered.some(({ span }, i) => span.start < (ordered[i - 1]?.span.end ?? 0)))
    throw new RangeError("edits overlap");
  return ordered;
}

/**
 * Writes a number at `path`, rounded to `decimals`. A percent sign, quotes and an anchor stay, and a tag that allows it; an alias is
 * replaced here, a merged value gets an entry of its own, an expression becomes the number.
 */
export function setNumber(document: Editable, path: Path, value: number, decimals: number): readonly TextEdit[] {
  const written = plainNumber(value, decimals);
  return meaning({ path, value: Number(written) }, numberEdits(document, path, written));
}

function numberEdits(document: Editable, path: Path, written: string): readonly TextEdit[] {
  const node = ownScalar(document, path);
  if (node === undefined) return setMissing(document, path, written);
  const percent = typeof node.value === "string" && !isExpression(node) ? NUMBER.exec(node.raw) : null;
  if (percent !== null && node.source === undefined) {
    const start = node.span.start + percent.index;
    return replace(document, { start, end: start + percent[0].length }, written);
  }
  const tagged = numberUnder(node.tag, written);
  return tagged === undefined ? replaceUntagged(document, node, written) : replace(document, node.span, tagged);
}

/** Writes a text value at `path`, quoted as the old one was, or as the syntax needs it. */
export function setText(document: Editable, path: Path, value: string): readonly TextEdit[] {
  return meaning({ path, value }, textEdits(document, path, value));
}

function textEdits(document: Editable, path: Path, value: string): readonly TextEdit[] {
  const node = ownScalar(document, path);
  if (node === undefined)
    return setMissing(document, path, quotedLike("", value, document.syntax, inFlow(document, path)));
  const old = node.source === undefined ? node.raw : "";
  const written = quotedLike(old, value, document.syntax, inFlow(document, path));
  return allowsText(node.tag) ? replace(document, node.span, written) : replaceUntagged(document, node, written);
}

/** Writes a value at `path` letter for letter, as it stood there or elsewhere before. */
export function setRaw(document: Editable, path: Path, written: string): readonly TextEdit[] {
  const node = ownScalar(document, path);
  return node === undefined ? setMissing(document, path, written) : replaceUntagged(document, node, written);
}

/** Adds `key: valueText` to the map at `mapPath`, last, in the style of its other entries. */
export function insertEntry(document: Editable, mapPath: Path, key: string, valueText: string): readonly TextEdit[] {
  return meaning({ path: [...mapPath, key] }, entryEdits(document, mapPath, key, valueText));
}

function entryEdits(document: Editable, mapPath: Path, key: string, valueText: string): readonly TextEdit[] {
  const node = nodeAt(document.root, mapPath);
  if (node?.kind === "map") return [insertion(document, node, key, valueText)];
  if (node?.kind === "scalar" && node.value === null && mapPath.length > 0) {
    const opened = document.syntax === "json" ? `{ ${JSON.stringify(key)}: ${valueText} }` : `{ ${key}: ${valueText} }`;
    return replace(document, node.span, opened);
  }
  return [];
}

/** The edits, with one more value that they are to change. */
export function meaning(meant: Meant, edits: readonly TextEdit[]): readonly TextEdit[] {
  const [first, ...others] = edits;
  return first === undefined ? [] : [{ ...first, meant: [...(first.meant ?? []), meant] }, ...others];
}

const NUMBER = /[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?/;

/** As short as possible, never in powers of ten. */
function plainNumber(value: number, decimals: number): string {
  const fixed = value.toFixed(decimals);
  const short = fixed.includes(".") ? fixed.replace(/\.?0+$/, "") : fixed;
  return short === "-0" ? "0" : short;
}

/** A formula, or a block of text, whose head may hold a digit. */
function isExpression({ value, raw }: ScalarNode): boolean {
  return String(value).trimStart().startsWith("=") || /^[|>]/.test(raw);
}

function replace({ text }: Editable, span: Span, put: string): readonly TextEdit[] {
  if (span.start === span.end) return [{ span, text: fitted(text, span.start, put) }];
  // The line break that ends a block of text (`|` or `>`) belongs to what follows.
  const end = span.start + text.slice(span.start, span.end).trimEnd().length;
  if (text.slice(span.start, end) === put) return [];
  return [{ span: { start: span.start, end }, text: put }];
}

function replaceUntagged(document: Editable, node: ScalarNode, put: string): readonly TextEdit[] {
  const tag = node.source === undefined ? tagSpan(document.text, node) : undefined;
  return [...(tag === undefined ? [] : [{ span: tag, text: "" }]), ...replace(document, node.span, put)];
}

/** What is inserted where there was no value yet: right behind a colon, a key still without one, or before a comment. */
function fitted(text: string, at: number, put: string): string {
  const before = text.slice(0, at);
  const joint = /(?:^|[\s,[{])$/.test(before) ? "" : /[:\-?]$/.test(before) ? " " : ": ";
  return joint + put + (text.charAt(at) === "#" ? " " : "");
}

/** The scalar written at `path` in this very place: not one that a merge key brought in. */
function ownScalar({ root }: Editable, path: Path): ScalarNode | undefined {
  const node = nodeAt(root, path);
  if (node?.kind !== "scalar") return undefined;
  for (let depth = 0; depth < path.length; depth++) {
    const parent = nodeAt(root, path.slice(0, depth));
    // Inside an alias, the text belongs to somebody else.
    if (depth > 0 && parent?.source !== undefined) return undefined;
    if (parent?.kind === "map" && entryOf(parent, path[depth])?.merged) return undefined;
  }
  return node;
}

function setMissing(document: Editable, path: Path, valueText: string): readonly TextEdit[] {
  const key = path.at(-1);
  if (typeof key !== "string") return [];
  if (!isUnderAlias(document, path)) return entryEdits(document, path.slice(0, -1), key, valueText);
  return besideAlias(document, path.slice(0, -1), `${key}: ${valueText}`);
}

/** Whether the map around `path` is another's, which an alias names: writing there changes the alias itself. */
export function isUnderAlias({ root }: Editable, path: Path): boolean {
  return nodeAt(root, path.slice(0, -1))?.source !== undefined;
}

/** `*h` becomes `{ <<: *h, diameter: 7 }`: the one value is written here, the others are still those of the alias. */
function besideAlias(document: Editable, path: Path, entry: string): readonly TextEdit[] {
  const around = nodeAt(document.root, path.slice(0, -1));
  const node = nodeAt(document.root, path);
  const isOwn = around?.kind === "map" ? !entryOf(around, path.at(-1))?.merged : around?.kind === "list";
  if (node?.kind !== "map" || around?.source !== undefined || !isOwn) return [];
  const alias = document.text.slice(node.span.start, node.span.end);
  return alias.startsWith("*") ? replace(document, node.span, `{ <<: ${alias}, ${entry} }`) : [];
}

function entryOf(map: MapNode, key: string | number | undefined) {
  return map.entries.find((entry) => entry.key === key);
}

/** True inside `{…}` or `[…]`, where commas and brackets end a plain value. */
function inFlow({ root }: Editable, path: Path): boolean {
  return path.some((_, depth) => {
    const node = nodeAt(root, path.slice(0, depth));
    return node !== undefined && node.kind !== "scalar" && node.flow;
  });
}
