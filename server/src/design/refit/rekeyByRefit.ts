/** Another key with walls, hands and print as they are: the holes and the bore's length solved anew. */

import { spentAfter } from "../../acoustics/work.js";
import { TextChanges } from "../../document/changes.js";
import type { DesignDocument, DesignFile } from "../../document/designFile.js";
import { readDesign } from "../../document/read.js";
import type { TextEdit } from "../../document/textEdit.js";
import { isDescribed, sharedColumn } from "../../instrument/body.js";
import { ANOTHER_NOTE } from "../../music/cents.js";
import type { Note } from "../../music/note.js";
import { t } from "../../words/translation.js";
import { constraintsOf } from "../constraints/constraints.js";
import type { Freedom } from "../constraints/unknowns.js";
import { makingFindings } from "../making/findings.js";
import { type AnalyseOptions, analyse } from "../predict/analyse.js";
import type { Analysis } from "../predict/analysis.js";
import { longestOf } from "../predict/body.js";
import { nameOfFingering } from "../predict/governing.js";
import { changesBetween } from "../rekey/changes.js";
import { nearestKey, type Prospect } from "../rekey/nearestKey.js";
import { reanalyse, targetRatio } from "../rekey/newTargets.js";
import { offered } from "../rekey/offered.js";
import { printScalePercent } from "../rekey/printScale.js";
import { CannotRekey, type RekeyResult } from "../rekey/rekeyResult.js";
import { boreRemarks, setAsideRemarks, shapeRemarks } from "../rekey/remarks.js";
import { type AnalysisSettings, DEFAULT_SETTINGS } from "../settings.js";
import { centsInWords } from "../wording.js";
import { REFITS } from "./byBody.js";
import { closedOctaves } from "./closedOctaves.js";
import { grownDrawing } from "./grownDrawing.js";
import { growthOf } from "./growthOf.js";
import { impossibleTogether } from "./impossibleTogether.js";
import { LITTLE_OUT, NEAR } from "./inTune.js";
import { movedJoints } from "./jointsMoved.js";
import { type Written, written } from "./judgedRefit.js";
import { leftAsideInWords, withoutTheImpossible } from "./leftAside.js";
import type { Move } from "./move.js";
import { leftAsItWas } from "./neverWorse.js";
import type { Obstacle } from "./obstacle.js";
import { isOutOfReach, OutOfReach, outOfReach } from "./outOfReach.js";
import type { RefitTargets } from "./refit.js";
import { movesTogether, refitUntilStill } from "./refitUntilStill.js";
import { restOf } from "./rest.js";
import { settingAside } from "./setAside.js";
import { undercutWherePaying, withoutStraight } from "./undercutWherePaying.js";
import { weakened } from "./weakened.js";

export interface RefitRequest {
  readonly file: DesignFile;
  readonly document: DesignDocument;
  readonly from: Note;
  readonly to: Note;
  readonly before: Analysis;
  /** Edits of key and notes for a key. */
  readonly renamingTo: (key: Note) => readonly TextEdit[];
  /** `holes` keeps the bore as it is. Default: all. */
  readonly freedom?: Freedom;
  /** Power of the length's growth by which bore and mouth grow (0 … 1); default: what the design says, else 0. */
  readonly growth?: number | undefined;
  readonly settings: AnalysisSettings;
  readonly options: AnalyseOptions;
}

/**
 * The work that a refit's fits, and the search for the nearest key, may take before what is found is taken; microseconds (`acoustics/work.ts`). An
 * instrument of eight holes takes a tenth.
 */
const REFIT_WORK = 900_000;
const KEY_SEARCH_WORK = 4_000_000;

