/** How far a resonance lies from a wanted frequency, at a fraction of what finding the resonance costs. */
import type { AirState } from "./airState.js";
import type { Column, Cover } from "./column.js";
import { WaveCache } from "./losses.js";
import { centsOfReactance, reactanceSlope } from "./reactanceSlope.js";
import { Response } from "./response.js";

/**
 * For variants of a column: cents by which the resonance that lay at `sounding` Hz lies above `target` Hz, from the reactance
 * X at the target alone, −X/(∂X/∂ln f). Exact where it is nought, the nearer the better elsewhere: meant for solving for a
 * dimension. Which register it is must be asked of `soundingFrequencies`.
 */
export function offResonance(
  column: Column,
  air: AirState,
  covers: readonly Cover[],
  sounding: number,
  target: number,
): (variant: Column) => number {
  const cache = new WaveCache();
  const reactance = (response: Response, frequency: number) =>
    response.at((2 * Math.PI * frequency) / air.soundSpeed, response.states(covers)).reactance;
  const here = new Response(column, air);
  const slope = reactanceSlope((frequency) => reactance(here, frequency), sounding);
  // So that variants take over at the target what they share.
  reactance(here, target);
  return (variant) => centsOfReactance(reactance(new Response(variant, air, cache, here), target), slope);
}
