/** How one fingering answers, for the view's curve. */
import type { Steps } from "../../acoustics/steps.js";
import type { Analysis } from "../../design/predict/analysis.js";
import { noteBreathText } from "../../design/predict/breathWording.js";
import { curveSteps, octaveStretchSteps, responseOf } from "../../design/predict/response.js";
import { containedSteps } from "../../instrument/contained.js";
import type { ResponseAnswer } from "../../protocol/boreView.js";
import { t } from "../../words/translation.js";
import { breathInTime } from "../breathInTime.js";
import { fingeringName } from "../words.js";

/** Of the lowest and the highest note described: below the one and above the other the curve still shows neighbours. */
const BELOW = 0.6;
const ABOVE = 2.5;
/** Where no note is predicted, Hz. */
const USUAL = { from: 200, to: 4000 } as const;
/** Enough that a minimum of quality 50 is some pixels wide. */
const POINTS = 360;

/** Step by step. */
export function* responseAnswerSteps(analysis: Analysis, row: number): Steps<ResponseAnswer> {
  const known = analysis.fingerings.flatMap(({ predictedHz }) => predictedHz ?? []);
  const from = known.length === 0 ? USUAL.from : BELOW * Math.min(...known);
  const to = known.length === 0 ? USUAL.to : ABOVE * Math.max(...known);
  const own = responseOf(analysis, row);
  const cutOffs = own?.cutOffs.map(({ frequency }) => frequency) ?? [];
  const curve = yield* curveSteps(analysis, row, { from, to, points: POINTS });
  return {
    row,
    curve: curve.map(({ frequency, decibels }) => [Number(frequency.toFixed(1)), Number(decibels.toFixed(2))] as const),
    strength: own?.strength,
    quality: own?.quality,
    cutOffHz: cutOffs.length === 0 ? undefined : Math.min(...cutOffs),
    stretch: yield* octaveStretchSteps(analysis, row),
    breath: yield* containedSteps("The breath in the bore view", () => breathOf(analysis, row), undefined),
  };
}

function* breathOf(analysis: Analysis, row: number): Steps<string | undefined> {
  const breath = yield* breathInTime(analysis);
  const lowest = breath && analysis.fingerings[breath.lowest];
  const text = lowest && noteBreathText(breath, row, fingeringName(lowest.fingering, breath.lowest));
  return text && t`breath, estimated: ${text}`;
}
