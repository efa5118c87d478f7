/** The breath of the notes, as far as the editor waits for it. */
import type { Steps } from "../acoustics/steps.js";
import { Budget, within } from "../acoustics/work.js";
import type { Analysis } from "../design/predict/analysis.js";
import { type Breath, breathSteps } from "../design/predict/breath.js";
import { ANSWER_WORK } from "./bandsInTime.js";

/** Analyses whose breath would take longer; the next hover does not try again. */
const tooLong = new WeakSet<Analysis>();

/** Undefined where nothing can be said, or not in time. */
export function* breathInTime(analysis: Analysis): Steps<Breath | undefined> {
  if (tooLong.has(analysis)) return undefined;
  const breath = yield* within(new Budget(ANSWER_WORK), wrapped(analysis));
  if (breath === undefined) tooLong.add(analysis);
  return breath?.breath;
}

/** "Nothing to say" is an answer, too. */
function* wrapped(analysis: Analysis): Steps<{ readonly breath: Breath | undefined }> {
  return { breath: yield* breathSteps(analysis) };
}
