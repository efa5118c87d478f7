/** The effect of a proposed edit: the edited text read and predicted like any other. */
import type { Steps } from "../../acoustics/steps.js";
import type { DesignDocument } from "../../document/designFile.js";
import { applyEdits } from "../../document/edits.js";
import { readDesign } from "../../document/read.js";
import type { TextEdit } from "../../document/textEdit.js";
import { analysisSteps } from "../predict/analyse.js";
import type { Analysis } from "../predict/analysis.js";
import { commonShift } from "../rekey/commonShift.js";
import { breaksMore } from "./breaksMore.js";

export interface PredictedAgain {
  /** Cents by which the fingering is off after the edit. */
  readonly left: number;
  /** The other fingering that the edit puts out of tune, if any; of several, the worst. Cents after it. */
  readonly cost?: { readonly fingering: number; readonly cents: number };
}

/**
 * The effect of an edit on one fingering; undefined where it no longer sounds, and where the edited design breaks a limit that it
 * did not break before: holes nearer than their gap, a pipe or a vessel larger than the bed.
 * @param beside cents that all notes are off together: deviations are relative to them, as they are after the edit
 */
export function* predictedAgainSteps(
  document: DesignDocument,
  { tolerance, temperature, fingerings }: Analysis,
  edits: readonly TextEdit[],
  fingering: number,
  beside: number | undefined,
): Steps<PredictedAgain | undefined> {
  const text = applyEdits(document.text, edits);
  const edited = readDesign(text, document.syntax).documents[document.index];
  if (edited === undefined || breaksMore(document, edited)) return undefined;
  const after = yield* analysisSteps(edited.resolution.instrument, { tolerance, temperature });
  const left = after.fingerings[fingering]?.cents;
  if (left === undefined) return undefined;
  if (beside !== undefined) return { left: left - (commonShift(after)?.cents ?? beside) };
  const spoilt = after.fingerings.flatMap(({ cents = 0 }, index) => {
    const was = Math.abs(fingerings[index]?.cents ?? Number.POSITIVE_INFINITY);
    return index !== fingering && was <= tolerance && Math.abs(cents) > tolerance ? [{ fingering: index, cents }] : [];
  });
  const [cost] = spoilt.sort((a, b) => Math.abs(b.cents) - Math.abs(a.cents));
  return cost === undefined ? { left } : { left, cost };
}
