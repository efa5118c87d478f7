/** An example to try things on: a copy that is not yet a file, so that the example itself stays as it is. */
import { type ExtensionContext, Range, Uri, WorkspaceEdit, window, workspace } from "vscode";
import { untitledPlace } from "./newFile.js";

/** The walkthrough's first example: a print that came out wrong, and what to do about it. */
const EXAMPLE = "gull-first-print.bore.yaml";

export async function openExample({ extensionUri }: ExtensionContext): Promise<void> {
  const bytes = await workspace.fs.readFile(Uri.joinPath(extensionUri, "examples", EXAMPLE));
  const document = await workspace.openTextDocument(untitledPlace(EXAMPLE));
  // Opened before and not closed: it may have been edited since.
  if (document.getText() === "") {
    const edit = new WorkspaceEdit();
    edit.replace(document.uri, new Range(0, 0, 0, 0), new TextDecoder().decode(bytes));
    await workspace.applyEdit(edit);
  }
  await window.showTextDocument(document, { preview: false });
}
