/** The folders that the client has open, as far as this program can read them. */
import { fileURLToPath } from "node:url";
import type { InitializeParams, WorkspaceFoldersChangeEvent } from "vscode-languageserver";

export interface Folder {
  /** As the client wrote it. */
  readonly uri: string;
  readonly path: string;
}

export class Folders {
  private folders: readonly Folder[];

  constructor({ workspaceFolders, rootUri }: InitializeParams) {
    const uris = workspaceFolders?.map(({ uri }) => uri) ?? (rootUri === null ? [] : [rootUri]);
    this.folders = uris.flatMap(folderOf);
  }

  /** One within another comes after it. */
  get all(): readonly Folder[] {
    return this.folders.toSorted((a, b) => a.path.length - b.path.length);
  }

  change({ added, removed }: WorkspaceFoldersChangeEvent): void {
    const gone = new Set(removed.map(({ uri }) => uri));
    this.folders = [...this.folders.filter(({ uri }) => !gone.has(uri)), ...added.flatMap(({ uri }) => folderOf(uri))];
  }
}

function folderOf(uri: string | undefined): Folder[] {
  const path = uri === undefined ? undefined : pathOf(uri);
  return uri === undefined || path === undefined ? [] : [{ uri, path }];
}

export function pathOf(uri: string): string | undefined {
  try {
    return uri.startsWith("file:") ? fileURLToPath(uri) : undefined;
  } catch {
    return undefined; // of another system
  }
}
