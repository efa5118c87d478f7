/** The sheet that goes with a solid, as a page beside the design: it can be read, copied and saved, and asks for nothing when closed. */
import { type Disposable, Uri, ViewColumn, window, workspace } from "vscode";

const SCHEME = "borewright-sheet";
const sheets = new Map<string, string>();

/** Shows what `showSheet` is given. */
export function sheetPages(): Disposable {
  return workspace.registerTextDocumentContentProvider(SCHEME, {
    provideTextDocumentContent: (uri) => sheets.get(uri.toString()) ?? "",
  });
}

let last = 0;

/** @param target the file that it goes with: it gives the page its name */
export async function showSheet(target: Uri, text: string): Promise<void> {
  const name =
    target.path
      .split("/")
      .at(-1)
      ?.replace(/\.\w+$/, "") ?? "solid";
  // Each page its own name: the editor keeps an open one as it is.
  const uri = Uri.from({ scheme: SCHEME, path: `/${++last}/${name} (how to print).txt` });
  sheets.set(uri.toString(), text);
  const page = await workspace.openTextDocument(uri);
  await window.showTextDocument(page, { viewColumn: ViewColumn.Beside, preview: true, preserveFocus: true });
}
