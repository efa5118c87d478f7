/** What the bumps of a hole's whole wall leave unsure, from its openings at several levels. */
import { median } from "../../sound/median.js";
import { type Opening, residualsOf } from "./opening.js";
import { type Unsure, unsureOf } from "./roughness.js";
import { mean } from "./statistics.js";

/** A difference of this many standard deviations is real. */
export const SIGNIFICANT = 3.5;

/** Two axes that differ by less, mm or as a share, are one diameter. */
const ROUND = { mm: 0.05, share: 0.008 };

/** Whether an ellipse's two axes are equal within their uncertainty. */
export function isRound(length: number, width: number, diameter: number, scatter: number, { wave }: Unsure): boolean {
  // A wave of 1 lengthens one axis by 2 and shortens the other as much.
  const least = Math.max(ROUND.mm, ROUND.share * diameter, 4 * scatter, SIGNIFICANT * 4 * wave);
  return Math.abs(length - width) < least;
}

/** Of the mean over all levels. */
export function unsureMean(levels: readonly Opening[]): Unsure {
  const weight = 1 / levels.length;
  return unsureOf(
    weighted(
      levels,
      levels.map(() => weight),
    ),
  );
}

/** Of the change for each millimetre of height, by least squares. */
export function unsureSlope(levels: readonly Opening[], heights: readonly number[]): Unsure {
  const middle = mean(heights);
  const spread = heights.reduce((sum, each) => sum + (each - middle) ** 2, 0);
  return unsureOf(
    weighted(
      levels,
      heights.map((each) => (each - middle) / spread),
    ),
  );
}

/** Of a usual level by itself. */
export function unsureLevel(levels: readonly Opening[]): Unsure {
  const each = levels.map((level) => unsureOf(residualsOf(level)));
  return { radius: median(each.map(({ radius }) => radius)), wave: median(each.map(({ wave }) => wave)) };
}

function weighted(levels: readonly Opening[], weights: readonly number[]): Float64Array {
  const all = levels.map(residualsOf);
  const sum = new Float64Array(all[0]?.length ?? 0);
  for (const [i, residuals] of all.entries())
    for (let k = 0; k < sum.length; k++)
      sum[k] = (sum[k] as number) + (weights[i] as number) * (residuals[k] as number);
  return sum;
}
