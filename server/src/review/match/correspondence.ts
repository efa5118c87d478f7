/** Which places of the old design are which of the new one. */
import type { Path } from "../../instrument/finding.js";
import { pathKey, valueAt } from "../../instrument/path.js";
import type { Version } from "../version.js";
import { pairFingerings } from "./fingerings.js";
import { pairHoles, pairStations } from "./holes.js";
import { completed, inBoth, type Keys, type Pair, pairByKeys } from "./pairs.js";

/** The lists of a design whose things have an identity of their own. */
export const LISTS = ["holes", "bore", "pipes", "fingerings", "measured"] as const;
export type List = (typeof LISTS)[number];

export interface Correspondence {
  readonly lists: Readonly<Record<List, readonly Pair[]>>;
  /** Of the instrument's fingerings, which for a pan pipe are its pipes. */
  readonly notes: readonly Pair[];
  /** One text for a place of either design, alike where the place is the same. */
  readonly identity: (path: Path, side: "old" | "next") => string;
}

export function correspondence(old: Version, next: Version): Correspondence {
  const holes = pairHoles(old, next);
  const notes = pairFingerings(old, next, holes);
  const lists = {
    holes,
    bore: pairStations(old, next),
    pipes: pairListed("pipes", old, next, notes),
    fingerings: pairListed("fingerings", old, next, notes),
    measured: pairMeasured(old, next),
  };
  const numbered = new Map<string, string>();
  for (const list of LISTS)
    lists[list].forEach((pair, number) => {
      if (pair.old !== undefined) numbered.set(pathKey(["old", list, pair.old]), `#${number}`);
      if (pair.next !== undefined) numbered.set(pathKey(["next", list, pair.next]), `#${number}`);
    });
  return {
    lists,
    notes,
    identity: (path, side) => {
      const [list = "", index, ...rest] = path;
      const number = numbered.get(pathKey([side, list, index ?? ""]));
      return pathKey(number === undefined ? path : [list, number, ...rest]);
    },
  };
}

function lengthOf(data: unknown, list: string): number {
  const items = valueAt(data, [list]);
  return Array.isArray(items) ? items.length : 0;
}

/** A list whose things are the instrument's fingerings, by the fingerings' own pairs. What could not be read belongs to none. */
function pairListed(
  list: "pipes" | "fingerings",
  old: Version,
  next: Version,
  notes: readonly Pair[],
): readonly Pair[] {
  const place = ({ analysis }: Version, fingering: number) => {
    const [own, index] = analysis.instrument.fingerings[fingering]?.path ?? [];
    return own === list && typeof index === "number" ? index : undefined;
  };
  const both = inBoth(notes).flatMap((pair) => {
    const [from, to] = [place(old, pair.old), place(next, pair.next)];
    return from === undefined || to === undefined ? [] : [{ old: from, next: to }];
  });
  return completed(both, lengthOf(old.data, list), lengthOf(next.data, list));
}

/** By the note and the fingering it was played with; several of one note in their order. */
function pairMeasured(old: Version, next: Version): readonly Pair[] {
  const keys = ({ data }: Version): readonly Keys[] =>
    Array.from({ length: lengthOf(data, "measured") }, (_, i) => [
      `${valueAt(data, ["measured", i, "note"])} ${valueAt(data, ["measured", i, "holes"])}`,
    ]);
  const [oldKeys, nextKeys] = [keys(old), keys(next)];
  return completed(pairByKeys(oldKeys, nextKeys), oldKeys.length, nextKeys.length);
}
