/** What a fingering should sound as drawn. */
import type { Fingering, Instrument } from "../../instrument/model.js";
import { ratioOfCents } from "../../music/cents.js";
import { frequencyOf, type NearestNote, nearestNote } from "../../music/tuning.js";
import { isVentedOctave } from "./governing.js";

/**
 * Hz; undefined where the fingering has no readable note. Lower than its note by what the design leaves for the bench (`bench`) and by
 * what the player's breath adds (`breath`), because predictions assume an even breath. Predictions, findings and refits all use this target.
 */
export function targetHzOf(
  fingering: Fingering,
  instrument: Pick<Instrument, "tuning" | "drawnFlat">,
): number | undefined {
  const { target } = fingering;
  return target && frequencyOf(target, instrument.tuning) / loweringOf(fingering, instrument);
}

/** The note that a prediction, Hz, comes nearest to once the player's breath and the work on the bench are added. */
export function nearestHeard(
  predictedHz: number,
  fingering: Fingering,
  instrument: Pick<Instrument, "tuning" | "drawnFlat">,
): NearestNote | undefined {
  return nearestNote(predictedHz * loweringOf(fingering, instrument), instrument.tuning);
}

/** Whether no hole shortens the sounding column. */
export function isOfWholeLength({ covers, register }: Pick<Fingering, "covers" | "register">): boolean {
  return covers === undefined || covers.every((cover) => cover === 1) || isVentedOctave(covers, register);
}

/** How many times lower a fingering is meant to sound by prediction than in the end. */
function loweringOf(fingering: Fingering, { drawnFlat }: Pick<Instrument, "drawnFlat">): number {
  return ratioOfCents((isOfWholeLength(fingering) ? drawnFlat.length : drawnFlat.holes) + fingering.breath);
}
