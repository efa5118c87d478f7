/** Measured notes: how far the prediction is from them, and what calibrating would leave. */

import { Budget, within } from "../../acoustics/work.js";
import { CannotCalibrate, calibrationSteps } from "../../design/calibrate/calibrate.js";
import { closingLines, fittedLines } from "../../design/calibrate/wording.js";
import { signedCents } from "../../design/wording.js";
import { escapeMarkdown } from "../../escape/markdown.js";
import { t } from "../../words/translation.js";
import { ANSWER_WORK } from "../bandsInTime.js";
import { centsInWords, hertz } from "../words.js";
import { table } from "./markdown.js";
import type { HoverTopic } from "./place.js";

export const measured: HoverTopic = function* ({ document, analysis, path }) {
  const { instrument } = analysis;
  if (instrument.measured.length === 0) return [];
  try {
    const calibration = yield* within(new Budget(ANSWER_WORK), calibrationSteps(document.resolution, analysis));
    if (calibration === undefined) return [t("Calibrating it would take too long here; run `borewright calibrate`.")];
    const index = path[1];
    const shown = calibration.notes.filter((note) => index === undefined || note.path[1] === index);
    const rows = shown.map(({ name, hz, beforeCents, residualCents }) => [
      escapeMarkdown(name),
      hertz(hz),
      centsInWords(beforeCents),
      signedCents(residualCents),
    ]);
    const state = instrument.calibrated ? t("**Calibrated.**") : t("**Not calibrated yet.**");
    return [
      t`${state} The measured notes against the prediction, and what the best fit leaves:`,
      ...table([t("note"), t("measured"), t("above the prediction"), t("left")], rows),
      t`Best fit: ${fittedLines(calibration, instrument).map(escapeMarkdown).join("; ")}.`,
      ...closingLines(calibration, instrument).map(escapeMarkdown),
    ];
  } catch (error) {
    if (error instanceof CannotCalibrate) return [t`Cannot be calibrated: ${escapeMarkdown(error.message)}`];
    throw error;
  }
};
