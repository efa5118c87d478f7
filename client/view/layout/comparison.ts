/** The effect of a proposed change: the worst note before and after, and what moves under the fingers. */
import type { BoreViewData, FingerSpan, Row } from "../../../server/src/protocol/boreView.js";
import { t } from "../../../server/src/words/translation.js";
import { number, signed } from "../words.js";

/** mm: a smaller change is the same stretch of the hand. */
const SAME = 0.05;

/** `worst: 25.3 cents flat (G#5) → 1.2 cents sharp (A4)`. */
export function worstInWords(before: readonly Row[], after: readonly Row[]): string {
  return t`Worst note: ${worst(before)} → ${worst(after)}`;
}

function worst(rows: readonly Row[]): string {
  const known = rows.flatMap(({ cents, note }) => (cents === undefined ? [] : [{ cents, note }]));
  const [first] = [...known].sort((a, b) => Math.abs(b.cents) - Math.abs(a.cents));
  return first === undefined ? t("none predicted") : `${signed(first.cents)} (${first.note})`;
}

/** How many rows are out of tune, in words. */
export function countInWords(before: readonly Row[], after: readonly Row[]): string {
  const known = (rows: readonly Row[]) => rows.filter(({ cents }) => cents !== undefined);
  const count = (rows: readonly Row[]) =>
    t`${known(rows).filter(({ inTune }) => !inTune).length} of ${known(rows).length}`;
  return t`Out of tune: ${count(before)} → ${count(after)}`;
}

/** Distances of neighbouring fingers that change: `L1 to L2 32.0 → 33.1 mm`, and beyond which reach they are. */
export function fingersInWords(before: BoreViewData, after: BoreViewData): readonly string[] {
  const name = (hole: number) =>
    after.outline.body.kind === "tube" ? (after.outline.body.holes[hole]?.name ?? t`hole ${hole + 1}`) : "";
  return after.fingers.flatMap((span) => {
    const old = before.fingers.find(({ from, to }) => from === span.from && to === span.to);
    if (old === undefined || Math.abs(old.apart - span.apart) < SAME) return [];
    const mm = ({ apart }: FingerSpan) => number(apart, before.unit);
    const far = span.far ? t`, beyond the reach of ${number(span.most, before.unit)}` : "";
    const near = span.near ? t`, nearer than ${number(span.least, before.unit)}` : "";
    return [t`${name(span.from)} to ${name(span.to)} ${mm(old)} → ${mm(span)} ${before.unit.name}${far}${near}`];
  });
}
