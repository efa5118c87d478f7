/** The text of a design beside its text with a proposed change, in the editor's own comparison. */
import {
  commands,
  type Disposable,
  l10n,
  TabInputTextDiff,
  type TextDocument,
  Uri,
  ViewColumn,
  window,
  workspace,
} from "vscode";
import type { TrialAnswer } from "../../../server/src/protocol/boreView.js";

const SCHEME = "borewright-proposed";
/** By address, what is compared at the moment. */
const texts = new Map<string, string>();
/** An address of its own each time: an editor does not request again what it has shown once. */
let shown = 0;

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
  const after = Uri.from({ scheme: SCHEME, path: document.uri.path, query: String(++shown) });
  texts.set(after.toString(), text);
  const name = document.uri.path.split("/").at(-1);
  // Where the text is: the view stays in sight.
  const editor = window.visibleTextEditors.find((each) => each.document === document);
  const options = { viewColumn: editor?.viewColumn ?? ViewColumn.One, preview: true };
  await commands.executeCommand(
    "vscode.diff",
    document.uri,
    after,
    l10n.t("{0}: as it is ↔ as it would be", String(name)),
    options,
  );
}

/** The comparisons of a design are over: the change is made, or dropped. */
export async function closeProposed(design: Uri): Promise<void> {
  const tabs = window.tabGroups.all
    .flatMap((group) => group.tabs)
    .filter(({ input }) => input instanceof TabInputTextDiff && isOf(design, input.modified));
  if (tabs.length > 0) await window.tabGroups.close(tabs, true);
  for (const address of texts.keys()) if (isOf(design, Uri.parse(address, true))) texts.delete(address);
}

function isOf(design: Uri, proposed: Uri): boolean {
  return proposed.scheme === SCHEME && proposed.path === design.path;
}
