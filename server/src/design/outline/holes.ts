/** Tone holes along a tube. */
import type { DraftHole } from "../../instrument/draft/draft.js";
import { boreRadiusAt } from "./bore.js";
import type { BorePoint, HoleOutline } from "./outline.js";
import type { Sizes } from "./sizes.js";

/** Undefined while a number of the hole is missing. @param at its place in the file's unit */
export function holeOutline(
  hole: DraftHole,
  at: number | undefined,
  bore: readonly BorePoint[],
  sizes: Sizes,
): HoleOutline | undefined {
  const { label, path, diameter, length, undercut, raised, chimney, angle } = hole;
  if (at === undefined || diameter === undefined || length === undefined) return undefined;
  if (undercut === undefined || raised === undefined || chimney === undefined || angle === undefined) return undefined;
  const place = sizes.mm(at);
  return {
    name: label,
    path,
    at: place,
    angle,
    width: sizes.mm(diameter),
    length: sizes.mm(length),
    undercut: sizes.mm(undercut),
    raised: sizes.mm(raised),
    chimney: sizes.mm(chimney),
    boreRadius: boreRadiusAt(bore, place),
  };
}
