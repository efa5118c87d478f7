/** Finds files in folders: each real file once, whatever links lead to it; an unreadable folder does not stop the rest. */
import { type Dirent, readdirSync, realpathSync, statSync } from "node:fs";
import { join } from "node:path";
import picomatch from "picomatch";
import { t } from "../words/translation.js";
import { FileTrouble, withFile } from "./fileTrouble.js";
import type { Ignored } from "./ignoreFile.js";
import { slashed } from "./slashed.js";

export interface Found {
  readonly files: readonly string[];
  /** What could not be read. */
  readonly troubles: readonly FileTrouble[];
}

/** Folders that hold other people's files or none. */
export const SKIPPED_FOLDERS: ReadonlySet<string> = new Set(["node_modules", ".git"]);

/**
 * The files named, those in the folders named, and those that a pattern such as `designs/alto-*` matches, where their name `fits`; sorted
 * within their folder. Links to files are followed, links to folders only where they are named themselves. A folder named like
 * a file is trouble, not looked into. What is `ignored` is left out, unless it is named itself.
 */
export function findFiles(paths: readonly string[], fits: RegExp, ignored: Ignored = () => false): Found {
  const search = new Search(fits, ignored);
  for (const path of paths) search.path(path);
  return search;
}

/** What a walk takes, by its path; and the real folders it has been in. */
interface Walk {
  readonly matches: (path: string) => boolean;
  readonly folders: Set<string>;
}

class Search implements Found {
  readonly files: string[] = [];
  readonly troubles: FileTrouble[] = [];
  /** Real paths of the files found so far. */
  private readonly seen = new Set<string>();

  constructor(
    private readonly fits: RegExp,
    private readonly ignored: Ignored,
  ) {}

  path(path: string): void {
    this.unlessTrouble(path, () => {
      const stats = statSync(path, { throwIfNoEntry: false });
      if (stats === undefined && picomatch.scan(path).isGlob) this.pattern(path);
      else if (stats?.isDirectory()) this.folder(path, { matches: () => true, folders: new Set() });
      else this.file(path);
    });
  }

  /** Our own walk, rather than a library's, so that what holds for folders holds for patterns. */
  private pattern(pattern: string): void {
    const before = this.seen.size;
    const isMatch = picomatch(pattern.replace(/^\.\//, ""));
    const matches = (path: string) => isMatch(slashed(path));
    this.folder(picomatch.scan(pattern).base || ".", { matches, folders: new Set() });
    if (this.seen.size === before) throw new FileTrouble(pattern, t("no file of a design matches"));
  }

  private folder(folder: string, walk: Walk): void {
    if (isKnown(folder, walk.folders)) return;
    for (const entry of readdirSync(folder, { withFileTypes: true }).sort(byName)) {
      const path = join(folder, entry.name);
      this.unlessTrouble(path, () => this.entry(path, entry, walk));
    }
  }

  private entry(path: string, entry: Dirent, walk: Walk): void {
    const isDesign = this.fits.test(entry.name);
    if (entry.isDirectory() && !isDesign) {
      if (!SKIPPED_FOLDERS.has(entry.name) && !this.ignored(path, true)) this.folder(path, walk);
    } else if (isDesign && walk.matches(path) && !this.ignored(path, false)) this.file(path);
  }

  /** Whether it can be read is found out by who reads it. */
  private file(path: string): void {
    if (!isKnown(path, this.seen)) this.files.push(path);
  }

  private unlessTrouble(path: string, work: () => void): void {
    try {
      withFile(path, work);
    } catch (error) {
      if (!(error instanceof FileTrouble)) throw error;
      if (!this.troubles.some(({ file }) => file === error.file)) this.troubles.push(error);
    }
  }
}

function isKnown(path: string, known: Set<string>): boolean {
  const real = realpathSync(path);
  if (known.has(real)) return true;
  known.add(real);
  return false;
}

/** By UTF-16 units: alike on every machine. */
function byName(a: Dirent, b: Dirent): number {
  return a.name < b.name ? -1 : 1;
}
