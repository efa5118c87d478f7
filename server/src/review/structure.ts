/** Things that were added, removed, renamed or moved in their list. */
import { thingInWords } from "../instrument/placeInWords.js";
import { type Correspondence, LISTS, type List } from "./match/correspondence.js";
import { isReordered } from "./match/pairs.js";
import type { Version } from "./version.js";

export interface StructureChange {
  readonly kind: "added" | "removed" | "renamed" | "reordered";
  readonly list: List;
  /** Its name in the old and in the new design, or `hole 3`; empty for a whole list. */
  readonly old: string;
  readonly next: string;
}

/** Added and removed fingerings and pipes are reported as notes. */
const TOLD = LISTS.filter((list) => list !== "fingerings" && list !== "pipes");

export function structureChanges(old: Version, next: Version, { lists }: Correspondence): readonly StructureChange[] {
  const changes = TOLD.flatMap((list) =>
    lists[list].flatMap((pair): readonly StructureChange[] => {
      const was = pair.old === undefined ? "" : (thingInWords(list, pair.old, old.data) ?? "");
      const is = pair.next === undefined ? "" : (thingInWords(list, pair.next, next.data) ?? "");
      if (pair.old === undefined) return [{ kind: "added", list, old: "", next: is }];
      if (pair.next === undefined) return [{ kind: "removed", list, old: was, next: "" }];
      // A thing without a name is counted, and its number changes with what stands before it.
      const unnamed = was === thingOf(list, pair.old) && is === thingOf(list, pair.next);
      return was === is || unnamed ? [] : [{ kind: "renamed", list, old: was, next: is }];
    }),
  );
  const reordered = LISTS.filter((list) => isReordered(lists[list])).map(
    (list) => ({ kind: "reordered", list, old: "", next: "" }) as const,
  );
  return [...changes, ...reordered];
}

function thingOf(list: string, index: number): string | undefined {
  return thingInWords(list, index, undefined);
}
