/** On `measured`: what the notes say about the mouth, written into the design. */

import { CodeActionKind } from "vscode-languageserver";
import type { Steps } from "../../acoustics/steps.js";
import { Budget, within } from "../../acoustics/work.js";
import { CannotCalibrate, calibrationSteps } from "../../design/calibrate/calibrate.js";
import { calibrationEdits } from "../../design/calibrate/calibrationEdits.js";
import { calibrationInWords } from "../../design/calibrate/wording.js";
import { t } from "../../words/translation.js";
import { ANSWER_WORK } from "../bandsInTime.js";
import {
  type ActionPlace,
  type OfferedAction,
  offeredForEach,
  sectionSpan,
  touches,
  wanted,
  withEdits,
} from "./action.js";

const KIND = CodeActionKind.RefactorRewrite;

/** Offered on the whole entry. The numbers in the title are the edit, so that it is worked out before, step by step. */
export function* calibrateActions(place: ActionPlace, only: readonly string[] | undefined): Steps<OfferedAction[]> {
  const { context, document, selection } = place;
  const span = sectionSpan(place, "measured");
  if (!wanted(only, KIND) || span === undefined || !touches(span, selection)) return [];
  try {
    const analysis = yield* context.analysisSteps(document);
    const calibration = yield* within(new Budget(ANSWER_WORK), calibrationSteps(document.resolution, analysis));
    if (calibration === undefined) return []; // `borewright calibrate` has the time
    const { withAir } = calibration;
    const proposals = [calibration, ...(withAir === undefined ? [] : [withAir])];
    const calibrated = yield* offeredForEach(proposals, (each) => {
      const title = t`Calibrate ${calibrationInWords(each, analysis.instrument)}`;
      return withEdits(place, { title, kind: KIND }, calibrationEdits(document, each));
    });
    return calibrated.length === 0 ? [] : [...calibrated, nextPrint(place)];
  } catch (error) {
    if (error instanceof CannotCalibrate) return []; // what cannot be done is not offered
    throw error;
  }
}

/** Worked out once it is chosen, and shown before it is made. */
function nextPrint({ context, document: { index } }: ActionPlace): OfferedAction {
  const recipe = { uri: context.uri, textName: context.textName, documentIndex: index };
  return {
    action: { title: t("Correct for the next print: calibrate, then bring every note into tune"), kind: KIND },
    recipe: { ...recipe, work: { do: "correct", freedom: "all" }, preview: true },
  };
}
