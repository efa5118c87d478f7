/** Whether a refit is worth having: never worse than what was given, and where it is not in tune either, noticeably closer. */

import { ANOTHER_NOTE } from "../../music/cents.js";
import { t } from "../../words/translation.js";
import type { Analysis } from "../predict/analysis.js";
import { deviationInWords } from "../wording.js";

/** Nobody hears a smaller difference, and messages show none. Cents. */
const SAME = 0.05;
/** A design that is out of tune before and after is redrawn only for a gain that can be heard: cents, or a share of the deviation. */
const LEAST_GAIN = 0.5;
const LEAST_SHARE = 0.05;
/** Share by which a note that far off must come closer: a little closer does not make it the right one. */
const LEAST_SHARE_FAR_OFF = 1 / 3;

/** What a refit reports about itself, as `Refit`. */
interface Judged {
  readonly isInTune: boolean;
  readonly keptLimits: boolean;
  readonly discomfort?: number;
}

interface Deviation {
  readonly worst: number;
  readonly rms: number;
}

/** Over the fingerings that sound in both; the worst and the root mean square, cents. */
function deviations(before: Analysis, after: Analysis): readonly [Deviation, Deviation] {
  const both = before.fingerings.flatMap(({ cents }, i) => {
    const now = after.fingerings[i]?.cents;
    return cents === undefined || now === undefined ? [] : [[cents, now] as const];
  });
  return [deviation(both.map(([was]) => was)), deviation(both.map(([, now]) => now))];
}

function deviation(cents: readonly number[]): Deviation {
  const square = cents.reduce((sum, value) => sum + value * value, 0) / Math.max(1, cents.length);
  return { worst: Math.max(0, ...cents.map(Math.abs)), rms: Math.sqrt(square) };
}

/**
 * Whether `after` is to be taken in place of `before`, the design as it was given with the targets of the same key.
 * @param keepsNotes whether a note that is lost counts as worse
 */
export function isWorthHaving(
  before: Analysis,
  after: Analysis,
  { isInTune, keptLimits, discomfort = 0 }: Judged,
  keepsNotes: boolean,
): boolean {
  if (isWorse(before, after)) return false;
  const [was, now] = deviations(before, after);
  const lost = after.fingerings.some(
    ({ cents }, i) => cents === undefined && before.fingerings[i]?.cents !== undefined,
  );
  if (lost && keepsNotes) return false;
  // A broken limit is mended at any price except losing the notes.
  if (!keptLimits) return now.worst <= ANOTHER_NOTE || isNoticeable(was, now);
  // Notes within the tolerance anyway are not improved by holes that are worse to make and to hold.
  const gained = (before.summary?.count ?? 0) * (was.rms ** 2 - now.rms ** 2);
  if (was.worst <= before.tolerance && discomfort > gained) return false;
  return isInTune || isNoticeable(was, now);
}

/** Whether the worst note, or the notes on the whole, are farther off. */
export function isWorse(before: Analysis, after: Analysis): boolean {
  const [was, now] = deviations(before, after);
  return now.worst > was.worst + SAME || now.rms > was.rms + SAME;
}

/** Whether out-of-tune deviations improve by enough to redraw. Cents. */
export function isNoticeablyNearer(before: readonly number[], after: readonly number[]): boolean {
  return isNoticeable(deviation(before), deviation(after));
}

function isNoticeable(was: Deviation, now: Deviation): boolean {
  const share = now.worst > ANOTHER_NOTE ? LEAST_SHARE_FAR_OFF : LEAST_SHARE;
  const gain = (from: number, to: number) => from - to > Math.max(LEAST_GAIN, share * from);
  return gain(was.worst, now.worst) || gain(was.rms, now.rms);
}

/** `Nothing is changed: …`, for a refit that is not. */
export function leftAsItWas({ summary }: Analysis): string {
  const worst = summary === undefined ? "" : t` (worst ${deviationInWords(summary.worstCents)})`;
  return t`Nothing is changed: what can be reached within the limits is no closer than what is drawn${worst}.`;
}
