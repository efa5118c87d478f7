/** On a finding that knows what was meant: write that. */
import { CodeActionKind } from "vscode-languageserver";
import { correctionFix } from "../../document/correction.js";
import { type ActionPlace, linkedTo, type OfferedAction, touches, wanted, withEdits } from "./action.js";

const KIND = CodeActionKind.QuickFix;

export function correctionActions(place: ActionPlace, only: readonly string[] | undefined): OfferedAction[] {
  const { context, document, selection, shouldStop } = place;
  if (!wanted(only, KIND)) return [];
  return context.findings(document, shouldStop).flatMap((finding) => {
    if (!touches(finding.span, selection)) return [];
    const fix = correctionFix(document, finding);
    if (fix === undefined) return [];
    const action = { title: fix.title, kind: KIND, isPreferred: true, ...linkedTo(place, finding) };
    return withEdits(place, action, fix.edits);
  });
}
