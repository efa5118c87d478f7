/** Another key with walls, hands and print as they are: the holes and the bore's length solved anew. */

import { spentAfter } from "../../acoustics/work.js";
import { TextChanges } from "../../document/changes.js";
import type { DesignDocument, DesignFile } from "../../document/designFile.js";
import { applyEdits } from "../../document/edits.js";
import { readDesign } from "../../document/read.js";
import type { TextEdit } from "../../document/textEdit.js";
import { isDescribed } from "../../instrument/described.js";
import { pathKey } from "../../instrument/path.js";
import type { Note } from "../../music/note.js";
import type { Freedom } from "../constraints/unknowns.js";
import { type AnalyseOptions, analyse } from "../predict/analyse.js";
import type { Analysis } from "../predict/analysis.js";
import { longestOf } from "../predict/body.js";
import { nameOfFingering } from "../predict/governing.js";
import { nearestKey, type Prospect } from "../rekey/nearestKey.js";
import { reanalyse, targetRatio } from "../rekey/newTargets.js";
import { offered } from "../rekey/offered.js";
import { printScalePercent } from "../rekey/printScale.js";
import { CannotRekey, type RekeyResult } from "../rekey/rekeyResult.js";
import { measuredRemarks } from "../rekey/remarks.js";
import { type AnalysisSettings, DEFAULT_SETTINGS } from "../settings.js";
import { centsInWords } from "../wording.js";
import { HOPELESS } from "./inTune.js";
import type { Move } from "./move.js";
import { isWorthHaving, leftAsItWas } from "./neverWorse.js";
import type { Obstacle } from "./obstacle.js";
import { type RefitTargets, refit, refitProspect } from "./refit.js";
import { refitPipes } from "./refitPipes.js";
import { refitVessel, vesselRefitProspect } from "./refitVessel.js";

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
  readonly settings: AnalysisSettings;
  readonly options: AnalyseOptions;
}

/**
 * What a refit's fits, and the search for the nearest key, may take before what is found must do; microseconds (`acoustics/work.ts`). An
 * instrument of eight holes takes a tenth.
 */
const REFIT_WORK = 900_000;
const KEY_SEARCH_WORK = 4_000_000;

/** @throws CannotRekey, Cancelled */
export function rekeyByRefit({
  file,
  document,
  from,
  to,
  before,
  renamingTo,
  freedom = "all",
  settings,
  options,
}: RefitRequest): RekeyResult {
  const isSpent = spentAfter(REFIT_WORK);
  const asked = (key: Note): Asked => {
    const renamedFile = readDesign(applyEdits(file.text, renamingTo(key)), file.syntax);
    const renamed = instrumentOf(renamedFile, document.index);
    const retargeted = analyse(renamed.resolution.instrument, settings, options);
    const targets = retargeted.fingerings.map(({ targetHz }) => targetHz);
    return {
      renamedFile,
      renamed,
      retargeted,
      wish: { targets, factor: targetRatio(before, retargeted), freedom, isSpent },
    };
  };
  const { renamedFile, renamed, retargeted, wish } = asked(to);
  const plainFactor = wish.factor;
  const sameKey = from.midi === to.midi;
  let isKeySearchSpent = () => false;
  const another = () => {
    // What takes so long for one key takes far too long for many.
    if (sameKey || isSpent()) return undefined;
    isKeySearchSpent = spentAfter(KEY_SEARCH_WORK);
    return nearestKey(from, to, (key) => prospectOf(() => asked(key), isKeySearchSpent, options));
  };
  const solved = (asked: RefitTargets) =>
    retargeted.instrument.pipes === undefined
      ? offering(another, () => refitOf(retargeted)(renamedFile, renamed, retargeted, asked, options))
      : refitPipes(renamedFile, renamed, retargeted, options);
  const written = (refits: readonly (readonly TextEdit[])[]) => {
    const changes = new TextChanges(file.text);
    changes.make(renamingTo(to));
    for (const each of refits) changes.make(each);
    const { edits, text } = offered(file, document.index, changes.edits);
    return { edits, text, after: reanalyse(file, text, document.index, settings, options) };
  };
  const judged = (asked: RefitTargets) => {
    const found = solved(asked);
    const first = { ...written([found.edits]), moves: found.moves, obstacles: found.obstacles };
    const isTaken = found.edits.length === 0 || isWorthHaving(retargeted, first.after, found, sameKey);
    return { found, first, isTaken };
  };
  const plain = judged(wish);
  // Holes brought in tune may cost the notes that no hole decides too much: then all notes are heard together.
  const wary = plain.isTaken || freedom === "all" ? plain : judged({ ...wish, everyNote: true });
  const { found, first, isTaken } = wary.isTaken ? wary : plain;
  /** What a second refit makes of the first one's drawing, where that is nearly in tune: rounding may have led away from it. */
  const again = (): typeof first | undefined => {
    if (found.edits.length === 0 || found.obstacles.length === 0) return undefined;
    if (!(Math.abs(first.after.summary?.worstCents ?? HOPELESS) < HOPELESS)) return undefined;
    const file2 = readDesign(first.text, file.syntax);
    const nearer = refitOf(retargeted)(
      file2,
      instrumentOf(file2, document.index),
      first.after,
      { ...wish, factor: 1 },
      options,
    );
    const second = written([found.edits, nearer.edits]);
    if (!isWorthHaving(first.after, second.after, nearer, true)) return undefined;
    return { ...second, moves: movesTogether(found.moves, nearer.moves), obstacles: nearer.obstacles };
  };
  const refitted = again() ?? first;
  const { edits, text, after, moves, obstacles } = isTaken
    ? refitted
    : { ...written([]), moves: [], obstacles: found.obstacles };
  const isCut = isSpent();
  const nearest = obstacles.every(({ ofDrawing }) => ofDrawing) ? undefined : another();
  return {
    from,
    to,
    by: "refit",
    factor: lengthOf(after) / lengthOf(before),
    plainFactor,
    printScalePercent: printScalePercent(after.instrument.printScale),
    edits,
    text,
    before,
    after,
    moves,
    obstacles,
    ...(nearest === undefined ? {} : { nearestKey: nearest }),
    remarks: [
      ...(isTaken ? [] : [leftAsItWas(after)]),
      ...outOfReach(after),
      ...lostNotes(before, after),
      ...(moves.length > 0 ? measuredRemarks(document) : []),
      ...obstacles.map((obstacle) => inWords(obstacle, nearest)),
      ...(obstacles.length > 0 ? cutShort(isCut, isKeySearchSpent()) : []),
    ],
  };
}

