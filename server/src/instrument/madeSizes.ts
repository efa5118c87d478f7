/** The sizes of a finished instrument that hands and printer ask of: how far fingers reach, what they close, what prints. */
import { DEFAULTS } from "./defaults.js";
import { cavityOf } from "./draftVessel.js";
import { fingerPairs } from "./fingers.js";
import { bedOf, fingertipOf, lineWidthOf, nozzleOf, reachOf } from "./makerLimits.js";
import { holesAlong, type Making, makingOf } from "./making.js";
import type { Resolution } from "./model.js";
import { vesselFingerPairs } from "./rules/vesselFingers.js";

/** Millimetres of the finished object, shrinkage and undersize reckoned with, but for the wall as the printer lays it. */
export interface MadeSizes {
  /** Farthest apart of neighbouring fingers of one hand; undefined where there are none. */
  readonly widestGap: { readonly mm: number; readonly between: readonly [string, string] } | undefined;
  /** What the design states, or what is usual. */
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
  const [widestGap] = gapsOf(making).sort((a, b) => b.mm - a.mm);
  const [widestHole] = draft.holes
    .flatMap(({ label, diameter, length }, i) =>
      diameter === undefined || !making.isFingered(i)
        ? []
        : { mm: Math.max(diameter, length ?? diameter) * making.finishedUnit - making.undersize, name: label },
    )
    .sort((a, b) => b.mm - a.mm);
  return {
    widestGap,
    reach: reachOf(draft)?.mm ?? DEFAULTS.reachMillimetres,
    widestHole,
    fingertip: fingertipOf(draft)?.mm ?? DEFAULTS.fingertipMillimetres,
    wall: wall === undefined ? undefined : { mm: wall, lines: wall / line },
    hasBed: bedOf(draft) !== undefined,
  };
}

function gapsOf(making: Making): NonNullable<MadeSizes["widestGap"]>[] {
  if (making.draft.family === "vessel" && cavityOf(making.draft)?.kind !== "tube")
    return vesselFingerPairs(making).map(({ upper, lower, apart }) => ({
      mm: apart,
      between: [upper.name, lower.name],
    }));
  return fingerPairs(holesAlong(making).filter(({ index }) => making.isFingered(index))).map(([upper, lower]) => ({
    mm: lower.at - upper.at,
    between: [upper.name, lower.name],
  }));
}
