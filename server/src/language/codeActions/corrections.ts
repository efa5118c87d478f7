/** On a finding that knows what was meant: write that. */
import { CodeActionKind } from "vscode-languageserver";
import type { Steps } from "../../acoustics/steps.js";
import { correctionFix } from "../../document/correction.js";
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

export function* correctionActions(place: ActionPlace, only: readonly string[] | undefined): Steps<OfferedAction[]> {
  const { context, document, selection, shouldStop } = place;
  if (!wanted(only, KIND)) return [];
  return yield* offeredForEach(context.findings(document, shouldStop), function* (finding) {
    if (!touches(finding.span, selection)) return [];
    const fix = correctionFix(document, finding);
    if (fix === undefined) return [];
    const action = { title: fix.title, kind: KIND, isPreferred: true, ...linkedTo(place, finding) };
    return yield* withEdits(place, action, fix.edits);
  });
}
