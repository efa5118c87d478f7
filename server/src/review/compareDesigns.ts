/** All designs of two files or folders, each with its counterpart. */
import { compare } from "./compare.js";
import type { Compared, Side } from "./compared.js";
import { type DesignKeys, pairDesigns } from "./match/designs.js";
import type { Version } from "./version.js";

/** One design as it was read. */
export interface Design extends DesignKeys {
  readonly side: Side;
  readonly text: string;
  /** Worked out when it is needed: what is on one side only is not compared. */
  readonly version: () => Version;
}

/** @param single whether two files were named, which are compared whatever they are called, and even where their texts are one */
export function compareDesigns(old: readonly Design[], next: readonly Design[], single: boolean): readonly Compared[] {
  const keys = (designs: readonly Design[]) =>
    designs.map(({ path, name, index }) => ({ name, index, path: single ? "" : path }));
  return pairDesigns(keys(old), keys(next)).flatMap((pair): Compared[] => {
    const [was, is] = [old[pair.old ?? -1], next[pair.next ?? -1]];
    if (was === undefined) return is === undefined ? [] : [{ kind: "added", next: is.side }];
    if (is === undefined) return [{ kind: "removed", old: was.side }];
    if (!single && was.text === is.text) return [{ kind: "unchanged", old: was.side, next: is.side }];
    return [{ kind: "both", old: was.side, next: is.side, comparison: compare(was.version(), is.version()) }];
  });
}
