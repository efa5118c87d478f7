/** Where and how items are added to the end of a list, in the style of those that it has. */
import type { Path } from "../instrument/finding.js";
import { insertEntry } from "./edits.js";
import { lineEnd, lineStartOf } from "./insertion.js";
import type { Editable, TextEdit } from "./textEdit.js";
import { type ListNode, nodeAt } from "./tree.js";

/**
 * Adds items to the list at `path`, a key of the document's own map; the list is made where there is none.
 * @param items each as it is written between commas, `{ note: G4, hz: 389.4 }`
 */
export function appendItems(document: Editable, path: Path, items: readonly string[]): readonly TextEdit[] {
  if (items.length === 0) return [];
  const list = nodeAt(document.root, path);
  if (list?.kind === "list") return list.source === undefined ? [toList(document, list, items)] : [];
  const key = path.at(-1);
  if (typeof key !== "string") return [];
  const parent = nodeAt(document.root, path.slice(0, -1));
  const inline = parent?.kind !== "map" || parent.flow;
  const eol = lineEnd(document.text);
  const written = inline ? `[${items.join(", ")}]` : items.map((item) => `${eol}  - ${item}`).join("");
  if (list?.kind === "scalar") {
    // A key still without a value: right behind its colon.
    if (list.value !== null || list.source !== undefined || list.span.start !== list.span.end) return [];
    const gap = inline && !/[\s[{,]$/.test(document.text.slice(0, list.span.start)) ? " " : "";
    return [{ span: list.span, text: gap + written }];
  }
  // Nothing stands between the key's colon and the line's end.
  return insertEntry(document, path.slice(0, -1), key, written).map((edit) => ({
    ...edit,
    text: edit.text.replace(/: (\r?\n)/, ":$1"),
  }));
}

/** Adds items behind the one at `index` of the list at `path`, in its style; nothing where there is no such item in this very place. */
export function insertItems(
  document: Editable,
  path: Path,
  index: number,
  items: readonly string[],
): readonly TextEdit[] {
  const list = nodeAt(document.root, path);
  if (list?.kind !== "list" || list.source !== undefined || list.items[index] === undefined) return [];
  // A list reads otherwise from there on: it is meant as a whole.
  return [{ ...toList(document, list, items, index), meant: [{ path }] }];
}

function toList({ text }: Editable, list: ListNode, items: readonly string[], index = list.items.length - 1): TextEdit {
  const last = list.items[index];
  if (last === undefined)
    return { span: { start: list.span.start, end: list.span.end }, text: `[${items.join(", ")}]` };
  const lineStart = lineStartOf(text, last.span.start);
  const before = text.slice(lineStart, last.span.start);
  const eol = lineEnd(text);
  const end = last.span.start + text.slice(last.span.start, last.span.end).trimEnd().length;
  if (list.flow) {
    const separator = before.trim() === "" ? `,${eol}${before}` : ", ";
    return { span: { start: end, end }, text: items.map((item) => separator + item).join("") };
  }
  const lineRest = /^[^\r\n]*/.exec(text.slice(end))?.[0] ?? "";
  const at = end + lineRest.length;
  // The dash stands before the item on its line; what an item holds may begin on the next one.
  const indent = /^\s*/.exec(before)?.[0] ?? "";
  return { span: { start: at, end: at }, text: items.map((item) => `${eol}${indent}- ${item}`).join("") };
}
