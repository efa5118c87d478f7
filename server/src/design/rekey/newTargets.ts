/** A rewritten design read and analysed like any other, and what its new targets ask for. */
import type { DesignDocument, DesignFile, Syntax } from "../../document/designFile.js";
import { readDesign } from "../../document/read.js";
import { frequencyOf } from "../../music/tuning.js";
import { t } from "../../words/translation.js";
import { type AnalyseOptions, analyse } from "../predict/analyse.js";
import type { Analysis } from "../predict/analysis.js";
import type { AnalysisSettings } from "../settings.js";
import { CannotRekey } from "./rekeyResult.js";

export function reanalyse(
  file: DesignFile,
  text: string,
  index: number,
  settings: AnalysisSettings,
  options: AnalyseOptions,
): Analysis {
  const { document } = documentIn(text, file.syntax, index);
  return analyse(document.resolution.instrument, settings, options);
}

/** The instrument `index` of a rewritten text. @throws CannotRekey */
export function documentIn(
  text: string,
  syntax: Syntax,
  index: number,
): { readonly file: DesignFile; readonly document: DesignDocument } {
  const file = readDesign(text, syntax);
  const document = file.documents[index];
  if (document === undefined) throw new CannotRekey(t("the rewritten design could not be read"));
  return { file, document };
}

/** Old target frequencies over new ones: the same for every fingering but for the temperament. Geometric mean. */
export function targetRatio(before: Analysis, after: Analysis): number {
  const logs = before.fingerings.flatMap(({ targetHz }, i) => {
    const newHz = after.fingerings[i]?.targetHz;
    return targetHz === undefined || newHz === undefined ? [] : Math.log(targetHz / newHz);
  });
  if (logs.length === 0) {
    const { key: from, tuning } = before.instrument;
    const { key: to, tuning: newTuning } = after.instrument;
    return from === undefined || to === undefined ? 1 : frequencyOf(from, tuning) / frequencyOf(to, newTuning);
  }
  return Math.exp(logs.reduce((sum, log) => sum + log, 0) / logs.length);
}
