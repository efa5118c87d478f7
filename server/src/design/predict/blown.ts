/** One fingering, ready to be blown, and how much of the breath in the mouth reaches the jet. */
import type { AirState } from "../../acoustics/airState.js";
import { zeroBetween } from "../../acoustics/bracket.js";
import { type Jet, jetSpeed, type Resonance } from "../../acoustics/jet/jet.js";
import { frictionIn } from "../../acoustics/jet/windway.js";
import type { Blowing } from "./voicing.js";

export interface Blown {
  readonly blowing: Blowing;
  readonly jet: Jet;
  readonly own: Resonance;
}

/** Breath in the mouth, Pa, of which the jet has `pressure`. */
export function inMouth({ blowing: { windway }, jet }: Blown, pressure: number, air: AirState): number {
  return pressure + (windway ? frictionIn(windway, jetSpeed(jet, pressure), air) : 0);
}

/** Pressure at the jet for a breath in the mouth, Pa. */
export function pastWindway(blown: Blown, breath: number, air: AirState): number {
  const excess = (pressure: number) => inMouth(blown, pressure, air) - breath;
  const most = excess(breath);
  return most > 0 ? zeroBetween(excess, [0, -breath], [breath, most], TOLERANCE) : breath;
}
const TOLERANCE = 1e-6;
