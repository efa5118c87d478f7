/** Where and how one more entry is written into a map, in the style of those that it has. */
import type { Editable, TextEdit } from "./textEdit.js";
import type { MapEntry, MapNode } from "./tree.js";

export function insertion(document: Editable, map: MapNode, key: string, valueText: string): TextEdit {
  return map.flow ? intoFlow(document, map, key, valueText) : intoBlock(document, map, key, valueText);
}

/** `{ a: 1, b: 2 }`, JSON included: after the last entry, on its own line where the entries stand on lines of their own. */
function intoFlow(document: Editable, map: MapNode, key: string, valueText: string): TextEdit {
  const { text, syntax } = document;
  const entry = `${syntax === "json" ? JSON.stringify(key) : key}: ${valueText}`;
  const last = lastOwn(map);
  if (last === undefined) {
    const inside = text.slice(map.span.start + 1, map.span.end - 1);
    const at = map.span.start + 1;
    if (inside.trim() === "") return { span: { start: at, end: map.span.end - 1 }, text: ` ${entry} ` };
    // There is something that is not an entry of its own (a merge key, a comment): go before it.
    return { span: { start: at, end: at }, text: ` ${entry},` };
  }
  const end = endOf(last);
  const lineStart = lineStartOf(text, last.keySpan.start);
  const before = text.slice(lineStart, last.keySpan.start);
  const ownLine = /^\s*$/.test(before) && lineStart > map.span.start;
  const separator = ownLine ? lineEnd(text) + before : " ";
  const comma = /^\s*,/.exec(text.slice(end, map.span.end));
  if (comma !== null) {
    const at = end + comma[0].length;
    // A merge key may stand behind the comma, or nothing.
    const isLast = /^\s*}/.test(text.slice(at, map.span.end));
    return { span: { start: at, end: at }, text: `${separator}${entry}${isLast ? "" : ","}` };
  }
  return { span: { start: end, end }, text: `,${separator}${entry}` };
}

/** Block style: on a new line after the last entry and what is written beside it. */
function intoBlock(document: Editable, map: MapNode, key: string, valueText: string): TextEdit {
  const { text } = document;
  const eol = lineEnd(text);
  const first = map.entries.find(({ merged }) => !merged);
  const anchor = first?.keySpan.start ?? map.span.start;
  const indent = " ".repeat(anchor - lineStartOf(text, anchor));
  const last = lastOwn(map);
  const end = last === undefined ? map.span.end : endOf(last);
  if (end > 0 && text[end - 1] === "\n")
    return { span: { start: end, end }, text: `${indent}${key}: ${valueText}${eol}` };
  const newline = /\r?\n/.exec(text.slice(end));
  const at = newline === null ? text.length : end + newline.index;
  return { span: { start: at, end: at }, text: `${eol}${indent}${key}: ${valueText}` };
}

/** The entry whose text ends last. */
function lastOwn(map: MapNode): MapEntry | undefined {
  const own = map.entries.filter(({ merged }) => !merged);
  return own.reduce<MapEntry | undefined>(
    (last, entry) => (last === undefined || entry.keySpan.start > last.keySpan.start ? entry : last),
    undefined,
  );
}

function endOf(entry: MapEntry): number {
  return Math.max(entry.keySpan.end, entry.value.span.end);
}

/** Where the line of a place begins, a byte order mark not counted: it has no width, and stays where it is. */
export function lineStartOf(text: string, offset: number): number {
  const start = text.lastIndexOf("\n", offset - 1) + 1;
  return start === 0 && text.startsWith("\uFEFF") ? 1 : start;
}

/** The line break that a text uses. */
export function lineEnd(text: string): string {
  return /\r\n/.test(text) ? "\r\n" : "\n";
}
