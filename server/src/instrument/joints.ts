/** Where a tube is parted for printing, and the parts that makes. */
import { type Draft, type DraftMouth, mouthHalfLength } from "./draft.js";
import type { Path } from "./finding.js";
import { own, valueAt } from "./path.js";

export interface Joint {
  /** In the file's units. */
  readonly at: number;
  readonly path: Path;
}

/** Stations marked as a joint between the tube's ends; a joint at an end parts nothing. */
export function jointsOf({ data, bore }: Draft): readonly Joint[] {
  const [first, last] = [bore?.[0]?.at, bore?.at(-1)?.at];
  return (bore ?? []).flatMap(({ at, path }) => {
    const inside = at !== undefined && first !== undefined && last !== undefined && at > first && at < last;
    return inside && own(valueAt(data, path), "joint") === true ? [{ at, path }] : [];
  });
}

export interface TubePart {
  readonly from: number;
  readonly to: number;
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
  const ends = [...jointsOf(draft).filter(({ at }) => at > start), { at: last.at, path: last.path }];
  return ends.flatMap(({ at: to, path }, i): TubePart[] => {
    const from = ends[i - 1]?.at ?? start;
    const diameters = bore.flatMap(({ at, diameter }) =>
      at !== undefined && diameter !== undefined && at >= from && at <= to ? [diameter] : [],
    );
    const widest = diameters.length === 0 ? undefined : Math.max(...diameters);
    return widest === undefined || to <= from ? [] : [{ from, to, width: widest + 2 * wall, path }];
  });
}

/** How far the tube goes on above the mouth: windway and slow air chamber of a duct, over its plug; the stopper of a transverse flute. */
function headEnd({ mouth, numbers }: Draft): number {
  const stopper = mouth?.kind === "embouchure" ? mouth.stopper : 0;
  const above = mouth?.kind === "window" ? Math.max(channelLength(numbers), mouth.stopper) : 0;
  return -Math.max(stopper, mouthHalf(mouth) + above);
}

/** What lies above a window beside the tube, in the file's units: windway and slow air chamber. */
export function channelLength(numbers: Draft["numbers"]): number {
  return (numbers.at(["mouth", "windway", "length"]) ?? 0) + (numbers.at(["mouth", "chamber", "length"]) ?? 0);
}

function mouthHalf(mouth: DraftMouth | undefined): number {
  return mouth?.kind === "window" || mouth?.kind === "embouchure" ? mouthHalfLength(mouth) : 0;
}
