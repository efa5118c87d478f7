/** On a finding that has no fix: switches it off in this design by an entry under `rules`. */

import { CodeActionKind } from "vscode-languageserver";
import type { Steps } from "../../acoustics/steps.js";
import { OUT_OF_TUNE } from "../../design/rules/outOfTune.js";
import type { DesignDocument } from "../../document/designFile.js";
import { insertEntry, setText } from "../../document/edits.js";
import type { TextEdit } from "../../document/textEdit.js";
import { nodeAt } from "../../document/tree.js";
import { SWITCHABLE_RULES } from "../../instrument/ruleLevels.js";
import { t } from "../../words/translation.js";
import { type ActionPlace, type OfferedAction, offeredForEach, touches, wanted, withEdits } from "./action.js";

const KIND = CodeActionKind.QuickFix;

/** One per code. Notes out of tune have fixes of their own, and are what the design is about. */
export function* switchOffActions(place: ActionPlace, only: readonly string[] | undefined): Steps<OfferedAction[]> {
  const { context, document, selection, diagnostics, shouldStop } = place;
  if (!wanted(only, KIND)) return [];
  const here = context
    .findings(document, shouldStop)
    .filter(({ code, span }) => code !== OUT_OF_TUNE && SWITCHABLE_RULES.includes(code) && touches(span, selection));
  return yield* offeredForEach(new Set(here.map(({ code }) => code)), (code) => {
    const edits = switchOff(document, code);
    const title = t`Switch off ${code} in this design`;
    const answered = diagnostics.filter((diagnostic) => diagnostic.code === code);
    return withEdits(place, { title, kind: KIND, diagnostics: answered }, edits);
  });
}

/** Nothing where `rules` is not written as expected. */
function switchOff(document: DesignDocument, code: string): readonly TextEdit[] {
  if (nodeAt(document.root, ["rules"]) !== undefined) return setText(document, ["rules", code], "off");
  const json = document.syntax === "json";
  return insertEntry(document, [], "rules", json ? `{ ${JSON.stringify(code)}: "off" }` : `{ ${code}: off }`);
}
