/** Where all notes are off together: another size for the stated key, or the key that this size has. */

import { CodeActionKind } from "vscode-languageserver";
import type { Steps } from "../../acoustics/steps.js";
import type { Fix } from "../../design/fix/checkedFix.js";
import { printedFix, renamedFix } from "../../design/fix/togetherFixes.js";
import type { OffTogetherData } from "../../design/rules/offTogether.js";
import { OUT_OF_TUNE, type OutOfTuneData } from "../../design/rules/outOfTune.js";
import type { PlacedFinding } from "../../document/designFile.js";
import { t } from "../../words/translation.js";
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

export function* togetherActions(place: ActionPlace, only: readonly string[] | undefined): Steps<OfferedAction[]> {
  if (!wanted(only, KIND)) return [];
  const { context, document, selection, shouldStop } = place;
  const findings = context.findings(document, shouldStop).filter(({ code }) => code === OUT_OF_TUNE);
  return yield* offeredForEach(findings, function* (finding) {
    const together = (finding.data as OutOfTuneData | undefined)?.together;
    if (together === undefined || !touches(finding.span, selection)) return [];
    return [
      ...(yield* offer(place, finding, printedFix(document, together), true)),
      ...redrawn(place, finding, together),
      ...(yield* offer(place, finding, renamedFix(document, together), false)),
    ];
  });
}

/** The exact factor comes with the edit, as that of another key does. */
function redrawn(place: ActionPlace, finding: PlacedFinding, { factor }: OffTogetherData): OfferedAction[] {
  const { context, document } = place;
  const { key } = document.resolution.instrument;
  if (key === undefined) return [];
  const title = t`Redraw every dimension × ${factor.toFixed(3)}, so that the notes are in tune on the whole`;
  const recipe = {
    uri: context.uri,
    textName: context.textName,
    documentIndex: document.index,
    work: { do: "rekey", to: key.name, by: "redraw" },
    preview: false,
  } as const;
  return [{ action: { title, kind: KIND, ...linkedTo(place, finding) }, recipe }];
}

function* offer(
  place: ActionPlace,
  finding: PlacedFinding,
  fix: Fix | undefined,
  isPreferred: boolean,
): Steps<OfferedAction[]> {
  const preferred = isPreferred ? { isPreferred } : {};
  if (fix === undefined) return [];
  return yield* withEdits(
    place,
    { title: fix.title, kind: KIND, ...linkedTo(place, finding), ...preferred },
    fix.edits,
  );
}
