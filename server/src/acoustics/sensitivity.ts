/** How every note follows every dimension: the reactance at the jet differentiated at the note's own frequency. */
import { Adjoint } from "./adjoint.js";
import type { AirState } from "./airState.js";
import { Cancelled } from "./cancelled.js";
import type { Column } from "./column.js";
import { WaveCache } from "./losses.js";
import { centsOfReactance, reactanceSlope } from "./reactanceSlope.js";
import type { Options, Query } from "./resonance.js";
import { Response } from "./response.js";

/**
 * One quantity that may change: the column and air with it changed by `step` (of the quantity's own unit); undefined where that
 * makes no instrument. Where only one direction does (a station may not pass its neighbour, nor a hole another, a lip not cover less
 * than nothing), the difference is taken on that side.
 */
export interface Knob {
  readonly change: (step: number) => { readonly column: Column; readonly air: AirState } | undefined;
  /** A step small against everything that matters, in the quantity's own unit. */
  readonly step: number;
}

/** A nanometre: the curvature neglected is a millionth of the slope, and rounding less. */
export const LENGTH_STEP = 1e-9;

/**
 * Cents by which each note rises for one unit more of each knob's quantity, `[query][knob]`, NaN where a dimension can be perturbed neither way;
 * rows of notes without a frequency are empty. By implicit differentiation: where the reactance X(f, p) vanishes,
 * df/dp = −(∂X/∂p)/(∂X/∂f), both by differences at the note's frequency, so that no resonance is sought again.
 * @throws Cancelled when told to stop
 */
export function sensitivities(
  column: Column,
  air: AirState,
  queries: readonly Query[],
  frequencies: readonly (number | undefined)[],
  knobs: readonly Knob[],
  { shouldStop }: Options = {},
): readonly (readonly number[])[] {
  // Columns that differ in one dimension share nearly all their wall losses at one frequency.
  const cache = new WaveCache();
  const here = new Response(column, air, cache);
  const adjoint = new Adjoint(here);
  const perturbed = knobs.map(({ change, step }) =>
    turnedEitherWay(change, step, (changed) => {
      const response = new Response(changed.column, changed.air, cache, here);
      // Of two holes at one place the order decides by a step, however small the change: the slope is taken on the other side.
      if (!sameOrder(response, here)) throw new RangeError("a hole passes another");
      return response;
    }),
  );
  return queries.map(({ covers }, i) => {
    const frequency = frequencies[i];
    if (frequency === undefined) return [];
    if (shouldStop?.()) throw new Cancelled();
    const waveNumber = ({ geometry }: Response, hz = frequency) => (2 * Math.PI * hz) / geometry.air.soundSpeed;
    const states = here.states(covers);
    const reactance = (hz: number) => here.at(waveNumber(here, hz), states).reactance;
    const slope = reactanceSlope(reactance, frequency);
    const base = reactance(frequency);
    adjoint.set(waveNumber(here), states);
    return perturbed.map((knob) => {
      if (knob === undefined) return Number.NaN;
      const { made: response, step } = knob;
      const [k, own] = [waveNumber(response), response.states(covers)];
      const change = adjoint.compares(response)
        ? adjoint.change(response, k, own)
        : response.at(k, own).reactance - base;
      return centsOfReactance(change, slope) / step;
    });
  });
}

function sameOrder({ geometry: { order } }: Response, { geometry }: Response): boolean {
  return order.every((hole, i) => hole === geometry.order[i]);
}

/**
 * What a change by `step` makes, else by `−step`; undefined where neither makes an instrument, or the physics refuses both (a lip that
 * covers less than nothing).
 */
export function turnedEitherWay<C, M>(
  change: (step: number) => C | undefined,
  step: number,
  make: (changed: C) => M,
): { readonly made: M; readonly step: number } | undefined {
  for (const by of [step, -step]) {
    const changed = change(by);
    if (changed === undefined) continue;
    try {
      return { made: make(changed), step: by };
    } catch (error) {
      if (!(error instanceof RangeError)) throw error;
    }
  }
  return undefined;
}
