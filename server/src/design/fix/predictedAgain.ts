/** What a proposed edit comes to: the edited text read and predicted like any other. */
import type { Steps } from "../../acoustics/steps.js";
import type { DesignDocument } from "../../document/designFile.js";
import { applyEdits } from "../../document/edits.js";
import { readDesign } from "../../document/read.js";
import type { TextEdit } from "../../document/textEdit.js";
import { analysisSteps } from "../predict/analyse.js";
import type { Analysis } from "../predict/analysis.js";
import { commonShift } from "../rekey/commonShift.js";
import { breaksMore } from "./breaksMore.js";

/**
 * Cents by which a fingering is off after an edit; undefined where it sounds no more, and where the edited design breaks what it did
 * not break before: holes nearer than their gap, a pipe or a vessel larger than the bed.
 * @param beside cents that all notes are off together: what is told is off against them, as they are after the edit
 */
export function* predictedAgainSteps(
  document: DesignDocument,
  { tolerance, temperature }: Analysis,
  edits: readonly TextEdit[],
  fingering: number,
  beside: number | undefined,
): Steps<number | undefined> {
  const text = applyEdits(document.text, edits);
  const edited = readDesign(text, document.syntax).documents[document.index];
  if (edited === undefined || breaksMore(document, edited)) return undefined;
  const after = yield* analysisSteps(edited.resolution.instrument, { tolerance, temperature });
  const cents = after.fingerings[fingering]?.cents;
  if (cents === undefined || beside === undefined) return cents;
  return cents - (commonShift(after)?.cents ?? beside);
}
