/** How sure predictions are, as far as the editor waits for it. */
import type { Steps } from "../acoustics/steps.js";
import { Budget, within } from "../acoustics/work.js";
import type { Analysis } from "../design/predict/analysis.js";
import { type Band, bandSteps } from "../design/predict/band.js";
import type { DesignDocument } from "../document/designFile.js";

/** Work that one answer may take beside the prediction, microseconds (`acoustics/work.ts`): a hover must not take longer. */
export const ANSWER_WORK = 2_000_000;

/** Analyses whose bands would take longer; the next hover does not try again. */
const tooLong = new WeakSet<Analysis>();

/** Bands of every fingering; undefined where they would take too long. */
export function* bandsInTime(
  { resolution }: DesignDocument,
  analysis: Analysis,
): Steps<readonly (Band | undefined)[] | undefined> {
  if (tooLong.has(analysis)) return undefined;
  const bands = yield* within(new Budget(ANSWER_WORK), bandSteps(resolution, analysis));
  if (bands === undefined) tooLong.add(analysis);
  return bands;
}
