/** Resonances followed from where they lay before a small change of the column, at a tenth of what a scan costs. */
import type { AirState } from "./airState.js";
import { Cancelled } from "./cancelled.js";
import type { Column } from "./column.js";
import { isHeld, isResonance } from "./excitation.js";
import type { PortStates } from "./portStates.js";
import type { Options, Query } from "./resonance.js";
import { Response } from "./response.js";

/** First step toward the zero, as a share of the frequency: a sixth of a cent, beside which a small change of the column shows. */
const FIRST_STEP = 1e-4;
/** A resonance is not followed farther, as a share of the frequency: two thirds of a semitone, a fraction of a register. */
const FARTHEST = 0.04;
/**
 * Product of the last two relative steps below which a secant's error, their product times the reactance's curvature (some ten), is
 * no more than 2e-4 cents.
 */
const LAST_STEPS = 1e-8;
const MOST_STEPS = 12;

/**
 * Frequency, Hz, of the resonance of each query that lay near `near` before, one for each query; undefined where one of them
 * cannot be followed surely. It does not say which register it is now: ask `soundingFrequencies` before relying on it.
 * Throws as `soundingFrequencies` does.
 */
export function followedFrequencies(
  column: Column,
  air: AirState,
  queries: readonly Query[],
  near: readonly number[],
  { shouldStop, grid }: Options = {},
): readonly number[] | undefined {
  const response = new Response(column, air, undefined, undefined, grid);
  const toHertz = air.soundSpeed / (2 * Math.PI);
  const found: number[] = [];
  for (const [i, { covers }] of queries.entries()) {
    if (shouldStop?.()) throw new Cancelled();
    const k = followed(response, response.states(covers), (near[i] ?? Number.NaN) / toHertz);
    if (k === undefined) return undefined;
    found.push(k * toHertz);
  }
  return found;
}

/** By secants, only where the jet holds it and no farther than `FARTHEST`. */
function followed(response: Response, states: PortStates, start: number): number | undefined {
  let before = response.at(start, states);
  let here = response.at(start * (before.reactance < 0 ? 1 + FIRST_STEP : 1 - FIRST_STEP), states);
  for (let step = 0; step < MOST_STEPS; step++) {
    const slope = (here.reactance - before.reactance) / (here.k - before.k);
    const next = here.k - here.reactance / slope;
    if (!(isHeld(slope) && Math.abs(next / start - 1) < FARTHEST)) return undefined;
    if (Math.abs((next / here.k - 1) * (here.k / before.k - 1)) < LAST_STEPS)
      return isResonance(here.resistance) ? next : undefined;
    before = here;
    here = response.at(next, states);
  }
  return undefined;
}
