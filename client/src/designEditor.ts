/** The design that a command means: the one in front, or the one last seen where something else is in front. */
import { l10n, type TextDocument, type TextEditor, window, workspace } from "vscode";
import { isDesign, OLD_SCHEME } from "./designSelector.js";
import { tell } from "./notify.js";

/** Brings it to the front; says what is missing where there is none. */
export async function designEditor(): Promise<TextEditor | undefined> {
  const active = window.activeTextEditor;
  if (active !== undefined && canChange(active.document)) return active;
  const visible = window.visibleTextEditors.find(({ document }) => canChange(document))?.document;
  const document = visible ?? workspace.textDocuments.findLast((each) => canChange(each) && !each.isClosed);
  if (document !== undefined) return window.showTextDocument(document);
  tell(l10n.t("Open an instrument description (*.bore.yaml or *.bore.json) first."));
  return undefined;
}

function canChange(document: TextDocument): boolean {
  return isDesign(document) && document.uri.scheme !== OLD_SCHEME;
}
