/** The designs on the disk: found in the folders, each with a name of its state. */
import { statSync } from "node:fs";
import { join } from "node:path";
import { findFiles } from "../../files/findFiles.js";
import { ignoredBy } from "../../files/ignoreFile.js";
import type { Folder } from "./folders.js";

const DESIGN_NAME = /\.bore\.(ya?ml|json)$/i;
/** Larger folders are not a workshop's; `borewright check` handles the rest. */
const MOST_FILES = 5000;

export interface FileState {
  /** The innermost that it lies in. */
  readonly folder: Folder;
  /** Another one after every write. */
  readonly state: string;
}

/** By their paths. An unreadable folder has none. */
export function designFiles(folders: readonly Folder[]): ReadonlyMap<string, FileState> {
  const found = new Map<string, Folder>();
  for (const folder of folders) for (const file of filesIn(folder.path)) found.set(file, folder);
  return new Map([...found].slice(0, MOST_FILES).map(([file, folder]) => [file, { folder, state: stateOf(file) }]));
}

function filesIn(root: string): readonly string[] {
  try {
    return findFiles([root], DESIGN_NAME, ignoredBy(join(root, ".borewrightignore"))).files;
  } catch {
    return [];
  }
}

function stateOf(file: string): string {
  const stats = statSync(file, { throwIfNoEntry: false });
  return stats === undefined ? "" : `${stats.mtimeMs} ${stats.size} ${stats.ino}`;
}
