/** How every note depends on every dimension: the reactance at the jet differentiated at the note's own frequency. */
import { Adjoint } from "./adjoint.js";
import type { AirState } from "./airState.js";
import { Cancelled } from "./cancelled.js";
import type { Column } from "./column.js";
import { WaveCache } from "./losses.js";
import { centsOfReactance, reactanceSlope } from "./reactanceSlope.js";
import type { Options, Query } from "./resonance.js";
import { Response } from "./response.js";
import { drained, type Steps } from "./steps.js";

/**
 * One quantity that may change: the column and air with it changed by `step` (of the quantity's own unit); undefined where that
 * makes no instrument. Where only one direction is possible (a station may not pass its neighbour, nor a hole another, and a lip's cover may not be negative), the difference is one-sided.
 */
export interface Knob {
  readonly change: (step: number) => { readonly column: Column; readonly air: AirState } | undefined;
  /** A step small compared with everything that matters, in the quantity's own unit. */
  readonly step: number;
}

/** A nanometre: the neglected curvature is a millionth of the slope, and rounding less. */
export const LENGTH_STEP = 1e-9;

/**
 * Cents by which each note rises for one unit more of each knob's quantity, `[query][knob]`, NaN where a dimension can be perturbed neither way;
 * rows of notes without a frequency are empty. By implicit differentiation: where the reactance X(f, p) vanishes,
 * df/dp = −(∂X/∂p)/(∂X/∂f), both by differences at the note's frequency, so that no resonance is searched for again.
 * @throws Cancelled when told to stop
 */
export function sensitivities(
  column: Column,
  air: AirState,
  queries: readonly Query[],
  frequencies: readonly (number | undefined)[],
  knobs: readonly Knob[],
  options: Options = {},
): readonly (readonly number[])[] {
  return drained(sensitivitySteps(column, air, queries, frequencies, knobs, options));
}

/** As `sensitivities`, step by step: cents for one unit of each knob. @param frequencies of the notes, Hz */
export function* sensitivitySteps(
  column: Column,
  air: AirState,
  queries: readonly Query[],
  frequencies: readonly (number | undefined)[],
  knobs: readonly Knob[],
  { shouldStop }: Options = {},
): Steps<readonly (readonly number[])[]> {
  // Columns that differ in one dimension share nearly all their wall losses at one frequency.
  const cache = new WaveCache();
  const here = new Response(column, air, cache);
  const rows: number[][] = queries.map(() => []);
  const atOnce = Math.max(1, Math.floor(MOST_NUMBERS / here.size));
  for (let from = 0; from < knobs.length; from += atOnce) {
    const perturbed: (Perturbed | undefined)[] = [];
    for (const knob of knobs.slice(from, from + atOnce)) {
      yield undefined;
      perturbed.push(perturbedBeside(here, knob, cache));
    }
    const adjoint = new Adjoint(here);
    for (const [i, { covers }] of queries.entries()) {
      const frequency = frequencies[i];
      if (frequency === undefined) continue;
      if (shouldStop?.()) throw new Cancelled();
      yield undefined;
      const states = here.states(covers);
      const reactance = (hz: number) => here.at(waveNumber(here, hz), states).reactance;
      const slope = reactanceSlope(reactance, frequency);
      const base = reactance(frequency);
      yield undefined;
      adjoint.set(waveNumber(here, frequency), states);
      for (const knob of perturbed) {
        yield undefined;
        const change = knob && changeOfReactance(adjoint, knob.made, waveNumber(knob.made, frequency), covers, base);
        rows[i]?.push(knob && change !== undefined ? centsOfReactance(change, slope) / knob.step : Number.NaN);
      }
    }
  }
  return rows;
}

/** As many changed columns are kept at once as take no more memory than this: 16 MiB. */
const MOST_NUMBERS = 2 ** 21;

interface Perturbed {
  readonly made: Response;
  readonly step: number;
}

function perturbedBeside(here: Response, { change, step }: Knob, cache: WaveCache): Perturbed | undefined {
  return perturbedEitherWay(change, step, (changed) => {
    const response = new Response(changed.column, changed.air, cache, here);
    // For two holes at one place their order makes a jump, however small the change: the slope is taken on the other side.
    if (!sameOrder(response, here)) throw new RangeError("a hole passes another");
    return response;
  });
}

function waveNumber({ geometry }: Response, hz: number): number {
  return (2 * Math.PI * hz) / geometry.air.soundSpeed;
}

/** @param base the reactance without the change */
function changeOfReactance(
  adjoint: Adjoint,
  changed: Response,
  k: number,
  covers: Query["covers"],
  base: number,
): number {
  const states = changed.states(covers);
  return adjoint.compares(changed) ? adjoint.change(changed, k, states) : changed.at(k, states).reactance - base;
}

function sameOrder({ geometry: { order } }: Response, { geometry }: Response): boolean {
  return order.every((hole, i) => hole === geometry.order[i]);
}

/**
 * The change by `step` (in the knob's unit), else by `−step`; undefined where neither makes an instrument, or the physics refuses both (a lip
 * whose cover is negative).
 */
export function perturbedEitherWay<C, M>(
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
