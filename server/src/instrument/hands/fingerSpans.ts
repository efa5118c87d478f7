/** How far apart the fingers lie on the finished instrument, compared with what hands reach and need: for findings, tables and the view. */

import { cavityOf } from "../draft/cavity.js";
import { bodyKindOf } from "../families/index.js";
import type { Path } from "../finding.js";
import { type MakerLimit, reachOf, spacingOf } from "../making/makerLimits.js";
import { holesAlong, type Making } from "../making/making.js";
import { type FingersApart, fingerPairs, stretchOf } from "./fingers.js";
import { vesselFingerPairs } from "./vesselFingers.js";

interface SpanEnd {
  readonly name: string;
  readonly path: Path;
  /** Its place in the file's list of holes. */
  readonly index: number;
}

export interface FingerSpan {
  readonly upper: SpanEnd;
  readonly lower: SpanEnd;
  readonly which: FingersApart;
  /** Between the centres, mm; and the part of it that takes reach. */
  readonly apart: number;
  readonly stretch: number;
  /** Undefined between the hands, and where what is stated cannot be used. */
  readonly reach: MakerLimit | undefined;
  readonly least: MakerLimit | undefined;
  readonly isFar: boolean;
  readonly isNear: boolean;
  /** What moves the holes. */
  readonly moved: "at" | "angle";
}

/** mm: nobody feels or makes less than this. Our own choice. */
const FELT = 1e-4;

const known = new WeakMap<Making, readonly FingerSpan[]>();

/** Neighbouring fingers, of one hand or of both. Several rules ask: worked out once. */
export function fingerSpans(making: Making): readonly FingerSpan[] {
  const spans = known.get(making) ?? spansOf(making);
  known.set(making, spans);
  return spans;
}

function spansOf(making: Making): readonly FingerSpan[] {
  const { draft } = making;
  const span = (found: Pick<FingerSpan, "upper" | "lower" | "which" | "apart" | "stretch" | "moved">): FingerSpan => {
    const reach = found.which === "hands" ? undefined : reachOf(draft, found.which);
    const least = spacingOf(draft, found.which);
    const isFar = reach !== undefined && found.stretch > reach.mm + FELT;
    return { ...found, reach, least, isFar, isNear: least !== undefined && found.apart < least.mm - FELT };
  };
  if (bodyKindOf(draft) === "vessel" && cavityOf(draft)?.kind !== "tube")
    return vesselFingerPairs(making).map((pair) => span({ ...pair, stretch: pair.apart }));
  const fingered = holesAlong(making).filter(({ index }) => making.isFingered(index));
  return fingerPairs(fingered).map((pair) =>
    span({
      upper: pair.upper.holes[0],
      lower: pair.lower.holes[0],
      which: pair.which,
      apart: Math.hypot(pair.along, pair.across),
      stretch: stretchOf(pair),
      moved: "at",
    }),
  );
}