/** @throws CannotRekey, OutOfReach where nobody would carry out what was found; Cancelled */
export function rekeyByRefit({
  file,
  document,
  from,
  to,
  before,
  renamingTo,
  freedom = "all",
  growth = growthOf(document),
  settings,
  options,
}: RefitRequest): RekeyResult {
  const isSpent = spentAfter(REFIT_WORK);
  const asked = (key: Note): Asked => {
    const changes = new TextChanges(file.text);
    changes.make(renamingTo(key));
    const renamed = written({ text: changes.text, syntax: file.syntax }, document.index, settings, options);
    const factor = targetRatio(before, renamed.analysis);
    const left = new Set(impossibleTogether(renamed.analysis));
    const targets = renamed.analysis.fingerings.map(({ targetHz }, index) => (left.has(index) ? undefined : targetHz));
    const isGrown = growth > 0 && key.midi !== from.midi;
    const goal = { targets, factor, freedom, isSpent, ...(isGrown ? { stretch: factor } : {}) };
    if (!isGrown) return { there: renamed, goal: asDrawn(goal, renamed), left, changes, moves: [] };
    const grown = grownDrawing(renamed.file, renamed.document, factor, growth, options.shouldStop);
    changes.make(grown.edits);
    const there = written({ text: changes.text, syntax: file.syntax }, document.index, settings, options);
    return { there, goal: asDrawn(goal, there), left, changes, moves: grown.moves };
  };
  const { there, goal, left: impossible, changes: grownChanges, moves: grown } = asked(to);
  const sameKey = from.midi === to.midi;
  let isKeySearchSpent = () => false;
  const another = (like?: Analysis) => {
    // What takes this long for one key takes far too long for many.
    if (sameKey) return undefined;
    isKeySearchSpent = isSpent() ? () => true : spentAfter(KEY_SEARCH_WORK);
    if (isKeySearchSpent()) return undefined;
    return nearestKey(from, to, (key) => prospectOf(() => asked(key), isKeySearchSpent, options, like));
  };
  const asking = { goal, left: impossible, keepsNotes: sameKey, settings, options };
  const { refit: refitted, left } = offering(
    () => another(),
    () =>
      undercutWherePaying(there, asking, (design, asked) =>
        withoutTheImpossible(design, asked, refitUntilStill(design, asked)),
      ),
  );
  const { isTaken } = refitted;
  // A bore that has grown beyond holes that cannot follow is not worth making: everything stays except the key.
  const isOutIn = (after: Analysis) => staysOut(restOf(before, impossible), restOf(after, impossible));
  const isGivenUp = !isTaken && grown.length > 0 && isOutIn(refitted.after.analysis);
  const changes = isGivenUp ? new TextChanges(file.text) : grownChanges;
  const moves = isGivenUp ? [] : movesTogether(grown, refitted.moves);
  changes.make(isGivenUp ? renamingTo(to) : refitted.edits);
  if (moves.length > 0) {
    const drawn = readDesign(changes.text, file.syntax).documents[document.index];
    if (drawn !== undefined) changes.make([...settingAside(drawn), ...withoutStraight(document, drawn)]);
  }
  const { edits, text } = offered(file, document.index, changes.edits);
  // A value written out to stay as it was does not sound as it did while it followed.
  const after =
    text === refitted.after.file.text
      ? refitted.after.analysis
      : reanalyse(file, text, document.index, settings, options);
  // Obstacles are searched for and named where a note stays out of tolerance: another key for two cents more helps nobody.
  const rest = restOf(after, impossible);
  const isOut = isOutIn(after);
  const isRefitCut = isSpent();
  const obstacles = isOut ? refitted.obstacles() : [];
  const isCut = isRefitCut || (isSpent() && REFITS[after.instrument.body.kind].obstaclesAreCut);
  const isWorthAnotherKey = !sameKey && isFarOut(rest) && !obstacles.every(({ ofDrawing }) => ofDrawing);
  const nearest = isWorthAnotherKey ? another(isTaken ? after : undefined) : undefined;
  const nothingChanged = !isTaken && obstacles.length > 0 && moves.length === 0 ? leftAsItWas(rest) : undefined;
  const bore = growth === 0 ? boreRemarks(before, after) : [];
  const result: RekeyResult = {
    from,
    to,
    by: "refit",
    factor: lengthOf(after) / lengthOf(before),
    plainFactor: goal.factor,
    printScalePercent: printScalePercent(after.instrument.printScale),
    edits,
    text,
    before,
    after,
    changes: changesBetween(file, document, text),
    moves,
    obstacles,
    ...(nearest === undefined ? {} : { nearestKey: nearest }),
    ...(nothingChanged === undefined ? {} : { nothingChanged }),
    remarks: [
      ...(nothingChanged === undefined ? [] : [nothingChanged]),
      ...bore,
      ...(constraintsOf(document).taperIsFree ? [] : shapeRemarks(before, after)),
      ...notInTune(rest),
      ...(moves.length > 0 ? makingRemarks(document, text, file.syntax) : []),
      ...lostNotes(before, after),
      ...leftAsideInWords(after, left, impossible, { freedom: goal.freedom, isTaken }),
      ...(moves.length > 0 ? [...weakened(before, after), ...setAsideRemarks(before)] : []),
      ...(isOut ? closedOctaves(rest, document.resolution) : []),
      ...obstacles.map((obstacle) => inWords(obstacle, isWorthAnotherKey, nearest)),
      ...(isTaken && !isOut && isFar(rest) ? noNearer(rest, refitted.obstacles(1)) : []),
      ...(obstacles.length > 0 ? cutShort(isCut, isKeySearchSpent()) : []),
    ],
  };
  if (sameKey || !isOutOfReach(before, after, left, impossible)) return result;
  throw new OutOfReach(outOfReach({ ...result, after: rest }, document.resolution, bore, options), result);
}

