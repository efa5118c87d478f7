/** Go to the definition, find all references, mark them where the cursor stands. */
import { type DocumentHighlight, DocumentHighlightKind, type Location, type Position } from "vscode-languageserver";
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
