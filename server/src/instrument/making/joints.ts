/** Where a tube is split for printing, and its parts. */
import type { Draft, DraftMouth } from "../draft/draft.js";
import { mouthHalfLength } from "../draft/mouth.js";
import type { Path } from "../finding.js";
import { own, valueAt } from "../path.js";
import { headBeyond, tenonLength } from "./solidLengths.js";

export interface Joint {
  /** In the file's units. */
  readonly at: number;
  readonly path: Path;
}

/** Stations marked as a joint between the tube's ends; a joint at an end splits nothing. */
export function jointsOf({ data, bore }: Draft): readonly Joint[] {
  const [first, last] = [bore?.[0]?.at, bore?.at(-1)?.at];
  return (bore ?? []).flatMap(({ at, path }) => {
    const inside = at !== undefined && first !== undefined && last !== undefined && at > first && at < last;
    return inside && own(valueAt(data, path), "joint") === true ? [{ at, path }] : [];
  });
}

export interface TubePart {
  /** Where it begins, its tenon included. */
  readonly from: number;
  readonly to: number;
  /** Of its tenon; 0 where it begins at the mouth. */
  readonly tenon: number;
  /** Widest outer diameter. */
  readonly width: number;
  /** What ends it: a joint's station, or the last one. */
  readonly path: Path;
}

/** The whole tube or its parts between joints, in the file's units; none while a number is missing. */
export function partsOf(draft: Draft): readonly TubePart[] {
  const { bore, wall } = draft;
  const [first, last] = [bore?.[0], bore?.at(-1)];
  if (bore === undefined || wall === undefined || first?.at === undefined || last?.at === undefined) return [];
  const start = Math.min(first.at, headEnd(draft));
  const foot = last.at + (draft.foot === "stopped" ? wall : 0);
  const ends = [...jointsOf(draft), { at: foot, path: last.path }];
  return ends.flatMap(({ at: to, path }, i): TubePart[] => {
    const joint = ends[i - 1]?.at;
    const from = joint ?? start;
    const diameters = bore.flatMap(({ at, diameter }) =>
      at !== undefined && diameter !== undefined && at >= from && at <= to ? [diameter] : [],
    );
    const widest = diameters.length === 0 ? undefined : Math.max(...diameters);
    if (widest === undefined || to <= from) return [];
    const tenon = joint === undefined ? 0 : tenonLength(draft, joint);
    return [{ from: from - tenon, to, width: widest + 2 * wall, path, tenon }];
  });
}

/** Where the tube ends above the mouth. */
function headEnd(draft: Draft): number {
  const { mouth } = draft;
  const face = mouth?.kind === "embouchure" ? mouth.stopper : mouthHalf(mouth);
  return -(face + headBeyond(draft));
}

function mouthHalf(mouth: DraftMouth | undefined): number {
  return mouth?.kind === "window" || mouth?.kind === "embouchure" ? mouthHalfLength(mouth) : 0;
}