/** Which joints have moved, and what keeps the result from being printed, if only the first thing: `check` names all. */
function makingRemarks(document: DesignDocument, text: string, syntax: DesignFile["syntax"]): readonly string[] {
  const file = readDesign(text, syntax);
  const drawn = file.documents[document.index];
  if (drawn === undefined) return [];
  const [first] = makingFindings(drawn);
  return [
    ...movedJoints(document, { file, document: drawn }),
    ...(first === undefined ? [] : [t`As drawn it cannot be printed: ${first.message}`]),
  ];
}

/** The result of `work`; where it refuses, with the nearest possible key. */
function offering<T>(another: () => Note | undefined, work: () => T): T {
  try {
    return work();
  } catch (error) {
    const nearest = error instanceof CannotRekey ? another() : undefined;
    if (nearest === undefined) throw error;
    throw new CannotRekey(t`${(error as CannotRekey).message}; the nearest possible key is ${nearest.name}`);
  }
}

/** What was drawn before the first refit counts as comfortable in all that follow. */
function asDrawn(goal: RefitTargets, { analysis }: Written): RefitTargets {
  const drawn = sharedColumn(analysis.instrument.body);
  return drawn === undefined ? goal : { ...goal, drawn };
}

/** The task of a refit: the design with another key's notes written, and their targets. */
interface Asked {
  /** The bore has grown already, where it is to. */
  readonly there: Written;
  readonly goal: RefitTargets;
  /** Fingerings that no dimensions bring together with the rest: the goal has no targets for them. */
  readonly left: ReadonlySet<number>;
  /** Of the file's text, and which dimensions have grown. */
  readonly changes: TextChanges;
  readonly moves: readonly Move[];
}

/** Whether a refit would do what is asked; a key whose notes leave the range of notes is hopeless. */
function prospectOf(
  asked: () => Asked,
  isSpent: () => boolean,
  options: AnalyseOptions,
  like: Analysis | undefined,
): Prospect {
  if (isSpent()) return "hopeless";
  try {
    const { there, goal } = asked();
    const { file, document, analysis } = there;
    const asking = { ...goal, isSpent, ...(like === undefined ? {} : { like }) };
    return REFITS[analysis.instrument.body.kind].prospect(file, document, analysis, asking, options);
  } catch (error) {
    if (error instanceof CannotRekey) return "hopeless";
    throw error;
  }
}

