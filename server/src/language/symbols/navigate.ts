/** Go to the definition, find all references, mark them where the cursor stands. */
import {
  type DocumentHighlight,
  DocumentHighlightKind,
  type LinkedEditingRanges,
  type Location,
  type Position,
} from "vscode-languageserver";
import type { DesignDocument } from "../../document/designFile.js";
import type { Path } from "../../instrument/finding.js";
import { type DesignContext, documentAt, rangeOf } from "../designContext.js";
import { definitionOf, meantAt, type Reference, referencesTo } from "./references.js";

export function definition(context: DesignContext, position: Position): Location[] {
  const found = meantAtPosition(context, position);
  if (found === undefined) return [];
  return [{ uri: context.uri, range: rangeOf(context, definitionOf(found.document, found.to)) }];
}

export function references(context: DesignContext, position: Position, withDefinition: boolean): Location[] {
  const found = meantAtPosition(context, position);
  if (found === undefined) return [];
  const used = referencesTo(found.document, found.to).filter(({ as }) => withDefinition || as !== "definition");
  return used.map(({ span }) => ({ uri: context.uri, range: rangeOf(context, span) }));
}

export function highlights(context: DesignContext, position: Position): DocumentHighlight[] {
  const found = meantAtPosition(context, position);
  if (found === undefined) return [];
  return referencesTo(found.document, found.to).map(({ span, as }) => ({
    range: rangeOf(context, span),
    kind: HIGHLIGHTS[as],
  }));
}

/**
 * A name of the maker's where it is given, and its uses in formulas: they may be typed at once. Signs of fingerings stand for a hole
 * by their place, and the words of the format are nobody's to change: nothing is linked there.
 */
export function linkedRanges(context: DesignContext, position: Position): LinkedEditingRanges | null {
  const found = meantAtPosition(context, position);
  if (found === undefined || found.to.length !== 2) return null;
  const named = referencesTo(found.document, found.to).filter(({ as }) => as !== "sign");
  const ranges = named.map(({ span }) => rangeOf(context, span));
  const [first, ...others] = ranges.map((range) => context.text.getText(range));
  if (others.length === 0 || others.some((other) => other !== first)) return null;
  const offset = context.text.offsetAt(position);
  return named.some(({ span }) => offset >= span.start && offset <= span.end) ? { ranges } : null;
}

const HIGHLIGHTS: Record<Reference["as"], DocumentHighlightKind> = {
  definition: DocumentHighlightKind.Write,
  name: DocumentHighlightKind.Read,
  sign: DocumentHighlightKind.Text,
};

function meantAtPosition(
  context: DesignContext,
  position: Position,
): { readonly document: DesignDocument; readonly to: Path } | undefined {
  const offset = context.text.offsetAt(position);
  const document = documentAt(context.file, offset);
  const to = document && meantAt(document, offset);
  return document === undefined || to === undefined ? undefined : { document, to };
}
