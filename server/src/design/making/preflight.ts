/** Before the building: what cannot be made, from the numbers alone, at the place to change. */

import type { Finding } from "../../instrument/finding.js";
import { leastWallOf } from "../../instrument/making/makerLimits.js";
import type { Resolution } from "../../instrument/model.js";
import { t } from "../../words/translation.js";
import { outlineOf } from "../outline/index.js";
import type { Outline } from "../outline/outline.js";
import { checkTubeHoles } from "./holes.js";
import { checkJoints } from "./joints.js";
import { checkMouth } from "./mouth.js";
import { checkOutside } from "./outside.js";
import { Refusals } from "./refusals.js";
import { checkVessel } from "./vessel.js";

/** Thinnest wall to assume where the design's own cannot be used, mm: three lines of a usual nozzle. */
const USUAL_LEAST_WALL = 1.2;

export interface Preflight {
  /** As it lies on the bed; undefined while a number that it needs is missing. */
  readonly outline: Outline | undefined;
  /** Thinnest wall that the printer can close, mm. */
  readonly leastWall: number;
  /** Why it cannot be made, each reason an error at its place; empty where it can. */
  readonly refused: readonly Finding[];
}

/** Requirements on a design before a solid is made from it. */
export function preflight(resolution: Resolution): Preflight {
  const { draft } = resolution;
  const outline = outlineOf(resolution, "laid");
  const leastWall = leastWallOf(draft)?.mm ?? USUAL_LEAST_WALL;
  const refusals = new Refusals(draft, leastWall);
  if (outline === undefined)
    refusals.say(
      "solid/not-described",
      [],
      t("The design does not say enough about its body yet to be made: see its findings."),
    );
  else look(outline, refusals);
  return { outline, leastWall, refused: refusals.list };
}

function look({ body }: Outline, refusals: Refusals): void {
  if (body.wall < refusals.leastWall - 1e-9) {
    refusals.tooThin(["wall"], t("The wall"), body.wall);
    // A wall thick enough to be airtight may still be too thin for a windway: both are said at once.
    if (body.kind === "tube") checkMouth(body, refusals);
    return;
  }
  if (body.kind === "vessel") checkVessel(body, refusals);
  if (body.kind === "tube") {
    checkMouth(body, refusals);
    checkJoints(body, refusals);
    checkTubeHoles(body, refusals);
    checkOutside(body, refusals);
  }
}