/** Whether a note is out of tolerance, or lost that sounded. */
function staysOut({ fingerings: old }: Analysis, { summary, tolerance, fingerings }: Analysis): boolean {
  const isLost = fingerings.some(
    ({ predictedHz }, i) => predictedHz === undefined && old[i]?.predictedHz !== undefined,
  );
  return isLost || summary === undefined || Math.abs(summary.worstCents) > tolerance;
}

/** Whether a note is so far out of tolerance, or lost, that another key is worth a thought. */
function isFarOut({ summary, tolerance, fingerings }: Analysis): boolean {
  const isLost = fingerings.some(({ predictedHz, targetHz }) => predictedHz === undefined && targetHz !== undefined);
  return isLost || Math.abs(summary?.worstCents ?? Number.POSITIVE_INFINITY) > tolerance + LITTLE_OUT;
}

function lengthOf({ instrument }: Analysis): number {
  return longestOf(instrument.body);
}

function inWords({ message, advice, ofDrawing }: Obstacle, isWorthAnotherKey: boolean, nearest?: Note): string {
  if (ofDrawing || !isWorthAnotherKey) return t`Held back by: ${message}. To come closer, ${advice}.`;
  return nearest === undefined
    ? t`Held back by: ${message}. To come closer, ${advice}, or take another key.`
    : t`Held back by: ${message}. To come closer, ${advice}, or take key ${nearest.name}.`;
}

function isFar({ summary }: Analysis): boolean {
  return Math.abs(summary?.worstCents ?? 0) > NEAR;
}

/** Why a note within the design's tolerance is no closer. */
function noNearer({ summary, tolerance }: Analysis, [first]: readonly Obstacle[]): readonly string[] {
  if (first === undefined) return [];
  const worst = centsInWords(Math.abs(summary?.worstCents ?? 0));
  return [
    t`Within the tolerance of ${centsInWords(tolerance)}, but no closer than ${worst}: ${first.message}. To come closer, ${first.advice}.`,
  ];
}

/** Said where the work allowed was not enough. */
function cutShort(refit: boolean, keySearch: boolean): readonly string[] {
  if (refit)
    return [
      t(
        "So many holes and notes take long: the search was cut short, and this is the best it had found. Ask again from the result, or describe fewer fingerings.",
      ),
    ];
  return keySearch ? [t("So many holes and notes take long: not every key within an octave was tried.")] : [];
}

function notInTune({ summary, instrument: { key } }: Analysis): readonly string[] {
  const worst = Math.abs(summary?.worstCents ?? 0);
  if (worst < ANOTHER_NOTE) return [];
  return [
    t`Not in tune in ${key?.name ?? t("that key")}: the best that was found leaves a note ${centsInWords(worst)} off.`,
  ];
}

/** Fingerings that sounded before and have no resonance now. */
function lostNotes(before: Analysis, after: Analysis): readonly string[] {
  const lost = after.fingerings.filter(
    (prediction, i) => prediction.cents === undefined && before.fingerings[i]?.cents !== undefined,
  );
  if (lost.length === 0) return [];
  return [t`No longer playable: ${lost.map(nameOfFingering).join(", ")}. The bore is too wide or too short for them.`];
}

/** The design in tune in its own key. @throws CannotRekey, Cancelled */
export function retune(
  file: DesignFile,
  index: number,
  freedom: Freedom,
  settings: AnalysisSettings = DEFAULT_SETTINGS,
  options: AnalyseOptions = {},
): RekeyResult {
  const document = file.documents[index];
  if (document === undefined) throw new CannotRekey(t`there is no instrument ${index + 1} in this file`);
  const before = analyse(document.resolution.instrument, settings, options);
  const { key } = before.instrument;
  const note = key ?? before.fingerings.find(({ fingering }) => fingering.target !== undefined)?.fingering.target;
  if (!isDescribed(before.instrument.body) || note === undefined || before.summary === undefined)
    throw new CannotRekey(t("the instrument is not fully described yet: see the findings"));
  return rekeyByRefit({
    file,
    document,
    from: note,
    to: note,
    before,
    renamingTo: () => [],
    freedom,
    settings,
    options,
  });
}
