/** How far a resonance lies from a wanted frequency, at a fraction of what finding the resonance costs. */
import type { AirState } from "./airState.js";
import type { Column, Cover } from "./column.js";
import { Grid } from "./grid.js";
import { centsOfReactance, reactanceSlope } from "./reactanceSlope.js";
import { Response } from "./response.js";

export interface OffResonance {
  /** Of the column as it is. */
  readonly here: number;
  readonly of: (variant: Column) => number;
}

/**
 * For variants of a column: cents by which the resonance that lay at `sounding` Hz lies above `target` Hz, from the reactance
 * X at the target alone, −X/(∂X/∂ln f). Exact where it is zero, better the nearer to it: meant for solving for a
 * dimension. Which register it is must be asked of `soundingFrequencies`.
 */
export function offResonance(
  column: Column,
  air: AirState,
  covers: readonly Cover[],
  sounding: number,
  target: number,
): OffResonance {
  const toWaveNumber = (2 * Math.PI) / air.soundSpeed;
  // One point, moved from each variant to the next: what they share is not worked out again.
  const grid = new Grid();
  const present = new Response(column, air, undefined, undefined, grid);
  const states = present.states(covers);
  const slope = reactanceSlope((hertz) => present.at(hertz * toWaveNumber, states).reactance, sounding);
  const atTarget = (response: Response) =>
    centsOfReactance(response.onGrid(0, target * toWaveNumber, response.states(covers)).reactance, slope);
  return {
    here: atTarget(present),
    of: (variant) => atTarget(new Response(variant, air, undefined, present, grid)),
  };
}