/** Dimensions moved once and again, each from where it was at first. */
function movesTogether(first: readonly Move[], second: readonly Move[]): readonly Move[] {
  const moves = new Map(first.map((move) => [pathKey(move.path), move]));
  for (const move of second) {
    const from = moves.get(pathKey(move.path))?.from ?? move.from;
    moves.set(pathKey(move.path), { ...move, from });
  }
  return [...moves.values()].filter(({ from, to }) => from !== to);
}

function refitOf({ instrument }: Analysis): typeof refit {
  return instrument.vessel === undefined ? refit : refitVessel;
}

/** What `work` gives; where it refuses, with the nearest key that can be had. */
function offering<T>(another: () => Note | undefined, work: () => T): T {
  try {
    return work();
  } catch (error) {
    const nearest = error instanceof CannotRekey ? another() : undefined;
    if (nearest === undefined) throw error;
    throw new CannotRekey(`${(error as CannotRekey).message}; the nearest key that can be had is ${nearest.name}`);
  }
}

/** What a refit is asked: the design with another key's notes written, and what they want. */
interface Asked {
  readonly renamedFile: DesignFile;
  readonly renamed: DesignDocument;
  readonly retargeted: Analysis;
  readonly wish: RefitTargets;
}

/** Whether a refit would do what is asked; a key whose notes leave the range of notes is hopeless. */
function prospectOf(asked: () => Asked, isSpent: () => boolean, options: AnalyseOptions): Prospect {
  if (isSpent()) return "hopeless";
  try {
    const { renamed, retargeted, wish } = asked();
    const prospect = retargeted.instrument.vessel === undefined ? refitProspect : vesselRefitProspect;
    return prospect(renamed, retargeted, { ...wish, isSpent }, options);
  } catch (error) {
    if (error instanceof CannotRekey) return "hopeless";
    throw error;
  }
}

function instrumentOf(file: DesignFile, index: number): DesignDocument {
  const document = file.documents[index];
  if (document === undefined) throw new CannotRekey("the rewritten design could not be read");
  return document;
}

function lengthOf({ instrument }: Analysis): number {
  return longestOf(instrument);
}

function inWords({ message, advice, ofDrawing }: Obstacle, nearest: Note | undefined): string {
  if (ofDrawing) return `Held back by: ${message}. To come closer, ${advice}.`;
  return `Held back by: ${message}. To come closer, ${advice}, or take ${nearest === undefined ? "another key" : `key ${nearest.name}`}.`;
}

/** Said where the work allowed was not enough. */
function cutShort(refit: boolean, keySearch: boolean): readonly string[] {
  if (refit)
    return [
      "So many holes and notes take long: the search was cut short, and this is the best it had found. Ask again from the result, or describe fewer fingerings.",
    ];
  return keySearch ? ["So many holes and notes take long: not every key within an octave was tried."] : [];
}

/** Beyond a quarter tone a note is another one. Cents. */
const ANOTHER_NOTE = 50;

function outOfReach({ summary, instrument: { key } }: Analysis): readonly string[] {
  const worst = Math.abs(summary?.worstCents ?? 0);
  if (worst < ANOTHER_NOTE) return [];
  return [
    `Not in tune in ${key?.name ?? "that key"}: the best that was found leaves a note ${centsInWords(worst)} off.`,
  ];
}

/** Fingerings that sounded before and have no resonance now. */
function lostNotes(before: Analysis, after: Analysis): readonly string[] {
  const lost = after.fingerings.filter(
    (prediction, i) => prediction.cents === undefined && before.fingerings[i]?.cents !== undefined,
  );
  if (lost.length === 0) return [];
  return [`No longer to be had: ${lost.map(nameOfFingering).join(", ")}. The bore is too wide or too short for them.`];
}

/** The design in tune in its own key. @throws CannotRekey, Cancelled */
export function retune(
  file: DesignFile,
  index: number,
  freedom: Freedom,
  settings: AnalysisSettings = DEFAULT_SETTINGS,
  options: AnalyseOptions = {},
): RekeyResult {
  const document = instrumentOf(file, index);
  const before = analyse(document.resolution.instrument, settings, options);
  const { key } = before.instrument;
  const note = key ?? before.fingerings.find(({ fingering }) => fingering.target !== undefined)?.fingering.target;
  if (!isDescribed(before.instrument) || note === undefined || before.summary === undefined)
    throw new CannotRekey("the instrument is not fully described yet: see the findings");
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
