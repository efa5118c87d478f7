/** Before the building: what cannot be made, from the numbers alone, at the place to change. */

import type { Outline } from "../../design/outline/outline.js";
import type { Draft } from "../../instrument/draft.js";
import type { Finding } from "../../instrument/finding.js";
import { checkTubeHoles } from "./preflight/holes.js";
import { checkJoints } from "./preflight/joints.js";
import { checkMouth } from "./preflight/mouth.js";
import { checkOutside } from "./preflight/outside.js";
import { Refusals } from "./preflight/refusals.js";
import { checkVessel } from "./preflight/vessel.js";

export function preflight(outline: Outline | undefined, leastWall: number, draft: Draft): readonly Finding[] {
  const refusals = new Refusals(draft, leastWall);
  if (outline === undefined) {
    refusals.say(
      "solid/not-described",
      [],
      "The design does not say enough of its body yet to be made: see its findings.",
    );
    return refusals.list;
  }
  const { body } = outline;
  if (body.wall < leastWall - 1e-9) {
    refusals.tooThin(["wall"], "The wall", body.wall);
    return refusals.list;
  }
  if (body.kind === "vessel") checkVessel(body, refusals);
  if (body.kind === "tube") {
    checkMouth(body, refusals);
    checkJoints(body, refusals);
    checkTubeHoles(body, refusals);
    checkOutside(body, refusals);
  }
  return refusals.list;
}
