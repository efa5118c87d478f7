/** How the notes of a vessel follow every dimension. */
import type { AirState } from "./airState.js";
import type { Query, Sounding } from "./resonance.js";
import { turnedEitherWay } from "./sensitivity.js";
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
  const here = new Resonator(vessel, air);
  const perturbed = knobs.map(({ change, step }) =>
    turnedEitherWay(change, step, (changed) => new Resonator(changed.vessel, changed.air)),
  );
  return queries.map(({ covers }, i) => {
    const sounding = soundings[i];
    if (sounding === undefined) return [];
    const base = here.nearby(covers, sounding, air.soundSpeed);
    return perturbed.map((knob) => {
      if (knob === undefined) return Number.NaN;
      const { air: own } = knob.made;
      // The steps start at the same wave number in both airs.
      const start = { ...sounding, frequency: (sounding.frequency * own.soundSpeed) / air.soundSpeed };
      return (Math.log(knob.made.nearby(covers, start, own.soundSpeed) / base) * CENTS_PER_LOG) / knob.step;
    });
  });
}
