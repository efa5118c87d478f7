/**
 * On an out-of-tune fingering, or on the hole or bore length that decides it: the least change that puts the worst note
 * right. Linked to the diagnostic pitch/out-of-tune, whose data names the hole and the fingerings.
 */
import { CodeActionKind, type Diagnostic } from "vscode-languageserver";
import { fixesFor, type HoleFix } from "../../design/fixHole.js";
import { OUT_OF_TUNE, type OutOfTuneData } from "../../design/rules/outOfTune.js";
import type { DesignDocument, PlacedFinding } from "../../document/designFile.js";
import { spanOf } from "../../document/locate.js";
import { rangeOf } from "../designContext.js";
import { workspaceEdit } from "../edits.js";
import { type ActionPlace, type OfferedAction, touches, wanted } from "./action.js";

const KIND = CodeActionKind.QuickFix;

export function holeActions(place: ActionPlace, only: readonly string[] | undefined): OfferedAction[] {
  if (!wanted(only, KIND)) return [];
  const { context, document, shouldStop } = place;
  const findings = context.findings(document, shouldStop).filter(({ code }) => code === OUT_OF_TUNE);
  return findings.flatMap((finding) => {
    const data = dataOf(finding);
    const fingering = data && fingeringToFix(place, finding, data);
    if (data === undefined || fingering === undefined) return [];
    const fixes = fixesFor(document, context.analysis(document, shouldStop), data.hole, fingering);
    return fixes.filter(({ edits }) => edits.length > 0).map((fix) => offer(place, finding, fix));
  });
}

/** The fingering selected, if it is one of the finding's and out of tune; on the hole, the worst. */
function fingeringToFix(place: ActionPlace, finding: PlacedFinding, { hole, fingerings }: OutOfTuneData) {
  const { context, document, selection } = place;
  const { instrument, tolerance, fingerings: predictions } = context.analysis(document, place.shouldStop);
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

function offer({ context, diagnostics }: ActionPlace, finding: PlacedFinding, fix: HoleFix): OfferedAction {
  const { start } = rangeOf(context, finding.span);
  const same = ({ code, range }: Diagnostic) =>
    code === finding.code && range.start.line === start.line && range.start.character === start.character;
  const linked = diagnostics.filter(same);
  return {
    action: {
      title: fix.title,
      kind: KIND,
      ...(linked.length === 0 ? {} : { diagnostics: [...linked] }),
      ...(fix.preferred ? { isPreferred: true } : {}),
      // The numbers in the title are the edit: there is nothing left to work out later.
      edit: workspaceEdit(context, fix.edits),
    },
  };
}
