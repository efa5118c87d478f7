/** How far the player's breath bends each note: stated, or by the law of a breath that rises through the compass. */
import type { Fingering } from "./model.js";
import type { Numbers } from "./numbers.js";

/**
 * The fingerings with their breath, cents: each one's own, else on the line from `breath.lowest` at the lowest note to `breath.highest`
 * at the highest, in proportion to the pitch; 0 where the design says neither.
 */
export function breathOf(fingerings: readonly Fingering[], numbers: Numbers): readonly Fingering[] {
  const [low, high] = [numbers.at(["breath", "lowest"]) ?? 0, numbers.at(["breath", "highest"]) ?? 0];
  const notes = fingerings.flatMap(({ target }) => target?.midi ?? []);
  const [lowest, highest] = [Math.min(...notes), Math.max(...notes)];
  return fingerings.map((fingering) => {
    const share = fingering.target && highest > lowest ? (fingering.target.midi - lowest) / (highest - lowest) : 0;
    return { ...fingering, breath: numbers.at([...fingering.path, "breath"]) ?? low + share * (high - low) };
  });
}
