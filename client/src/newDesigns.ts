/** Designs that are not yet files: a copy of an example, and an empty one. */
import { commands, type ExtensionContext, Range, Uri, WorkspaceEdit, window, workspace } from "vscode";

/** What the walkthrough begins with: a print that came out wrong, and what to do about it. */
const EXAMPLE = "gull-first-print.bore.yaml";

/** The example itself stays as it is; what is opened is a copy without a file. */
export async function openExample({ extensionUri }: ExtensionContext): Promise<void> {
  const bytes = await workspace.fs.readFile(Uri.joinPath(extensionUri, "examples", EXAMPLE));
  await openUnsaved(EXAMPLE, new TextDecoder().decode(bytes));
}

/** An empty design with the list of whole instruments open. */
export async function newDesign(): Promise<void> {
  await openUnsaved("my-instrument.bore.yaml", "");
  await commands.executeCommand("editor.action.triggerSuggest");
}

async function openUnsaved(name: string, text: string): Promise<void> {
  const document = await workspace.openTextDocument(Uri.from({ scheme: "untitled", path: name }));
  if (document.getText() === "" && text !== "") {
    const edit = new WorkspaceEdit();
    edit.replace(document.uri, new Range(0, 0, 0, 0), text);
    await workspace.applyEdit(edit);
  }
  await window.showTextDocument(document, { preview: false });
}
