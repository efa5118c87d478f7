/** From measured notes to the next print: the mouth calibrated by them, then every note brought into tune with that mouth. */
import { checkedEdits } from "../../document/checkedEdits.js";
import { composedEdits } from "../../document/composedEdits.js";
import type { DesignFile } from "../../document/designFile.js";
import { applyEdits } from "../../document/edits.js";
import { readDesign } from "../../document/read.js";
import type { TextEdit } from "../../document/textEdit.js";
import { t } from "../../words/translation.js";
import type { Freedom } from "../constraints/unknowns.js";
import { type AnalyseOptions, analyse } from "../predict/analyse.js";
import { retune } from "../refit/rekeyByRefit.js";
import { CannotRekey, type RekeyResult } from "../rekey/rekeyResult.js";
import type { AnalysisSettings } from "../settings.js";
import { type Calibration, CannotCalibrate, calibrate, type PrintedDesign } from "./calibrate.js";
import { calibrationEdits } from "./calibrationEdits.js";

export interface Calibrated {
  readonly calibration: Calibration;
  /** Of the file's text. */
  readonly edits: readonly TextEdit[];
  readonly file: DesignFile;
}

export interface CorrectOptions extends AnalyseOptions {
  /** As `calibrate` takes them. */
  readonly earlier?: readonly PrintedDesign[];
}

export interface Corrected extends Calibrated {
  readonly refit: RekeyResult;
}

/** @throws CannotCalibrate */
export function calibratedFile(
  file: DesignFile,
  documentIndex: number,
  settings: AnalysisSettings,
  options: CorrectOptions = {},
): Calibrated {
  const document = file.documents[documentIndex];
  if (document === undefined) throw new CannotCalibrate(t("there is no such instrument in the file."));
  const analysis = analyse(document.resolution.instrument, settings, options);
  const calibration = calibrate(document.resolution, analysis, { earlier: options.earlier ?? [] });
  const checked = checkedEdits(file, documentIndex, calibrationEdits(document, calibration));
  if (checked === undefined)
    throw new CannotCalibrate(t("the mouth is written in a way that does not let it be changed alone: write it out."));
  const text = applyEdits(file.text, checked.edits);
  return { calibration, edits: checked.edits, file: readDesign(text, file.syntax) };
}

/** @throws CannotRekey, Cancelled */
export function corrected(
  file: DesignFile,
  documentIndex: number,
  freedom: Freedom,
  settings: AnalysisSettings,
  options: CorrectOptions = {},
): Corrected {
  try {
    const calibrated = calibratedFile(file, documentIndex, settings, options);
    const refit = retune(calibrated.file, documentIndex, freedom, settings, options);
    return { ...calibrated, refit, edits: composedEdits(file.text, calibrated.edits, refit.edits) };
  } catch (error) {
    if (error instanceof CannotCalibrate) throw new CannotRekey(error.message.replace(/\.$/, ""));
    throw error;
  }
}
