/** Changes of holes in words, the same in messages and in the titles of fixes. */
import type { Analysis } from "./analysis.js";
import type { HoleChange } from "./holeChange.js";
import { drawnLength } from "./wording.js";

/** `move L2 2.4 mm toward the mouth`, `open L2 to 8.6 mm`: the words of message and fix alike. */
export function remedyInWords(analysis: Analysis, change: HoleChange): string {
  const name = holeName(analysis, change.hole);
  if (change.kind === "move") {
    const way = change.change < 0 ? "toward the mouth" : "toward the foot";
    return `move ${name} ${drawnLength(Math.abs(change.change), analysis.instrument)} ${way}`;
  }
  const drawn = change.value + analysis.instrument.holeUndersize;
  return `${change.change < 0 ? "narrow" : "open"} ${name} to ${drawnLength(drawn, analysis.instrument)}`;
}

export function holeName(analysis: Analysis, hole: number): string {
  return analysis.instrument.holes[hole]?.name ?? `hole ${hole + 1}`;
}
