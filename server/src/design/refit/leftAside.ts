/** Notes that cannot be reached, left aside so that they do not spoil the rest of a refit. */

import { registerSteps } from "../../acoustics/resonance.js";
import { drained } from "../../acoustics/steps.js";
import { sharedColumn } from "../../instrument/body.js";
import { ANOTHER_NOTE, centsAbove } from "../../music/cents.js";
import { t } from "../../words/translation.js";
import type { Freedom } from "../constraints/unknowns.js";
import type { Analysis } from "../predict/analysis.js";
import { nameOfFingering } from "../predict/governing.js";
import { deviationInWords } from "../wording.js";
import { largest, middleOf } from "./inTune.js";
import type { Asking, Written } from "./judgedRefit.js";
import { isNoticeablyNearer } from "./neverWorse.js";
import { refitUntilStill, type StillRefit } from "./refitUntilStill.js";
import { restOf } from "./rest.js";

/** If a larger share of the notes is far off, the whole instrument is off, not a few notes. */
const MOST_LEFT = 1 / 3;
/** How many times as far off as the median a note must be to have pulled the others with it. */
const STANDS_OUT = 3;
/** Registers looked through for one that lies near. */
const MOST_REGISTERS = 6;

export interface RefitOfTheRest {
  readonly refit: StillRefit;
  /** Indices of the fingerings left aside. */
  readonly left: readonly number[];
}

/**
 * The refit `whole`, or one without the notes that it leaves far off: first without those that lay apart before, which must bring the rest
 * into tune, then without one of the two farthest, then without all of them. Taken where the rest come noticeably nearer. @throws CannotRekey, Cancelled
 */
export function withoutTheImpossible(there: Written, asking: Asking, whole: StillRefit): RefitOfTheRest {
  const { left: impossible } = asking;
  const off = (index: number) => Math.abs(whole.after.analysis.fingerings[index]?.cents ?? 0);
  const wanted = asking.goal.targets.filter((target) => target !== undefined).length;
  const far = asking.goal.targets
    .flatMap((target, index) => (target !== undefined && off(index) > ANOTHER_NOTE ? [index] : []))
    .sort((a, b) => off(b) - off(a));
  const [farthest, next] = far;
  const none = { refit: whole, left: [...impossible] };
  if (farthest === undefined) return none;
  const stands = off(farthest) > STANDS_OUT * (middleOf(centsOf(whole.after.analysis, impossible).map(Math.abs)) ?? 0);
  // Of two notes that one fingering cannot both play, either may be the one to leave.
  const singles = [farthest, next].flatMap((index) => (index === undefined ? [] : [[index]]));
  const most = MOST_LEFT * wanted;
  const isFew = far.length <= most;
  // What lay apart already is asked first: the same refit again, from what this one draws, comes to the same notes.
  const apart = apartIn(there.analysis, impossible);
  if (isFew && restIsInTune(whole.after.analysis, [...impossible, ...far]))
    return { refit: whole, left: [...impossible, ...far] };
  for (const more of [
    ...(apart.length > 0 && apart.length <= most ? [apart] : []),
    ...(stands ? singles : []),
    ...(isFew && far.length > 1 ? [far] : []),
  ]) {
    if (asking.goal.isSpent?.()) break;
    const left = new Set([...impossible, ...more]);
    const targets = asking.goal.targets.map((target, index) => (left.has(index) ? undefined : target));
    const refit = refitUntilStill(there, { ...asking, goal: { ...asking.goal, targets }, left });
    const [was, now] = [whole, refit].map(({ after }) => centsOf(after.analysis, left));
    const enough = more === apart ? there.analysis.tolerance : ANOTHER_NOTE;
    if (was !== undefined && now !== undefined && isNoticeablyNearer(was, now) && largest(now) <= enough)
      // The obstacles are those of the refit of all notes.
      return { refit: { ...refit, obstacles: whole.obstacles }, left: [...left] };
  }
  return none;
}

/** Notes that are far off where the rest are in tune as they are. */
function apartIn(analysis: Analysis, impossible: ReadonlySet<number>): readonly number[] {
  const far = analysis.fingerings.flatMap(({ cents = 0 }, index) =>
    Math.abs(cents) > ANOTHER_NOTE && !impossible.has(index) ? [index] : [],
  );
  return restIsInTune(analysis, [...impossible, ...far]) ? far : [];
}

function centsOf(analysis: Analysis, left: ReadonlySet<number> | readonly number[]): readonly number[] {
  return restOf(analysis, left).fingerings.flatMap(({ cents }) => (cents === undefined ? [] : [cents]));
}

/** Whether leaving these notes aside was worth it. */
export function restIsInTune(after: Analysis, left: readonly number[]): boolean {
  return largest(centsOf(after, left)) <= after.tolerance;
}

/**
 * The remark on each note left aside, with the closest register of its fingering.
 * @param impossible those of them that no other dimensions would bring nearer
 */
export function leftAsideInWords(
  after: Analysis,
  left: readonly number[],
  impossible: ReadonlySet<number>,
  { freedom, isTaken }: { readonly freedom: Freedom; readonly isTaken: boolean },
): readonly string[] {
  const column = sharedColumn(after.instrument.body);
  const isWorthIt = restIsInTune(after, left);
  return left.flatMap((index) => {
    const prediction = after.fingerings[index];
    if (prediction?.targetHz === undefined) return [];
    const { targetHz, cents, fingering } = prediction;
    // By chance, where the rest are not in tune either.
    if (Math.abs(cents ?? Number.POSITIVE_INFINITY) <= after.tolerance) return [];
    const stays = cents === undefined ? t("has no resonance") : t`would stay ${deviationInWords(cents)}`;
    const said = isWorthIt
      ? t`${nameOfFingering(prediction)} cannot be reached: it ${stays}. It is left aside, and the rest are brought into tune`
      : isTaken
        ? t`${nameOfFingering(prediction)} cannot be reached: it ${stays}. It is left aside, and the rest come closer, though not into tune`
        : t`${nameOfFingering(prediction)} cannot be reached: it ${stays}. It is left aside`;
    const other =
      freedom === "all" || impossible.has(index)
        ? t("Give it another fingering, or leave it out")
        : t("Let the bore change, too, give it another fingering, or leave it out");
    const found =
      column === undefined || fingering.covers === undefined
        ? []
        : drained(registerSteps(column, after.air, fingering.covers, MOST_REGISTERS));
    const registers = found.map(({ frequency }, i) => ({ register: i + 1, off: centsAbove(frequency, targetHz) }));
    const near = registers
      .filter(({ register, off }) => register !== fingering.register && Math.abs(off) < ANOTHER_NOTE)
      .sort((a, b) => Math.abs(a.off) - Math.abs(b.off))[0];
    const advice =
      near === undefined
        ? other
        : t`Register ${near.register} of that fingering lies near it, ${deviationInWords(near.off)}: say so (register: ${near.register})`;
    return [`${said}. ${advice}.`];
  });
}
