/** An analysis without the notes that a refit leaves aside. */
import { summarise } from "../predict/analyse.js";
import type { Analysis } from "../predict/analysis.js";

/** @param left indices of fingerings; those of the others are no longer the design's */
export function restOf(analysis: Analysis, left: ReadonlySet<number> | readonly number[]): Analysis {
  const aside = new Set(left);
  if (aside.size === 0) return analysis;
  const fingerings = analysis.fingerings.filter((_, index) => !aside.has(index));
  return { ...analysis, fingerings, summary: summarise(fingerings, analysis.tolerance) };
}
