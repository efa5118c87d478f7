/** Gives findings their places in the text. */
import type { Finding, Path } from "../instrument/finding.js";
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

/** The part of a text value that a finding means; undefined where characters of the text and of the value do not correspond. */
function narrowed(document: Tree, { path, within, on }: Finding): Span | undefined {
  return within === undefined || on === "key" ? undefined : spanWithin(document, path, within);
}

/**
 * Where a part of the text value at `path` stands, given by UTF-16 offsets into the value. Undefined where an alias brought it in, or
 * signs of the text and of the value do not correspond: block scalars and escapes change what stands between the quotes.
 */
export function spanWithin(
  { root }: Pick<Tree, "root">,
  path: Path,
  [start, end]: readonly [number, number],
): Span | undefined {
  const node = nodeAt(root, path);
  if (node?.kind !== "scalar" || node.source !== undefined || isUnderAlias(root, path)) return undefined;
  const inset = node.raw === node.value ? 0 : node.raw.slice(1, -1) === node.value ? 1 : undefined;
  if (inset === undefined || start >= end || end > String(node.value).length) return undefined;
  return { start: node.span.start + inset + start, end: node.span.start + inset + end };
}

/** Whether a map or list around `path` is written elsewhere. */
function isUnderAlias(root: Tree["root"], path: Path): boolean {
  return path.some((_, depth) => nodeAt(root, path.slice(0, depth))?.source !== undefined);
}
