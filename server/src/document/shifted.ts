/** What was read of a document, taken over into a text in which it stands in another place. */
import type { DesignDocument, PlacedFinding } from "./designFile.js";
import type { Span } from "./span.js";
import type { MapEntry, TreeNode } from "./tree.js";

/** The same document, `by` UTF-16 units further on in `text`. What it says stays the very same object. */
export function shifted(document: DesignDocument, by: number, text: string): DesignDocument {
  if (by === 0) return { ...document, text };
  return {
    ...document,
    text,
    span: moved(document.span, by),
    root: document.root && movedNode(document.root, by),
    findings: document.findings.map((finding) => shiftedFinding(finding, by)),
  };
}

function moved({ start, end }: Span, by: number): Span {
  return { start: start + by, end: end + by };
}

function movedNode(node: TreeNode, by: number): TreeNode {
  const placed = { span: moved(node.span, by), ...(node.source && { source: moved(node.source, by) }) };
  if (node.kind === "scalar") return { ...node, ...placed };
  if (node.kind === "list") return { ...node, ...placed, items: node.items.map((item) => movedNode(item, by)) };
  return { ...node, ...placed, entries: node.entries.map((entry) => movedEntry(entry, by)) };
}

function movedEntry(entry: MapEntry, by: number): MapEntry {
  return { ...entry, keySpan: moved(entry.keySpan, by), value: movedNode(entry.value, by) };
}

export function shiftedFinding(finding: PlacedFinding, by: number): PlacedFinding {
  const { related } = finding;
  return {
    ...finding,
    span: moved(finding.span, by),
    ...(related && { related: related.map((place) => ({ ...place, span: moved(place.span, by) })) }),
  };
}
