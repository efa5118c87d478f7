/** What a prediction with a modelled mouth cannot know, said under every such prediction. */
import type { Analysis } from "../../design/analysis.js";

/**
 * How far lip and breath move a flute's pitch: some tens of cents (common practice, no source). A measured correction or
 * the textbook's ideal end models no player, so that nothing needs saying there.
 */
export function mouthCaveat(analysis: Analysis): string[] {
  const kind = analysis.instrument.column?.mouth.kind;
  if (kind === undefined || kind === "ideal" || kind === "correction") return [];
  return [
    "_The mouth is a model: lip and breath can shift every note together by tens of cents. How the notes stand to each " +
      "other is surer. Measure one note on a print and set `mouth.correction` to calibrate._",
  ];
}
