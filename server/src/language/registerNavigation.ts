/** Requests that look at names and structure alone: they wait for no prediction. */
import { ErrorCodes, ResponseError, type WorkspaceEdit } from "vscode-languageserver";
import { label } from "../escape/label.js";
import { documentLinks } from "./documentLinks.js";
import { formattingEdits, typedFormatting } from "./formatting.js";
import { selectionRanges } from "./selectionRanges.js";
import { semanticTokens } from "./semanticTokens.js";
import type { Session } from "./session.js";
import { definition, highlights, linkedRanges, references } from "./symbols/navigate.js";
import { CannotRename, prepareRename, rename } from "./symbols/rename.js";
import { signatureHelp } from "./symbols/signatureHelp.js";

export function registerNavigation(session: Session): void {
  const { connection } = session;
  connection.onDefinition(({ textDocument: { uri }, position }, token) =>
    session.answer("Definition", uri, token, [], (design) => definition(design, position)),
  );
  connection.onReferences(({ textDocument: { uri }, position, context }, token) =>
    session.answer("References", uri, token, [], (design) => references(design, position, context.includeDeclaration)),
  );
  connection.onDocumentHighlight(({ textDocument: { uri }, position }, token) =>
    session.answer("Highlights", uri, token, [], (design) => highlights(design, position)),
  );
  connection.onPrepareRename(({ textDocument: { uri }, position }, token) =>
    session.answer("Rename", uri, token, null, (design) => refusedInWords(() => prepareRename(design, position))),
  );
  connection.onRenameRequest(({ textDocument: { uri }, position, newName }, token) =>
    session.answer<WorkspaceEdit | null>("Rename", uri, token, null, (design) =>
      refusedInWords(() => rename(design, position, newName)),
    ),
  );
  connection.onSignatureHelp(({ textDocument: { uri }, position }, token) =>
    session.answer("Signature help", uri, token, null, (design) => signatureHelp(design, position)),
  );
  connection.onSelectionRanges(({ textDocument: { uri }, positions }, token) =>
    session.answer("Selection ranges", uri, token, [], (design) => selectionRanges(design, positions)),
  );
  connection.onDocumentLinks(({ textDocument: { uri } }, token) =>
    session.answer("Links", uri, token, [], documentLinks),
  );
  connection.languages.semanticTokens.on(({ textDocument: { uri } }, token) =>
    session.answer("Semantic tokens", uri, token, { data: [] }, (design) => semanticTokens(design)),
  );
  connection.languages.semanticTokens.onRange(({ textDocument: { uri }, range }, token) =>
    session.answer("Semantic tokens", uri, token, { data: [] }, (design) => semanticTokens(design, range)),
  );
  connection.onDocumentFormatting(({ textDocument: { uri } }, token) =>
    session.answer("Formatting", uri, token, [], (design) => formattingEdits(design)),
  );
  connection.onDocumentOnTypeFormatting(({ textDocument: { uri }, position, ch }, token) =>
    session.answer("Formatting", uri, token, [], (design) => typedFormatting(design, position, ch)),
  );
  connection.languages.onLinkedEditingRange(({ textDocument: { uri }, position }, token) =>
    session.answer("Linked editing", uri, token, null, (design) => linkedRanges(design, position)),
  );
  connection.onDocumentRangeFormatting(({ textDocument: { uri }, range }, token) =>
    session.answer("Formatting", uri, token, [], (design) => formattingEdits(design, range)),
  );
}

/** The editor shows the words of a refused rename beside the name. */
function refusedInWords<T>(work: () => T): T {
  try {
    return work();
  } catch (error) {
    if (!(error instanceof CannotRename)) throw error;
    // Returned rather than thrown: what is thrown counts as a fault of ours.
    return new ResponseError<void>(ErrorCodes.InvalidRequest, label(error.message)) as never;
  }
}
