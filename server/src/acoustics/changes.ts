/** Which of a frequency's numbers a small difference between two columns touches, so that only those are worked out again. */

import type { NetworkGeometry, Piece } from "./networkGeometry.js";
import { sameValue } from "./sameValue.js";

/** Indices into the geometry's own lists. */
export interface Changes {
  readonly sections: readonly number[];
  readonly cavity: boolean;
  readonly ports: readonly number[];
  readonly outside: readonly number[];
  /** Loss radii that the changed sections and ports need. */
  readonly waves: readonly number[];
}

/** How `after` differs from `before`; undefined where the two share nothing that could be carried over. */
export function changesBetween(before: NetworkGeometry, after: NetworkGeometry): Changes | undefined {
  const alike =
    sameValue(before.air, after.air) &&
    before.area === after.area &&
    before.ports.length === after.ports.length &&
    before.outside.length === after.outside.length &&
    before.outside.every(({ i, j }, n) => i === after.outside[n]?.i && j === after.outside[n]?.j);
  if (!alike) return undefined;
  const sections = unlike(before.sections, after.sections, samePieces);
  // An opening's own numbers do not depend on its position; the distances to its neighbours do.
  const ports = unlike(before.ports, after.ports, (p, q) => sameValue(p, q, PLACE));
  // The same openings: only the distance between two may differ.
  const outside = unlike(before.outside, after.outside, (p, q) => p.distance === q.distance);
  const cavity = !samePieces(before.cavity, after.cavity);
  const pieces = [...sections.flatMap((i) => after.sections[i] ?? []), ...(cavity ? after.cavity : [])];
  const chimneys = ports.flatMap((i) => after.chimneyWave[i] ?? []).filter((wave) => wave >= 0);
  const waves = [...new Set([...pieces.map(({ wave }) => wave), ...chimneys])];
  return { sections, cavity, ports, outside, waves };
}

function unlike<T>(before: readonly T[], after: readonly T[], same: (p: T, q: T) => boolean): number[] {
  return after.flatMap((each, i) => (same(before[i] as T, each) ? [] : [i]));
}

function samePieces(before: readonly Piece[], after: readonly Piece[]): boolean {
  // The same losses may bear another number in the other column.
  return (
    before === after ||
    (before.length === after.length && before.every((piece, i) => sameValue(piece, after[i], NUMBERING)))
  );
}

const NUMBERING: ReadonlySet<string> = new Set(["wave"]);
const PLACE: ReadonlySet<string> = new Set(["x", "angle"]);
