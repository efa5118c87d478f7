/** Gives findings their places in the text. */
import type { Finding } from "../instrument/finding.js";
import type { DesignDocument, PlacedFinding } from "./designFile.js";
import { spanOf } from "./locate.js";
import type { Span } from "./span.js";
import { nodeAt } from "./tree.js";

type Tree = Pick<DesignDocument, "root" | "span">;

export function placeFinding(document: Tree, finding: Finding): PlacedFinding {
  const { related, ...said } = finding;
  const rest = { ...said, message: sentence(said.message) };
  const span = narrowed(document, finding) ?? spanOf(document, finding.path, finding.on);
  if (related === undefined) return { ...rest, span };
  return { ...rest, span, related: related.map((place) => ({ ...place, span: spanOf(document, place.path) })) };
}

/** A hole without a name begins its sentence with a capital; a name stays as the maker writes it. */
function sentence(message: string): string {
  return message.replace(/^hole (?=\d)/, "Hole ");
}

/** The part of a text value that a finding means; undefined where signs of the text and of the value do not correspond. */
function narrowed({ root }: Tree, { path, within, on }: Finding): Span | undefined {
  const node = nodeAt(root, path);
  if (within === undefined || on === "key" || node?.kind !== "scalar" || node.source !== undefined) return undefined;
  const [start, end] = within;
  // Block scalars and escapes change what stands between the quotes.
  const inset = node.raw === node.value ? 0 : node.raw.slice(1, -1) === node.value ? 1 : undefined;
  if (inset === undefined || start >= end || end > String(node.value).length) return undefined;
  return { start: node.span.start + inset + start, end: node.span.start + inset + end };
}
