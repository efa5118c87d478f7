/** What a fingering should sound as drawn. */
import type { Fingering, Instrument } from "../../instrument/model.js";
import { ratioOfCents } from "../../music/cents.js";
import { frequencyOf } from "../../music/tuning.js";

/**
 * Hz; undefined where the fingering has no readable note. Lower than its note by what the design leaves for the bench (`bench`) and by
 * what the player's breath adds (`breath`), as predictions are of an even breath: so that predictions, findings and refits of what is drawn and printed all go by it.
 */
export function targetHzOf(
  { target, covers, breath }: Fingering,
  { tuning, drawnFlat }: Pick<Instrument, "tuning" | "drawnFlat">,
): number | undefined {
  if (target === undefined) return undefined;
  const hasOpenHole = covers?.some((cover) => cover < 1) ?? false;
  return frequencyOf(target, tuning) * ratioOfCents(-(hasOpenHole ? drawnFlat.holes : drawnFlat.length) - breath);
}
