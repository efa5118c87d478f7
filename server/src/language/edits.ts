/** Edits of a design as the protocol has them. */
import type { TextEdit as ProtocolEdit, WorkspaceEdit } from "vscode-languageserver";
import type { TextEdit } from "../document/edits.js";
import { type DesignContext, rangeOf } from "./designContext.js";

/** For the version they were worked out on: a client that knows versions refuses them on any other. */
export function workspaceEdit(context: DesignContext, edits: readonly TextEdit[]): WorkspaceEdit {
  const changes: ProtocolEdit[] = edits.map(({ span, text }) => ({ range: rangeOf(context, span), newText: text }));
  if (!context.client.versionedEdits) return { changes: { [context.uri]: changes } };
  const textDocument = { uri: context.uri, version: context.version };
  return { documentChanges: [{ textDocument, edits: changes }] };
}
