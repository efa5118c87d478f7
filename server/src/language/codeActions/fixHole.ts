/**
 * On an out-of-tune fingering, or on the hole or bore length that decides it: the least change that puts the worst note
 * right. Linked to the diagnostic pitch/out-of-tune, whose data names the hole and the fingerings.
 */
import { CodeActionKind } from "vscode-languageserver";
import type { Steps } from "../../acoustics/steps.js";
import { noteFixSteps } from "../../design/fix/findingFixes.js";
import type { HoleFix } from "../../design/fix/fixHole.js";
import type { Analysis } from "../../design/predict/analysis.js";
import { besideShift } from "../../design/rekey/commonShift.js";
import { OUT_OF_TUNE, type OutOfTuneData } from "../../design/rules/outOfTune.js";
import type { DesignDocument, PlacedFinding } from "../../document/designFile.js";
import { spanOf } from "../../document/locate.js";
import {
  type ActionPlace,
  linkedTo,
  type OfferedAction,
  offeredForEach,
  touches,
  wanted,
  withEdits,
} from "./action.js";

const KIND = CodeActionKind.QuickFix;

/** Step by step: places and sizes are searched for. */
export function* holeActions(place: ActionPlace, only: readonly string[] | undefined): Steps<OfferedAction[]> {
  if (!wanted(only, KIND)) return [];
  const { context, document, shouldStop } = place;
  const findings = context.findings(document, shouldStop).filter(({ code }) => code === OUT_OF_TUNE);
  const offered: OfferedAction[] = [];
  for (const finding of findings) {
    const data = dataOf(finding);
    if (data === undefined || data.together !== undefined) continue;
    const whole = context.analysis(document, shouldStop);
    const analysis = data.beside === undefined ? whole : besideShift(whole, data.beside);
    const fingering = fingeringToFix(place, analysis, finding, data);
    if (fingering === undefined) continue;
    const fixes = yield* noteFixSteps(document, whole, data, fingering);
    offered.push(...(yield* offeredForEach(fixes, (fix) => offer(place, finding, fix))));
  }
  return offered;
}

/** The fingering selected, if it is one of the finding's and out of tune; on the hole, the worst. */
function fingeringToFix(
  { document, selection }: ActionPlace,
  { instrument, tolerance, fingerings: predictions }: Analysis,
  finding: PlacedFinding,
  { hole, fingerings }: OutOfTuneData,
) {
  const selected = fingerings.find((index) => {
    const prediction = predictions[index];
    if (prediction?.cents === undefined || Math.abs(prediction.cents) <= tolerance) return false;
    return touches(spanOf(document, prediction.fingering.path), selection);
  });
  if (selected !== undefined) return selected;
  const holePath = hole === undefined ? undefined : instrument.holes[hole]?.path;
  const onHole = holePath !== undefined && touches(holeSpan(document, holePath), selection);
  return onHole || touches(finding.span, selection) ? fingerings[0] : undefined;
}

/** A block map's span runs on to the next entry; the hole ends with its own last line. */
function holeSpan(document: DesignDocument, path: readonly (string | number)[]) {
  const { start, end } = spanOf(document, path);
  return { start, end: start + document.text.slice(start, end).trimEnd().length };
}

function dataOf({ data }: PlacedFinding): OutOfTuneData | undefined {
  return data as OutOfTuneData | undefined;
}

function offer(place: ActionPlace, finding: PlacedFinding, fix: HoleFix): Steps<OfferedAction[]> {
  const preferred = fix.preferred ? { isPreferred: true } : {};
  // The numbers in the title are the edit: there is nothing left to work out later.
  return withEdits(place, { title: fix.title, kind: KIND, ...linkedTo(place, finding), ...preferred }, fix.edits);
}
