/** On a fingering: another one for a note that is out of tune or does not sound, and one for the next semitone where it is missing. */

import { CodeActionKind } from "vscode-languageserver";
import type { Steps } from "../../acoustics/steps.js";
import { Budget, within } from "../../acoustics/work.js";
import { type FoundFingering, findFingerings } from "../../design/fingerings/find.js";
import { addingEdits, replacingEdits } from "../../design/fingerings/fingeringEdits.js";
import type { Analysis, FingeringPrediction } from "../../design/predict/analysis.js";
import { deviationInWords } from "../../design/wording.js";
import type { DesignDocument } from "../../document/designFile.js";
import { spanOf } from "../../document/locate.js";
import { hasHoles } from "../../instrument/families/bodyTraits.js";
import { type Note, noteFromMidi } from "../../music/note.js";
import { t } from "../../words/translation.js";
import { ANSWER_WORK } from "../bandsInTime.js";
import { type ActionPlace, type OfferedAction, offeredForEach, touches, wanted, withEdits } from "./action.js";

/** Most actions for one note. */
const MOST_OFFERED = 2;
/** Farther off than this, cents, a semitone is not worth adding: a quarter of its step. */
const WORTH_ADDING = 25;

/** Step by step: all ways to cover the holes are tried. */
export function* fingeringActions(place: ActionPlace, only: readonly string[] | undefined): Steps<OfferedAction[]> {
  const { context, document, selection, shouldStop } = place;
  const asked = [CodeActionKind.QuickFix, CodeActionKind.RefactorRewrite].some((kind) => wanted(only, kind));
  if (!asked || !hasHoles(document.resolution.instrument.body)) return [];
  const analysis = context.analysis(document, shouldStop);
  const here = analysis.fingerings.find(
    ({ fingering: { path } }) => path[0] === "fingerings" && touches(entrySpan(document, path), selection),
  );
  if (here === undefined || analysis.refusal !== undefined) return [];
  return [
    ...(wanted(only, CodeActionKind.QuickFix) ? yield* others(place, analysis, here) : []),
    ...(wanted(only, CodeActionKind.RefactorRewrite) ? yield* missing(place, analysis, here) : []),
  ];
}

/** Other fingerings for a note that is out of tune or silent. */
function* others(place: ActionPlace, analysis: Analysis, here: FingeringPrediction): Steps<OfferedAction[]> {
  const { target } = here.fingering;
  const off = Math.abs(here.cents ?? Number.POSITIVE_INFINITY);
  if (target === undefined || here.isBeyondBudget || off <= analysis.tolerance) return [];
  const better = (yield* foundFor(analysis, target))
    .filter(({ cents, isInDesign }) => !isInDesign && Math.abs(cents) <= Math.max(analysis.tolerance, off / 2))
    .filter(({ cents }) => Math.abs(cents) < off);
  return yield* offeredForEach(better.slice(0, MOST_OFFERED), (found) => {
    const title = t`Finger ${target.name} ${inWords(found, here.fingering.register)}`;
    return withEdits(
      place,
      { title, kind: CodeActionKind.QuickFix },
      replacingEdits(place.document, here.fingering, found),
    );
  });
}

/** The next semitone up, where the design has notes above it but not this one. */
function* missing(place: ActionPlace, analysis: Analysis, here: FingeringPrediction): Steps<OfferedAction[]> {
  const midi = here.fingering.target?.midi;
  const notes = analysis.fingerings.flatMap(({ fingering: { target } }) => target?.midi ?? []);
  if (midi === undefined || notes.includes(midi + 1) || !notes.some((other) => other > midi)) return [];
  const note = noteFromMidi(midi + 1);
  const [found] = note === undefined ? [] : yield* foundFor(analysis, note);
  if (note === undefined || found === undefined || Math.abs(found.cents) > WORTH_ADDING) return [];
  const title = t`Add a fingering for ${note.name} ${inWords(found)}`;
  const edits = addingEdits(place.document, here.fingering, note, found);
  return yield* withEdits(place, { title, kind: CodeActionKind.RefactorRewrite }, edits);
}

/** `as ○●●○○○: 6.9 cents sharp`. @param before the register that it replaces */
function inWords({ pattern, register, cents }: FoundFingering, before = 1): string {
  const isPlain = register === 1 && before === 1;
  return t`as ${pattern}${isPlain ? "" : t` in register ${register}`}: ${deviationInWords(cents)}`;
}

/** Asked for again at every step of the cursor along a line. */
const known = new WeakMap<Analysis, Map<number, readonly FoundFingering[]>>();

function* foundFor(analysis: Analysis, note: Note): Steps<readonly FoundFingering[]> {
  const all = known.get(analysis) ?? new Map<number, readonly FoundFingering[]>();
  known.set(analysis, all);
  const before = all.get(note.midi);
  if (before !== undefined) return before;
  const steps = findFingerings(analysis, [note], { most: MOST_OFFERED + 1, halfHoles: true });
  // Where that would take too long, none is offered: `borewright fingerings` has the time.
  const [found] = (yield* within(new Budget(ANSWER_WORK), steps)) ?? [];
  const fingerings = found?.fingerings ?? [];
  all.set(note.midi, fingerings);
  return fingerings;
}

/** A block map's span runs on to the next entry; the fingering ends with its own last line. */
function entrySpan(document: DesignDocument, path: readonly (string | number)[]) {
  const { start, end } = spanOf(document, path);
  return { start, end: start + document.text.slice(start, end).trimEnd().length };
}
