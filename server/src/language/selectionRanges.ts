/** What "expand selection" takes in: the value, its entry, the map or list around, up to the instrument and the file. */
import type { Position, Range, SelectionRange } from "vscode-languageserver";
import type { Span } from "../document/span.js";
import type { TreeNode } from "../document/tree.js";
import { type DesignContext, documentAt, rangeOf } from "./designContext.js";

export function selectionRanges(context: DesignContext, positions: readonly Position[]): SelectionRange[] {
  return positions.map((position) => selectionRange(context, position));
}

function selectionRange(context: DesignContext, position: Position): SelectionRange {
  const offset = context.text.offsetAt(position);
  const whole = { start: 0, end: context.file.text.length };
  const document = documentAt(context.file, offset);
  const inside = document?.root === undefined ? [] : [document.span, ...spansAround(document.root, offset)];
  const spans = [whole, ...inside].filter((span) => span.start <= offset && offset <= span.end);
  let selection: SelectionRange | undefined;
  for (const span of spans) {
    const trimmed = span === whole ? whole : trimmedAt(context.file.text, span, offset);
    const range = rangeOf(context, trimmed);
    if (selection !== undefined && (same(selection.range, range) || !contains(selection.range, range))) continue;
    selection = selection === undefined ? { range } : { range, parent: selection };
  }
  return selection ?? { range: { start: position, end: position } };
}

/** From the outside in. */
function spansAround(root: TreeNode, offset: number): readonly Span[] {
  const spans: Span[] = [];
  let node: TreeNode | undefined = root;
  while (node !== undefined && node.source === undefined) {
    spans.push(node.span);
    if (node.kind === "scalar") {
      const isQuoted = /^["']/.test(node.raw) && node.raw.length >= 2;
      if (isQuoted) spans.push({ start: node.span.start + 1, end: node.span.end - 1 });
      break;
    }
    if (node.kind === "list") {
      node = node.items.find(({ span }) => touches(span, offset));
      continue;
    }
    const entry = node.entries.find(
      ({ keySpan, value, merged }) => !merged && touches({ start: keySpan.start, end: value.span.end }, offset),
    );
    if (entry === undefined) break;
    spans.push({ start: entry.keySpan.start, end: Math.max(entry.keySpan.end, entry.value.span.end) });
    if (touches(entry.keySpan, offset) && !touches(entry.value.span, offset)) {
      spans.push(entry.keySpan);
      break;
    }
    node = entry.value;
  }
  return spans;
}

/** A block's span may run on over blank lines: what is selected ends with its last sign, if the cursor is not beyond. */
function trimmedAt(text: string, { start, end }: Span, offset: number): Span {
  const content = text.slice(start, end);
  return { start, end: Math.max(offset, start + content.trimEnd().length) };
}

const touches = ({ start, end }: Span, offset: number) => offset >= start && offset <= end;

function before(a: Position, b: Position): boolean {
  return a.line < b.line || (a.line === b.line && a.character <= b.character);
}

const contains = (outer: Range, inner: Range) => before(outer.start, inner.start) && before(inner.end, outer.end);
const same = (a: Range, b: Range) => contains(a, b) && contains(b, a);
