/** How wide a hole of a vessel must be to correct one note: its place hardly matters, and it is only resized. */

import type { Column } from "../../acoustics/column.js";
import { soundingSteps } from "../../acoustics/resonance.js";
import type { Steps } from "../../acoustics/steps.js";
import { vesselSoundingSteps } from "../../acoustics/vessel.js";
import type { Vessel } from "../../acoustics/vesselShape.js";
import { roundShape } from "../../instrument/body.js";
import { centsAbove } from "../../music/cents.js";
import type { Analysis } from "../predict/analysis.js";
import type { HoleChange } from "./change.js";
import { secantSteps } from "./solve.js";

/** Cents; first trial step, m. */
const CLOSE_ENOUGH = 0.05;
const TRIAL_STEP = 0.25e-3;
/** Range in which a radius is searched for, as shares of the narrowest half-axis. The constraints decide what is allowed, and name the limit that forbids it. */
const SOUGHT_SHARES = [0.005, 0.95] as const;

/** The sizes of hole `hole` of a vessel that put fingering `index` right, whether the design allows it or not: one or none. */
export function* vesselHoleChangeSteps(analysis: Analysis, hole: number, index: number): Steps<readonly HoleChange[]> {
  const shape = roundShape(analysis.instrument.body);
  const old = shape?.holes[hole];
  if (shape === undefined || old === undefined) return [];
  const cents = centsOf(analysis, index);
  const columnWith = (radius: number) => ({
    vessel: { ...shape, holes: shape.holes.map((own, i) => (i === hole ? { ...own, radius } : own)) },
  });
  const narrowest = Math.min(...shape.semiAxes);
  const radius = yield* secantSteps((value) => cents(columnWith(value)), old.radius, old.radius + TRIAL_STEP, {
    least: SOUGHT_SHARES[0] * narrowest,
    greatest: SOUGHT_SHARES[1] * narrowest,
    tolerance: CLOSE_ENOUGH,
  });
  if (radius === undefined) return [];
  return [{ kind: "resize", hole, fingering: index, value: 2 * radius, change: 2 * (radius - old.radius) }];
}

/** Cents of one fingering over its target in a changed body; undefined where it does not sound. */
export function centsOf({ air, fingerings }: Analysis, index: number) {
  const { fingering, targetHz } = fingerings[index] ?? {};
  const { covers, register } = fingering ?? {};
  return function* (
    changed: { readonly vessel?: Vessel; readonly column?: Column } | undefined,
  ): Steps<number | undefined> {
    if (covers === undefined || register === undefined || targetHz === undefined || changed === undefined)
      return undefined;
    const query = { covers, register };
    const [sounding] =
      changed.vessel !== undefined
        ? yield* vesselSoundingSteps(changed.vessel, air, [query])
        : changed.column !== undefined
          ? yield* soundingSteps(changed.column, air, [query])
          : [];
    return sounding && centsAbove(sounding.frequency, targetHz);
  };
}
