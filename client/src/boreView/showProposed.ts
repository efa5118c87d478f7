/** The text of a design beside what a proposed change would make of it, in the editor's own comparison. */
import { commands, type Disposable, type TextDocument, Uri, ViewColumn, window, workspace } from "vscode";
import type { TrialAnswer } from "../../../server/src/protocol/boreView.js";

const SCHEME = "borewright-proposed";
/** By address, what is compared at the moment. */
const texts = new Map<string, string>();

export function proposedTexts(): Disposable {
  return workspace.registerTextDocumentContentProvider(SCHEME, {
    provideTextDocumentContent: (uri) => texts.get(uri.toString()),
  });
}

export async function showProposed(document: TextDocument, edits: TrialAnswer["edits"]): Promise<void> {
  let text = document.getText();
  // From the last to the first, so that the places of the others stay.
  for (const { start, end, text: put } of [...edits].sort((a, b) => b.start - a.start || b.end - a.end))
    text = text.slice(0, start) + put + text.slice(end);
  // An address of its own each time: what an editor has shown once it does not ask for again.
  const after = Uri.from({ scheme: SCHEME, path: document.uri.path, query: String(texts.size) });
  texts.set(after.toString(), text);
  const name = document.uri.path.split("/").at(-1);
  // Where the text is: the view stays in sight.
  const editor = window.visibleTextEditors.find((each) => each.document === document);
  const options = { viewColumn: editor?.viewColumn ?? ViewColumn.One, preview: true };
  await commands.executeCommand("vscode.diff", document.uri, after, `${name}: as it is ↔ as it would be`, options);
}
