/** The designs of the workspace's folders that nobody has open: found on the disk, and checked once for each state of their file. */
import { statSync } from "node:fs";
import { join } from "node:path";
import type { CheckSettings } from "../../design/settings.js";
import type { PlacedFinding } from "../../document/designFile.js";
import { findFiles } from "../../files/findFiles.js";
import { ignoredBy } from "../../files/ignoreFile.js";

export interface CheckedText {
  readonly text: string;
  readonly findings: readonly PlacedFinding[];
  /** Of ours. */
  readonly fault?: unknown;
}

/** Checks files beside everything else, and tells each as it is done; resolves when all are, or soon after the signal. */
export type CheckFiles = (
  files: readonly string[],
  settings: CheckSettings,
  onDone: (file: string, checked: CheckedText) => void,
  signal: AbortSignal,
) => Promise<unknown>;

export interface ClosedDesign {
  readonly file: string;
  /** Another one for each reading. */
  readonly reading: string;
  readonly checked: CheckedText;
}

const DESIGN_NAME = /\.bore\.(ya?ml|json)$/i;
/** A folder with more is no workshop's: the rest is left to `borewright check`. */
const MOST_FILES = 5000;

export class ClosedDesigns {
  private readonly known = new Map<string, ClosedDesign & { readonly state: string }>();
  private readings = 0;
  private generation = 0;

  constructor(
    private readonly roots: readonly string[],
    private readonly check: CheckFiles,
  ) {}

  /** After it, `all` is what stands on the disk. @param tell is given each design that was checked anew */
  async look(settings: CheckSettings, tell: (design: ClosedDesign) => void, signal: AbortSignal): Promise<void> {
    const files = this.files();
    for (const file of this.known.keys()) if (!files.has(file)) this.known.delete(file);
    const stale = [...files].filter(([file, state]) => this.known.get(file)?.state !== state).map(([file]) => file);
    if (stale.length === 0) return;
    const { generation } = this;
    const done = (file: string, checked: CheckedText) => {
      if (this.generation !== generation) return; // forgotten meanwhile
      const design = { file, checked, state: files.get(file) ?? "", reading: String(++this.readings) };
      this.known.set(file, design);
      tell(design);
    };
    await this.check(stale, settings, done, signal);
  }

  get all(): readonly ClosedDesign[] {
    return [...this.known.values()];
  }

  /** Every one is to be checked anew: the settings are others. */
  forget(): void {
    this.generation++;
    this.known.clear();
  }

  /** With the state of each, another one after every write. A folder that cannot be looked into has none. */
  private files(): ReadonlyMap<string, string> {
    const found = this.roots.flatMap((root) => {
      try {
        return findFiles([root], DESIGN_NAME, ignoredBy(join(root, ".borewrightignore"))).files;
      } catch {
        return [];
      }
    });
    return new Map(found.slice(0, MOST_FILES).map((file) => [file, stateOf(file)]));
  }
}

function stateOf(file: string): string {
  const stats = statSync(file, { throwIfNoEntry: false });
  return stats === undefined ? "" : `${stats.mtimeMs} ${stats.size} ${stats.ino}`;
}
