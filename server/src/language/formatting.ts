/**
 * Aligns the columns of holes, fingerings and other lists whose entries stand on a line each, `- { name: L1, at: 173 }`. Only blanks
 * between the properties of one line are changed.
 */
import type { Position, TextEdit as ProtocolEdit, Range } from "vscode-languageserver";
import type { Span } from "../document/span.js";
import type { ListNode, MapNode, TreeNode } from "../document/tree.js";
import { type DesignContext, rangeOf } from "./designContext.js";

/** Lists with more entries than this are left as they are. */
const MOST_ROWS = 1000;

export function formattingEdits(context: DesignContext, within?: Range): ProtocolEdit[] {
  const { text } = context;
  const wanted = within && { start: text.offsetAt(within.start), end: text.offsetAt(within.end) };
  const lists = context.file.documents.flatMap(({ root }) => (root === undefined ? [] : listsIn(root)));
  return lists
    .filter(({ span }) => wanted === undefined || (span.start <= wanted.end && span.end >= wanted.start))
    .flatMap((list) => alignedRows(context, list));
}

/** The list that a row was just written in: after its closing brace, or on going to the next line. */
export function typedFormatting(context: DesignContext, position: Position, typed: string): ProtocolEdit[] {
  const row = typed === "\n" ? position.line - 1 : position.line;
  if (row < 0) return [];
  const start = context.text.offsetAt({ line: row, character: 0 });
  const end = context.text.offsetAt({ line: row + 1, character: 0 });
  const lists = context.file.documents.flatMap(({ root }) => (root === undefined ? [] : listsIn(root)));
  return lists
    .filter(({ items }) => items.some(({ kind, span }) => kind === "map" && span.start >= start && span.end <= end))
    .flatMap((list) => alignedRows(context, list));
}

function listsIn(node: TreeNode): readonly ListNode[] {
  if (node.kind === "scalar" || node.source !== undefined) return [];
  if (node.kind === "map") return node.entries.flatMap(({ value, merged }) => (merged ? [] : listsIn(value)));
  return [node, ...node.items.flatMap(listsIn)];
}

/** One property of a row: from its key to the comma behind its value. */
interface Cell {
  readonly key: string;
  readonly span: Span;
}

function alignedRows(context: DesignContext, list: ListNode): ProtocolEdit[] {
  const { text } = context.file;
  const rows = list.items.flatMap((item) => {
    const cells = item.kind === "map" ? cellsOf(text, item) : undefined;
    return cells === undefined || cells.length === 0 ? [] : [cells];
  });
  // A list partly on lines of its own has no columns.
  if (rows.length < 2 || rows.length > MOST_ROWS || rows.length < list.items.length) return [];
  const edits: ProtocolEdit[] = [];
  let live = rows;
  for (let column = 0; live.length > 1; column++) {
    // Rows that name another property here, or end, are no longer aligned.
    const key = live[0]?.[column]?.key;
    live = live.filter((row) => row[column]?.key === key && row[column + 1] !== undefined);
    const next = live[0]?.[column + 1]?.key;
    live = live.filter((row) => row[column + 1]?.key === next);
    if (key === undefined || live.length < 2) break;
    const width = Math.max(...live.map((row) => widthOf(text, (row[column] as Cell).span)));
    for (const row of live) {
      const [cell, after] = [row[column], row[column + 1]] as [Cell, Cell];
      const blanks = " ".repeat(width - widthOf(text, cell.span) + 1);
      if (text.slice(cell.span.end, after.span.start) === blanks) continue;
      edits.push({ range: rangeOf(context, { start: cell.span.end, end: after.span.start }), newText: blanks });
    }
  }
  return edits;
}

/** Undefined where the map does not stand on one line, or something besides its properties stands in it. */
function cellsOf(text: string, map: MapNode): readonly Cell[] | undefined {
  const content = text.slice(map.span.start, map.span.end);
  if (!map.flow || map.source !== undefined || /[\r\n]/.test(content)) return undefined;
  const cells: Cell[] = [];
  for (const { key, keySpan, value, merged } of map.entries) {
    if (merged || keySpan.start < (cells.at(-1)?.span.end ?? map.span.start)) return undefined;
    const valueEnd = Math.max(keySpan.end, value.span.end);
    const comma = /^[ \t]*,/.exec(text.slice(valueEnd, map.span.end));
    const end = valueEnd + (comma?.[0].length ?? 0);
    const before = cells.at(-1);
    if (before !== undefined && !/^[ \t]*$/.test(text.slice(before.span.end, keySpan.start))) return undefined;
    cells.push({ key, span: { start: keySpan.start, end } });
  }
  return cells;
}

/** In characters as displayed, as far as that is known without the font. */
function widthOf(text: string, { start, end }: Span): number {
  return [...text.slice(start, end)].length;
}
