/** How every note follows every dimension: the reactance at the jet differentiated at the note's own frequency. */
import type { AirState } from "./airState.js";
import type { Column } from "./column.js";
import type { Query } from "./resonance.js";
import { Response } from "./response.js";

/** One quantity that may change: the column and air with it changed by `step` (of the quantity's own unit). */
export interface Knob {
  readonly change: (step: number) => { readonly column: Column; readonly air: AirState };
  /** A step small against everything that matters, in the quantity's own unit. */
  readonly step: number;
}

/** A tenth of a micrometre: four digits below anything that can be made, six above rounding. */
export const LENGTH_STEP = 1e-7;
/** Relative step of frequency for the slope of the reactance. */
const FREQUENCY_STEP = 1e-6;
const CENTS_PER_LOG = 1200 / Math.LN2;

/**
 * Cents by which each note rises for one unit more of each knob's quantity, `[query][knob]`; rows of notes without a frequency
 * are empty. By implicit differentiation: where the reactance X(f, p) vanishes, df/dp = −(∂X/∂p)/(∂X/∂f), both by central
 * differences at the note's frequency, so that no resonance is sought again.
 */
export function sensitivities(
  column: Column,
  air: AirState,
  queries: readonly Query[],
  frequencies: readonly (number | undefined)[],
  knobs: readonly Knob[],
): readonly (readonly number[])[] {
  const reactances = (changed: { column: Column; air: AirState }, factor = 1): (number | undefined)[] => {
    const response = new Response(changed.column, changed.air);
    return queries.map(({ covers }, i) => {
      const frequency = frequencies[i];
      if (frequency === undefined) return undefined;
      const k = (2 * Math.PI * frequency * factor) / changed.air.soundSpeed;
      return response.at(k, response.states(covers)).reactance;
    });
  };
  const here = { column, air };
  const above = reactances(here, 1 + FREQUENCY_STEP);
  const below = reactances(here, 1 - FREQUENCY_STEP);
  // ∂X over a relative change of frequency.
  const slopes = above.map((x, i) => ((x ?? Number.NaN) - (below[i] ?? Number.NaN)) / (2 * FREQUENCY_STEP));
  const columns = knobs.map(({ change, step }) => {
    const more = reactances(change(step));
    const less = reactances(change(-step));
    return slopes.map((slope, i) => {
      const difference = ((more[i] ?? Number.NaN) - (less[i] ?? Number.NaN)) / (2 * step);
      return (-difference / slope) * CENTS_PER_LOG;
    });
  });
  return queries.map((_, i) => (frequencies[i] === undefined ? [] : columns.map((cents) => cents[i] ?? Number.NaN)));
}
