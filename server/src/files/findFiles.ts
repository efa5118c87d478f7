/** Finds files in folders: each real file once, whatever links lead to it, and nothing that cannot be looked into stops the rest. */
import { type Dirent, readdirSync, realpathSync, statSync } from "node:fs";
import { join } from "node:path";
import { FileTrouble, withFile } from "./fileTrouble.js";

export interface Found {
  readonly files: readonly string[];
  /** What could not be looked into. */
  readonly troubles: readonly FileTrouble[];
}

/** Folders that hold other people's files or none. */
const SKIPPED = new Set(["node_modules", ".git"]);

/**
 * The files named, and those in the folders named whose name fits, sorted within their folder. Links to files are followed,
 * links to folders only where they are named themselves. A folder named like a file is trouble, not looked into.
 */
export function findFiles(paths: readonly string[], fits: RegExp): Found {
  const search = new Search(fits);
  for (const path of paths) search.path(path);
  return search;
}

class Search implements Found {
  readonly files: string[] = [];
  readonly troubles: FileTrouble[] = [];
  /** Real paths of the files and folders found so far. */
  private readonly seen = new Set<string>();

  constructor(private readonly fits: RegExp) {}

  path(path: string): void {
    this.unlessTrouble(path, () => {
      if (statSync(path).isDirectory()) this.folder(path);
      else this.file(path);
    });
  }

  private folder(folder: string): void {
    if (!this.isNew(folder)) return;
    for (const entry of readdirSync(folder, { withFileTypes: true }).sort(byName)) {
      const path = join(folder, entry.name);
      this.unlessTrouble(path, () => this.entry(path, entry));
    }
  }

  private entry(path: string, entry: Dirent): void {
    const isDesign = this.fits.test(entry.name);
    if (entry.isDirectory() && !isDesign) {
      if (!SKIPPED.has(entry.name)) this.folder(path);
    } else if (isDesign) this.file(path);
  }

  /** Whether it can be read is found out by who reads it. */
  private file(path: string): void {
    if (this.isNew(path)) this.files.push(path);
  }

  private isNew(path: string): boolean {
    const real = realpathSync(path);
    if (this.seen.has(real)) return false;
    this.seen.add(real);
    return true;
  }

  private unlessTrouble(path: string, work: () => void): void {
    try {
      withFile(path, work);
    } catch (error) {
      if (!(error instanceof FileTrouble)) throw error;
      this.troubles.push(error);
    }
  }
}

/** By UTF-16 units: alike on every machine. */
function byName(a: Dirent, b: Dirent): number {
  return a.name < b.name ? -1 : 1;
}
