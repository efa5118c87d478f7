/** How far off a vessel's notes may be because its cavity does not have the assumed shape. */

import type { AirState } from "../../acoustics/airState.js";
import type { Steps } from "../../acoustics/steps.js";
import { vesselSoundings } from "../../acoustics/vessel.js";
import type { Vessel } from "../../acoustics/vesselShape.js";
import { type Body, roundChamber } from "../../instrument/body.js";
import { centsAbove } from "../../music/cents.js";
import type { Analysis } from "./analysis.js";
import { orNone } from "./orNone.js";

/** Length over width of the ellipsoid that stands for what a lone volume may be: about as flat as a tube twice as long as wide, blown at its end. */
const LONGEST = 3;
/** Cents of a box beside the ellipsoid of its volume and proportions. Common practice, no source. */
const BOX = 10;

/**
 * For a lone volume, how each note would sound on a long body blown at its end, relative to the sphere: shorter bodies lie between. To be applied
 * both ways, step by step. Undefined of notes without prediction, and where the shape is known.
 */
export function* otherShapeSteps(
  body: Body,
  air: AirState,
  fingerings: Analysis["fingerings"],
): Steps<readonly (number | undefined)[]> {
  const chamber = roundChamber(body);
  if (chamber?.standIn === undefined) return fingerings.map(() => undefined);
  if (chamber.standIn === "box") return fingerings.map(({ predictedHz }) => predictedHz && BOX);
  const long = elongated(chamber.shape);
  const found: (number | undefined)[] = [];
  for (const { fingering, predictedHz } of fingerings) {
    yield undefined;
    const { covers, register } = fingering;
    const other = covers && orNone(() => vesselSoundings(long, air, [{ covers, register }]))?.[0];
    found.push(predictedHz && other && centsAbove(other.frequency, predictedHz));
  }
  return found;
}

function elongated(vessel: Vessel): Vessel {
  const [a, b, c] = vessel.semiAxes;
  const across = Math.cbrt((a * b * c) / LONGEST);
  return { ...vessel, semiAxes: [LONGEST * across, across, across] };
}
