/** `borewright compare OLD NEW`: what changed between two versions of a design, or of all designs of a folder. */
import type { CheckSettings } from "../../design/settings.js";
import { FileTrouble } from "../../files/fileTrouble.js";
import { compareDesigns, type Design } from "../../review/compareDesigns.js";
import type { Compared } from "../../review/compared.js";
import { versionOf } from "../../review/version.js";
import { tellFault } from "../failure.js";
import { type Source, sourcesOf } from "./sources.js";

export interface ComparedSources {
  readonly compared: readonly Compared[];
  /** Whether both OLD and NEW are single files. */
  readonly single: boolean;
  /** What could not be read; the rest is still compared. */
  readonly troubles: readonly FileTrouble[];
}

/** @throws FileTrouble where one of them names nothing, or a single file cannot be read */
export function compareSources(old: string, next: string, settings: CheckSettings): ComparedSources {
  const sources = sourcesOf(old, next);
  const single = !sources.some(({ isFolder }) => isFolder);
  const [before, after] = sources.map((source) => designsOf(source, settings)) as [Designs, Designs];
  const troubles = [...before.troubles, ...after.troubles];
  if (single && troubles[0] !== undefined) throw troubles[0];
  return { compared: compareDesigns(before.designs, after.designs, single), single, troubles };
}

interface Designs {
  readonly designs: readonly Design[];
  readonly troubles: readonly FileTrouble[];
}

function designsOf({ files, troubles }: Source, settings: CheckSettings): Designs {
  const unread = [...troubles];
  const designs = files.flatMap(({ path, read }): Design[] => {
    try {
      const { file, design, lines } = read();
      return design.documents.map((document, index) => {
        const { name } = document.resolution.instrument;
        const text = design.text.slice(document.span.start, document.span.end);
        return { path, index, name, text, side: { file, lines, name }, version: () => versionOf(document, settings) };
      });
    } catch (error) {
      if (error instanceof FileTrouble) unread.push(error);
      else tellFault(error, path);
      return [];
    }
  });
  return { designs, troubles: unread };
}
