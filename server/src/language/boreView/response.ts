/** How one fingering answers, for the view's curve. */
import type { Analysis } from "../../design/predict/analysis.js";
import { impedanceCurve, octaveStretch, responseOf } from "../../design/predict/response.js";
import type { ResponseAnswer } from "../../protocol/boreView.js";

/** Of the lowest and the highest note described: below the one and above the other the curve still shows neighbours. */
const BELOW = 0.6;
const ABOVE = 2.5;
/** Where no note is predicted, Hz. */
const USUAL = { from: 200, to: 4000 } as const;
/** Enough that a minimum of quality 50 is some pixels wide. */
const POINTS = 360;

export function responseAnswer(analysis: Analysis, row: number): ResponseAnswer {
  const known = analysis.fingerings.flatMap(({ predictedHz }) => predictedHz ?? []);
  const from = known.length === 0 ? USUAL.from : BELOW * Math.min(...known);
  const to = known.length === 0 ? USUAL.to : ABOVE * Math.max(...known);
  const own = responseOf(analysis, row);
  const cutOffs = own?.cutOffs.map(({ frequency }) => frequency) ?? [];
  const curve = impedanceCurve(analysis, row, { from, to, points: POINTS });
  return {
    row,
    curve: curve.map(({ frequency, decibels }) => [Number(frequency.toFixed(1)), Number(decibels.toFixed(2))] as const),
    strength: own?.strength,
    quality: own?.quality,
    cutOffHz: cutOffs.length === 0 ? undefined : Math.min(...cutOffs),
    stretch: octaveStretch(analysis, row),
  };
}
