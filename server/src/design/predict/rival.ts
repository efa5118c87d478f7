/** Whether another resonance of the same register may be the one that sounds. */
import { centsAbove } from "../../music/cents.js";
import type { FingeringPrediction } from "./analysis.js";

/**
 * A resonance of up to this many times the resistance left may sound instead: the jet needs twice the gain there (6 dB), which lies
 * within what a player's breath and lips make up for. Our own limit.
 */
const GREATEST_RATIO = 2;

export interface Rival {
  /** Hz. */
  readonly frequency: number;
  /** Above what is predicted; negative is below. */
  readonly cents: number;
  /** It would be the predicted one if it certainly belonged to the same register. */
  readonly isStronger: boolean;
}

/** Undefined where no other comes near in strength. */
export function rivalOf({ resonance }: Pick<FingeringPrediction, "resonance">): Rival | undefined {
  const rival = resonance?.rival;
  if (resonance === undefined || rival === undefined || rival.resistance > GREATEST_RATIO * resonance.resistance)
    return undefined;
  const { frequency, resistance } = rival;
  return {
    frequency,
    cents: centsAbove(frequency, resonance.frequency),
    isStronger: resistance < resonance.resistance,
  };
}
