/** From places in a design to places in its text, and back. */
import type { Path } from "../instrument/finding.js";
import type { DesignDocument } from "./designFile.js";
import type { Span } from "./span.js";
import type { MapEntry, TreeNode } from "./tree.js";

type Tree = Pick<DesignDocument, "root" | "span">;

/**
 * Where the value at `path` stands, or its key. Where nothing is written there yet, the name of the nearest value around
 * it that is: marking a whole hole or design because one line is missing would hide everything else.
 */
export function spanOf(document: Tree, path: Path, on: "key" | "value" = "value"): Span {
  let node = document.root;
  let entry: MapEntry | undefined;
  let item: TreeNode | undefined;
  for (const step of path) {
    const nextEntry: MapEntry | undefined =
      node?.kind === "map" ? node.entries.find(({ key }) => key === step) : undefined;
    const nextItem: TreeNode | undefined =
      node?.kind === "list" && typeof step === "number" ? node.items[step] : undefined;
    if (nextEntry === undefined && nextItem === undefined) return nameOf(document, entry, item);
    entry = nextEntry;
    item = nextItem;
    node = nextEntry?.value ?? nextItem;
  }
  if (entry && on === "key") return entry.keySpan;
  // A value not written yet has no length to mark.
  if (entry && node && node.span.start === node.span.end) return entry.keySpan;
  return node?.span ?? startOf(document);
}

function nameOf(document: Tree, entry: MapEntry | undefined, item: TreeNode | undefined): Span {
  if (entry) return entry.keySpan;
  if (item) return item.kind === "map" && !item.flow ? (item.entries[0]?.keySpan ?? item.span) : item.span;
  if (document.root?.kind === "map") return document.root.entries[0]?.keySpan ?? document.root.span;
  return document.root?.span ?? startOf(document);
}

function startOf({ span }: Tree): Span {
  return { start: span.start, end: Math.min(span.end, span.start + 1) };
}

export interface PlaceInDesign {
  readonly path: Path;
  readonly on: "key" | "value";
}

/**
 * What stands at an offset of the text: the innermost entry or item that it touches. An offset between entries belongs to
 * the map or list around it.
 */
export function pathAt({ root }: Tree, offset: number): PlaceInDesign {
  const path: (string | number)[] = [];
  let node = root;
  while (node !== undefined && node.source === undefined) {
    const found = stepInto(node, offset);
    if (found === undefined) break;
    path.push(found.step);
    if (found.on === "key") return { path, on: "key" };
    node = found.node;
  }
  return { path, on: "value" };
}

function stepInto(
  node: TreeNode,
  offset: number,
): { step: string | number; on: "key" | "value"; node: TreeNode } | undefined {
  if (node.kind === "list") {
    const i = node.items.findIndex(({ span }) => touches(span, offset));
    const item = node.items[i];
    return item && { step: i, on: "value", node: item };
  }
  if (node.kind === "scalar") return undefined;
  for (const { key, keySpan, value, merged } of node.entries) {
    if (merged) continue;
    if (touches(keySpan, offset)) return { step: key, on: "key", node: value };
    if (touches(value.span, offset) || (offset > keySpan.end && offset < value.span.start))
      return { step: key, on: "value", node: value };
  }
  return undefined;
}

function touches({ start, end }: Span, offset: number): boolean {
  return offset >= start && offset <= end;
}
