/** New designs: in the editor, not yet on the disk, with the place where saving puts them. */
import { FileType, Position, Uri, ViewColumn, WorkspaceEdit, window, workspace } from "vscode";

/** Where files lie that Node and the editor name alike: there an unsaved file may have a place already. */
const SCHEMES = ["file", "vscode-remote"];
/** Tried after the name itself: `whistle-2`, `whistle-3`. */
const MOST_ALIKE = 99;

let home: string | undefined;

/** The folder for designs of a window without one; none in a browser. */
export function setHome(path: string | undefined): void {
  home = path;
}

/** Opens a text as an unsaved design. Saving it writes it into the folder that is open, under a name that nothing there has. */
export async function openUntitled(name: string, text: string): Promise<void> {
  const uri = await freePlace(fileNameOf(name));
  const document = await workspace.openTextDocument(uri);
  const edit = new WorkspaceEdit();
  edit.insert(uri, new Position(0, 0), text);
  await workspace.applyEdit(edit);
  await window.showTextDocument(document, { viewColumn: ViewColumn.Active, preview: false });
}

/** The place of an unsaved design that is open, or opens, under its own name. */
export function untitledPlace(file: string): Uri {
  return Uri.from({ scheme: "untitled", path: `${folderOfNew()}${file}` });
}

async function freePlace(name: string): Promise<Uri> {
  const open = new Set(workspace.textDocuments.map(({ uri }) => uri.path));
  for (let i = 1; i <= MOST_ALIKE; i++) {
    const uri = untitledPlace(`${i === 1 ? name : `${name}-${i}`}.bore.yaml`);
    if (!open.has(uri.path) && !(await isThere(uri))) return uri;
  }
  throw new Error("Save or close some of the new instruments first.");
}

async function isThere(uri: Uri): Promise<boolean> {
  if (!uri.path.startsWith("/")) return false;
  try {
    return (await workspace.fs.stat(uri.with({ scheme: "file" }))).type !== FileType.Unknown;
  } catch {
    return false;
  }
}

/** With a slash at its end. Without a folder and a home the editor asks for the place when the design is saved. */
function folderOfNew(): string {
  const folder = workspace.workspaceFolders?.map(({ uri }) => uri).find(({ scheme }) => SCHEMES.includes(scheme));
  const path = folder?.path ?? (home === undefined ? undefined : Uri.file(home).path);
  return path === undefined ? "" : `${path.replace(/\/$/, "")}/`;
}

/** `D5 whistle` → `d5-whistle`. */
export function fileNameOf(name: string): string {
  return (
    name
      .replaceAll("#", "s")
      .replace(/[^\p{L}\p{N}]+/gu, "-")
      .replace(/^-|-$/g, "")
      .toLowerCase() || "instrument"
  );
}
