/** The designs of the workspace's folders that nobody has open: checked once for each state of their file. */
import type { CheckSettings } from "../../design/settings.js";
import type { PlacedFinding } from "../../document/designFile.js";
import { designFiles } from "./designFiles.js";
import type { Folder, Folders } from "./folders.js";

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

export class ClosedDesigns {
  private readonly known = new Map<string, ClosedDesign & { readonly state: string }>();
  private readings = 0;

  constructor(
    private readonly folders: Folders,
    private readonly check: CheckFiles,
  ) {}

  /** After it, `all` is what stands on the disk. @param tell is given each design that was checked anew */
  async look(
    settingsOf: (folder: Folder) => CheckSettings,
    tell: (design: ClosedDesign) => void,
    signal: AbortSignal,
  ): Promise<void> {
    const folders = this.folders.all;
    const files = designFiles(folders);
    for (const file of this.known.keys()) if (!files.has(file)) this.known.delete(file);
    for (const folder of folders) {
      const settings = settingsOf(folder);
      const states = new Map<string, string>();
      for (const [file, own] of files)
        if (own.folder === folder) states.set(file, `${own.state} ${JSON.stringify(settings)}`);
      const stale = [...states].filter(([file, state]) => this.known.get(file)?.state !== state).map(([file]) => file);
      if (stale.length === 0) continue;
      const done = (file: string, checked: CheckedText) => {
        const design = { file, checked, state: states.get(file) ?? "", reading: String(++this.readings) };
        this.known.set(file, design);
        tell(design);
      };
      await this.check(stale, settings, done, signal);
    }
  }

  get all(): readonly ClosedDesign[] {
    return [...this.known.values()];
  }
}
