/** How the notes of a vessel follow every dimension. */
import type { AirState } from "./airState.js";
import type { Query, Sounding } from "./resonance.js";
import { perturbedEitherWay } from "./sensitivity.js";
import { drained, type Steps } from "./steps.js";
import { Resonator } from "./vessel.js";
import type { Vessel } from "./vesselShape.js";
import type { Pole } from "./vesselSystem.js";

/** As `Knob` in sensitivity.ts, of a vessel. */
export interface VesselKnob {
  readonly change: (step: number) => { readonly vessel: Vessel; readonly air: AirState } | undefined;
  readonly step: number;
}

const CENTS_PER_LOG = 1200 / Math.LN2;

/**
 * Cents by which each note rises for one unit more of each knob's quantity, `[query][knob]`, NaN where a dimension can be perturbed neither way; rows
 * of notes without a sounding are empty. By implicit differentiation: the residual that the change makes at the known resonance, over the equations' slope.
 */
export function vesselSensitivities(
  vessel: Vessel,
  air: AirState,
  queries: readonly Query[],
  soundings: readonly (Sounding | undefined)[],
  knobs: readonly VesselKnob[],
): readonly (readonly number[])[] {
  return drained(vesselSensitivitySteps(vessel, air, queries, soundings, knobs));
}

/** As `vesselSensitivities`, step by step: cents for one unit of each knob. */
export function* vesselSensitivitySteps(
  vessel: Vessel,
  air: AirState,
  queries: readonly Query[],
  soundings: readonly (Sounding | undefined)[],
  knobs: readonly VesselKnob[],
): Steps<readonly (readonly number[])[]> {
  const here = new Resonator(vessel, air);
  const known: (KnownNote | undefined)[] = [];
  for (const [i, { covers }] of queries.entries()) {
    yield undefined;
    const sounding = soundings[i];
    known.push(sounding && { covers, pole: here.pole(covers, sounding) });
  }
  const rows: number[][] = queries.map(() => []);
  for (const { change, step } of knobs) {
    yield undefined;
    const perturbed = perturbedEitherWay(change, step, (changed) => new Resonator(changed.vessel, changed.air, here));
    for (const [i, note] of known.entries()) {
      if (note === undefined) continue;
      yield undefined;
      rows[i]?.push(perturbed === undefined ? Number.NaN : risenBy(perturbed, note, air));
    }
  }
  return rows;
}

interface KnownNote {
  readonly covers: Query["covers"];
  readonly pole: Pole;
}

/** Cents for one unit more. */
function risenBy(
  { made, step }: { readonly made: Resonator; readonly step: number },
  { covers, pole }: KnownNote,
  air: AirState,
): number {
  // The resonance is sought at the same wave number in both airs.
  const ratio = (made.displaced(covers, pole) * made.air.soundSpeed) / (pole.re * air.soundSpeed);
  return (Math.log(ratio) * CENTS_PER_LOG) / step;
}
