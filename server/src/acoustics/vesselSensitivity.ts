/** How the notes of a vessel follow every dimension. */
import type { AirState } from "./airState.js";
import type { Query, Sounding } from "./resonance.js";
import { perturbedEitherWay } from "./sensitivity.js";
import { drained, type Steps } from "./steps.js";
import { Resonator } from "./vessel.js";
import type { Vessel } from "./vesselShape.js";

/** As `Knob` in sensitivity.ts, of a vessel. */
export interface VesselKnob {
  readonly change: (step: number) => { readonly vessel: Vessel; readonly air: AirState } | undefined;
  readonly step: number;
}

const CENTS_PER_LOG = 1200 / Math.LN2;

/**
 * Cents by which each note rises for one unit more of each knob's quantity, `[query][knob]`, NaN where a dimension can be perturbed neither way; rows
 * of notes without a sounding are empty. A few Newton steps from the known resonance, with and without the change.
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
    known.push(sounding && { covers, sounding, base: here.nearby(covers, sounding, air.soundSpeed) });
  }
  const rows: number[][] = queries.map(() => []);
  for (const { change, step } of knobs) {
    yield undefined;
    const perturbed = perturbedEitherWay(change, step, (changed) => new Resonator(changed.vessel, changed.air));
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
  readonly sounding: Sounding;
  readonly base: number;
}

/** Cents for one unit more. */
function risenBy(
  { made, step }: { readonly made: Resonator; readonly step: number },
  { covers, sounding, base }: KnownNote,
  air: AirState,
): number {
  const { air: own } = made;
  // The steps start at the same wave number in both airs.
  const start = { ...sounding, frequency: (sounding.frequency * own.soundSpeed) / air.soundSpeed };
  return (Math.log(made.nearby(covers, start, own.soundSpeed) / base) * CENTS_PER_LOG) / step;
}
