/**
 * Rounds solved dimensions to what can be drawn, so that the roundings cancel in the notes rather than add up: each in turn
 * takes the neighbouring step that lowers the sum of squares, by the notes' slopes, until none does.
 */
import type { Tuner } from "./tuner.js";

/** Rounds over all dimensions at most; in practice three or four settle it. */
const MOST_ROUNDS = 12;

/**
 * @param x millimetres, by unknown
 * @param steps the drawing's step for each, mm; a dimension is a whole number of steps
 * @param holds whether a point keeps every limit
 */
export function roundTogether(
  tuner: Tuner,
  x: readonly number[],
  steps: readonly { readonly step: number; readonly offset: number }[],
  holds: (x: readonly number[]) => boolean,
): readonly number[] {
  const rounded = x.map((value, i) => {
    const { step, offset } = steps[i] as { step: number; offset: number };
    return Math.round((value + offset) / step) * step - offset;
  });
  const here = tuner.at(rounded);
  if (here === undefined) return rounded;
  const slopes = tuner.slopes(here);
  const cents = [...here.cents];
  const cost = (unknown: number, change: number) =>
    cents.reduce((sum, value, note) => sum + (value + change * (slopes[note]?.[unknown] ?? 0)) ** 2, 0);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    let moved = false;
    for (let i = 0; i < rounded.length; i++) {
      const step = steps[i]?.step ?? 0;
      const present = cost(i, 0);
      const [better] = [-step, step]
        .filter((change) => holds(rounded.map((value, j) => (j === i ? value + change : value))))
        .sort((a, b) => cost(i, a) - cost(i, b));
      if (better === undefined || cost(i, better) >= present * (1 - LEAST_GAIN)) continue;
      rounded[i] = (rounded[i] ?? 0) + better;
      cents.forEach((value, note) => {
        cents[note] = value + better * (slopes[note]?.[i] ?? 0);
      });
      moved = true;
    }
    if (!moved) break;
  }
  return rounded;
}

/** Relative gain below which a step is not worth taking. */
const LEAST_GAIN = 1e-3;
