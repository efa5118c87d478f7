/** The sizes of a finished instrument that matter to hands and printer: how far fingers reach, what they close, what prints. */
import { DEFAULTS, HANDS } from "../defaults.js";
import { fingerSpans } from "../hands/fingerSpans.js";
import type { Resolution } from "../model.js";
import { bedOf, fingertipOf, lineWidthOf, nozzleOf, reachOf } from "./makerLimits.js";
import { makingOf } from "./making.js";

/** Millimetres of the finished object, with shrinkage and undersize, except for the wall, which is as the printer lays it. */
export interface MadeSizes {
  /** The neighbouring fingers of one hand that are nearest to what they reach, or farthest beyond; undefined where there are none. */
  readonly widestGap: { readonly mm: number; readonly between: readonly [string, string] } | undefined;
  /** What these fingers reach: stated, or usual. */
  readonly reach: number;
  /** The widest hole that a finger closes, by its longer side. */
  readonly widestHole: { readonly mm: number; readonly name: string } | undefined;
  readonly fingertip: number;
  readonly wall: { readonly mm: number; readonly lines: number } | undefined;
  /** Whether the design states a bed. What does not fit it has a finding, `print/longer-than-bed`. */
  readonly hasBed: boolean;
}

/** Undefined while a number of `print` is wrong, and the size of the printed object is not known. */
export function madeSizesOf({ draft, instrument }: Resolution): MadeSizes | undefined {
  const making = makingOf(draft, instrument.fingerings);
  if (making === undefined) return undefined;
  const line = lineWidthOf(draft) ?? nozzleOf(draft)?.mm ?? DEFAULTS.nozzleMillimetres;
  const wall = draft.wall === undefined ? undefined : draft.wall * making.laidUnit;
  const [widest] = fingerSpans(making)
    .flatMap(({ upper, lower, stretch, reach }) =>
      reach === undefined ? [] : [{ between: [upper.name, lower.name] as const, stretch, reach: reach.mm }],
    )
    .sort((a, b) => b.stretch - b.reach - (a.stretch - a.reach));
  const [widestHole] = draft.holes
    .flatMap(({ label, diameter, length }, i) =>
      diameter === undefined || !making.isFingered(i)
        ? []
        : { mm: Math.max(diameter, length ?? diameter) * making.finishedUnit - making.undersize, name: label },
    )
    .sort((a, b) => b.mm - a.mm);
  return {
    widestGap: widest && { mm: widest.stretch, between: widest.between },
    reach: widest?.reach ?? reachOf(draft, "indexMiddle")?.mm ?? HANDS.adult.reach.indexMiddle,
    widestHole,
    fingertip: fingertipOf(draft)?.mm ?? HANDS.adult.fingertip,
    wall: wall === undefined ? undefined : { mm: wall, lines: wall / line },
    hasBed: bedOf(draft) !== undefined,
  };
}
