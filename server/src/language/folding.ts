/** Every map and list that stands on more than one line can be folded, and so can each instrument of several. */
import type { FoldingRange } from "vscode-languageserver";
import type { Span } from "../document/span.js";
import type { TreeNode } from "../document/tree.js";
import type { DesignContext } from "./designContext.js";

/** More than any design needs; keeps an absurd file from flooding the editor. */
const MOST_FOLDS = 5000;

export function foldingRanges(context: DesignContext): FoldingRange[] {
  const folds = new Map<number, number>();
  const add = (span: Span, closing: boolean) => {
    const { start, end } = lines(context, span, closing);
    if (end > start && folds.size < MOST_FOLDS) folds.set(start, Math.max(end, folds.get(start) ?? 0));
  };
  for (const { root, span } of context.file.documents) {
    if (context.file.documents.length > 1) add(span, false);
    if (root !== undefined) visit(root, add);
  }
  return [...folds].map(([startLine, endLine]) => ({ startLine, endLine }));
}

function visit(node: TreeNode, add: (span: Span, closing: boolean) => void): void {
  if (node.kind === "scalar" || node.source !== undefined) return;
  if (node.flow) add(node.span, true);
  if (node.kind === "list") {
    for (const item of node.items) {
      if (item.kind !== "scalar" && !item.flow && item.source === undefined) add(item.span, false);
      visit(item, add);
    }
    return;
  }
  for (const { keySpan, value, merged } of node.entries) {
    if (merged || value.source !== undefined) continue;
    if (value.kind !== "scalar" && !value.flow) add({ start: keySpan.start, end: value.span.end }, false);
    visit(value, add);
  }
}

/** First and last line, blank lines at the end left out; a closing bracket's line stays in sight. */
function lines(context: DesignContext, span: Span, closing: boolean): { start: number; end: number } {
  const content = context.file.text.slice(span.start, span.end);
  const trimmed = content.trimEnd();
  const lead = content.length - content.trimStart().length;
  const start = context.text.positionAt(span.start + lead).line;
  const last = context.text.positionAt(span.start + trimmed.length).line;
  return { start, end: closing ? last - 1 : last };
}
