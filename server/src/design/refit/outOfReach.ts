/** A key that a refit does not reach: nobody would make what was found, so it is refused, with why and with what would serve. */

import type { Resolution } from "../../instrument/model.js";
import { ANOTHER_NOTE } from "../../music/cents.js";
import type { Note } from "../../music/note.js";
import { t } from "../../words/translation.js";
import type { AnalyseOptions } from "../predict/analyse.js";
import type { Analysis } from "../predict/analysis.js";
import { nameOfFingering } from "../predict/governing.js";
import { CannotRekey, type RekeyResult } from "../rekey/rekeyResult.js";
import { sizesOf } from "../scale/atSize.js";
import { percentText } from "../scale/inWords.js";
import { deviationInWords, firstSentence } from "../wording.js";
import { restIsInTune } from "./leftAside.js";
import { restOf } from "./rest.js";

/** Pipes are cut each for itself: a row is worth having unless more than this share of it, or its lowest note, is far off. */
const MOST_PIPES = 1 / 3;

/** Of a row of pipes each has its own obstacle; two say why. */
const MOST_TOLD = 2;

/** Thrown in place of a result that nobody would carry out. */
export class OutOfReach extends CannotRekey {
  /** @param found the best that was found, for reports */
  constructor(
    message: string,
    readonly found: RekeyResult,
  ) {
    super(message);
  }
}

/**
 * Whether a refit to another key leaves what is no instrument of that key, and none of its own either.
 * @param left fingerings left aside, which are told one by one where the rest are in tune: but without its lowest note nothing is in a key,
 * and a note that it had in its own key is lost to hands or printer
 * @param impossible those of them that cannot be had in any key, the design's own included
 */
export function isOutOfReach(
  before: Analysis,
  after: Analysis,
  left: readonly number[],
  impossible: ReadonlySet<number> = new Set(),
): boolean {
  const lowest = Math.min(...after.fingerings.map(({ targetHz = Number.POSITIVE_INFINITY }) => targetHz));
  const wasFarOff = (index: number) => !(Math.abs(before.fingerings[index]?.cents ?? Number.NaN) <= ANOTHER_NOTE);
  const isAside = (index: number) => left.includes(index) && wasFarOff(index) && restIsInTune(after, left);
  const counted = after.fingerings.flatMap(({ cents, targetHz }, i) => {
    const isLowest = targetHz === lowest;
    return cents === undefined || impossible.has(i) || (isAside(i) && !isLowest)
      ? []
      : [{ off: Math.abs(cents), isLowest }];
  });
  const far = counted.filter(({ off }) => off > ANOTHER_NOTE);
  if (far.length === 0) return false;
  if (after.instrument.body.kind === "pipes")
    return far.some(({ isLowest }) => isLowest) || far.length > MOST_PIPES * counted.length;
  // A design that was as far off in its own key has come nearer.
  return Math.max(...far.map(({ off }) => off)) > Math.abs(restOf(before, impossible).summary?.worstCents ?? 0);
}

/** Sentences without the last one's period. @throws Cancelled */
export function outOfReach(
  { from, to, before, after, obstacles, nearestKey }: RekeyResult,
  resolution: Resolution,
  remarks: readonly string[],
  { shouldStop }: AnalyseOptions,
): string {
  const worst = after.fingerings.reduce((far, each) =>
    Math.abs(each.cents ?? 0) > Math.abs(far.cents ?? 0) ? each : far,
  );
  const stays = `${nameOfFingering(worst)} ${deviationInWords(worst.cents ?? 0)}`;
  const sentences = [
    t`A refit of this instrument cannot reach ${to.name}, and nothing is changed: the best that was found leaves ${stays}`,
    ...obstacles
      .slice(0, MOST_TOLD)
      .map(({ message, advice }) => t`Held back by: ${message}. To come closer, ${advice}`),
    ...remarks,
    byPrintScale(to, before, resolution, shouldStop),
    ...nearestInWords(from, nearestKey),
  ];
  return sentences.map((sentence) => sentence.replace(/\.$/, "")).join(". ");
}

function nearestInWords(from: Note, nearest: Note | undefined): readonly string[] {
  if (nearest === undefined) return [];
  return nearest.midi === from.midi
    ? [t`No refit reaches a key closer than its own, ${nearest.name}`]
    : [t`The nearest possible key by refit is ${nearest.name}`];
}

/** What everything grown alike would be, with the first thing that hands or printer then say. */
function byPrintScale(to: Note, before: Analysis, resolution: Resolution, shouldStop?: () => boolean): string {
  const sizes = sizesOf(resolution, before, shouldStop);
  const percent = sizes.percentFor(to);
  const trouble = sizes.at(percent).findings.find(({ severity }) => severity !== "information");
  const said = percentText(percent);
  return trouble === undefined
    ? t`Printed at ${said} it plays in ${to.name}`
    : t`Printed at ${said} it plays in ${to.name}, but then: ${firstSentence(trouble.message)}`;
}
