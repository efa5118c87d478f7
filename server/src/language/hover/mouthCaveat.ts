/** What a prediction with a modelled mouth cannot know: said for the instrument and its mouth; notes have their ± instead. */

import type { Analysis } from "../../design/predict/analysis.js";
import { mouthOf } from "../../design/predict/mouthKnob.js";
import { t } from "../../words/translation.js";
import { bodyWords } from "../bodyWords.js";

/**
 * How far lip and breath move a flute's pitch: some tens of cents (common practice, no source). A measured mouth has that
 * behind it, and the textbook's ideal end models no player.
 */
export function mouthCaveat({ instrument }: Analysis): string[] {
  const kind = mouthOf(instrument.body)?.kind;
  if (kind === undefined || kind === "ideal") return [];
  if (instrument.calibrated) return [t`_Calibrated: the mouth is a measured one (\`mouth.${named(kind)}\`)._`];
  const bent = bodyWords(instrument.body).bentBy();
  const how =
    instrument.measured.length > 0
      ? t("Calibrate it to the `measured` notes by the light bulb there.")
      : t("Measure some notes on a print, list them under `measured`, and calibrate.");
  return [
    t`_The mouth is a model: lip and breath can shift every note together by ${bent}. Relative to each other the notes are surer. ${how}_`,
  ];
}

function named(kind: "correction" | "window" | "embouchure" | "notch" | "rim"): string {
  return kind === "correction" ? "correction" : "extra";
}
