/** Edits of a design as the protocol has them. */

import type {
  AnnotatedTextEdit,
  ChangeAnnotation,
  TextEdit as ProtocolEdit,
  WorkspaceEdit,
} from "vscode-languageserver";
import type { TextEdit } from "../document/textEdit.js";
import { t } from "../words/translation.js";
import { type DesignContext, rangeOf } from "./designContext.js";

/**
 * For the version they were worked out on: a client that knows versions refuses them on any other. With `preview`, a client
 * that can shows the changes under that label and asks before it makes them.
 */
export function workspaceEdit(context: DesignContext, edits: readonly TextEdit[], preview?: Preview): WorkspaceEdit {
  const changes: ProtocolEdit[] = edits.map(({ span, text }) => ({ range: rangeOf(context, span), newText: text }));
  if (!context.client.versionedEdits) return { changes: { [context.uri]: changes } };
  const textDocument = { uri: context.uri, version: context.version };
  if (preview === undefined || !context.client.previewsEdits)
    return { documentChanges: [{ textDocument, edits: changes }] };
  const { label, made, followed, says } = preview;
  const annotated = changes.map((change, i): AnnotatedTextEdit => ({ ...change, annotationId: `${CHANGE}.${i}` }));
  const notes = changes.map((_, i): [string, ChangeAnnotation] => {
    const says = made[i] ?? [];
    const description = says.length === 0 ? {} : { description: says.join("; ") };
    return [`${CHANGE}.${i}`, { label, needsConfirmation: false, ...description }];
  });
  const asks = [t("this line changes nothing"), ...followed.map((line) => t`by formula, ${line}`), ...says].join("; ");
  return {
    documentChanges: [{ textDocument, edits: [ASKING_EDIT, ...annotated] }],
    changeAnnotations: {
      ...Object.fromEntries(notes),
      [ASKING]: { label: t("Asks first"), description: asks, needsConfirmation: true },
    },
  };
}

/** What a client shows of changes before it makes them: their label, and old and new of each. */
export interface Preview {
  readonly label: string;
  /** By edit. */
  readonly made: readonly (readonly string[])[];
  /** What no edit writes but a formula changes. */
  readonly followed: readonly string[];
  /** What is to be known before it is made: notes that it leaves weak, what holds it back. */
  readonly says: readonly string[];
}

const CHANGE = "borewright";
const ASKING = "borewright.ask";

/**
 * The one edit that needs to be confirmed changes nothing: an editor that shows a list of changes leaves those that need it
 * unticked, and with all of them so, "Apply" would apply none.
 */
const ASKING_EDIT: AnnotatedTextEdit = {
  range: { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } },
  newText: "",
  annotationId: ASKING,
};
