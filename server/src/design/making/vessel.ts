/** Whether a vessel's mouth and holes leave its shell whole. */

import { SOLID_DEFAULTS as USUAL } from "../../instrument/defaults.js";
import { t } from "../../words/translation.js";
import { tangent } from "../outline/angle.js";
import type { VesselHoleOutline, VesselOutline } from "../outline/outline.js";
import { reliefOf } from "../outline/relief.js";
import { checkHeight } from "./mouth.js";
import type { Refusals } from "./refusals.js";

/** A ramp needs this much wall above the labium's edge, mm. Common practice, no source. */
const LEAST_RAMP = 0.3;
/** How far the pad round the window reaches down beside the pole, in half its width. */
const PAD_REACH = 1;

export function checkVessel(vessel: VesselOutline, refusals: Refusals): void {
  const { mouth, holes, semiAxes } = vessel;
  const [x, y, z] = semiAxes;
  if (mouth.kind === "duct") {
    const { window, windway, labium, cheek } = mouth;
    const rim = z + window.chimney;
    // The spout's roof follows the windway.
    checkHeight(windway, Number.POSITIVE_INFINITY, refusals);
    if (labium.high > rim - LEAST_RAMP) {
      const [is, has] = refusals.words(labium.high - z, window.chimney);
      refusals.noRoom(
        refusals.written(["mouth", "window", "chimney"], ["wall"]),
        t`The labium's edge would end ${is} above the chamber, and the window is ${has} deep: no ramp is left. Make the wall thicker.`,
      );
    }
    if (reliefOf(mouth, vessel) === undefined)
      refusals.noRoom(
        ["mouth", "window", "width"],
        t(
          "The chamber curves away so steeply under the window that the labium's underside never leaves its shell. Make the window smaller or the chamber wider there.",
        ),
      );
    const wide = Math.max(window.width, windway.entryWidth) + 2 * cheek;
    if (wide > 2 * x) {
      const [is, has] = refusals.words(wide, 2 * x);
      refusals.noRoom(
        ["mouth", "window", "width"],
        t`Window and windway with their sides are ${is} wide, and the chamber ${has}. Make them narrower.`,
      );
    }
    if (window.length > y) {
      const [is, most] = refusals.words(window.length, y);
      refusals.noRoom(
        ["mouth", "window", "cutUp"],
        t`The window is ${is} long; over this chamber it may be ${most} at most. Make it shorter.`,
      );
    }
  }
  const half =
    mouth.kind === "duct"
      ? (Math.max(mouth.window.width, mouth.windway.entryWidth) / 2 + mouth.cheek) * PAD_REACH
      : mouth.width / 2;
  const reach = reachOf(mouth, z);
  for (const [i, hole] of holes.entries()) {
    const path = refusals.written([...hole.path, "angle"], [...hole.path, "diameter"]);
    if (hole.chimney < refusals.leastWall - 1e-9)
      refusals.tooThin([...hole.path, "chimney"], t`The wall at ${hole.name}`, hole.chimney);
    const [px, pz] = hole.point;
    const along = (Math.abs(hole.normal[1]) * hole.width) / 2;
    const across = (Math.hypot(...hole.normal) * hole.length) / 2;
    // A windway covers the side toward the player as far as it goes; an embouchure hole has none.
    const away = mouth.kind === "duct" ? -hole.aside : Math.abs(hole.aside);
    const isBeyond = away - across > reach + refusals.leastWall;
    if (pz > 0 && Math.abs(px) - along < half + refusals.leastWall && !isBeyond)
      refusals.noRoom(path, t`${hole.name} would come out under the mouth. Give it an \`angle\` farther round.`);
    const near = holes.slice(0, i).find((other) => gap(other, hole) < refusals.leastWall - 1e-9);
    if (near !== undefined)
      refusals.noWallBetween(path, near.name, hole.name, gap(near, hole), [{ path: near.path, message: near.name }]);
  }
}

/** How far what stands round the mouth reaches away from the windway, along y. */
function reachOf(mouth: VesselOutline["mouth"], pole: number): number {
  if (mouth.kind !== "duct") return mouth.length / 2;
  const { window, labium } = mouth;
  return window.length / 2 + (pole + window.chimney - labium.high) / tangent(labium.ramp) + USUAL.padSlope;
}

function gap(one: VesselHoleOutline, other: VesselHoleOutline): number {
  const apart = Math.hypot(one.point[0] - other.point[0], one.point[1] - other.point[1], one.aside - other.aside);
  return apart - (one.width + other.width) / 2;
}
