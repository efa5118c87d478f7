/** Whether a tube's holes leave wall enough round them. */

import { SOLID_DEFAULTS as USUAL } from "../../instrument/defaults.js";
import { MADE_SLACK } from "../../instrument/making/making.js";
import { wallGap } from "../../instrument/making/wallGap.js";
import { t } from "../../words/translation.js";
import type { HoleOutline, TubeOutline } from "../outline/outline.js";
import { jointZone } from "./joints.js";
import { mouthEnds } from "./mouth.js";
import type { Refusals } from "./refusals.js";

/** How much narrower than the bore a hole stays, mm: as wide as it, the two surfaces touch along a line. */
const NARROWER = 0.1;

export function checkTubeHoles(tube: TubeOutline, refusals: Refusals): void {
  const mouth = mouthEnds(tube);
  const { leastWall } = refusals;
  for (const [i, hole] of tube.holes.entries()) {
    const at = [...hole.path, "at"];
    const half = (hole.length + hole.undercut) / 2;
    const [start, end] = [hole.at - half, hole.at + half];
    checkSize(hole, refusals);
    if (start < mouth + leastWall) {
      const [is, least] = refusals.words(hole.at, mouth + leastWall + half);
      refusals.noRoom(
        at,
        t`${hole.name} at ${is} runs into the head that the mouth needs. Move it to ${least} or farther down.`,
      );
    }
    const foot = tube.bore.at(-1)?.at ?? tube.to;
    const atFoot = tube.foot === "open" ? USUAL.chamfer + leastWall : leastWall;
    if (end > foot - atFoot) {
      const [left, least] = refusals.words(Math.max(0, foot - end), atFoot);
      const message = t`${hole.name} leaves only ${left} of wall to the foot's end, and ${least} can be printed. Move it up or narrow it.`;
      refusals.noRoom(at, message);
    }
    for (const joint of tube.joints) {
      const [from, to] = jointZone(joint);
      const rise = hole.raised > 0 || hole.chimney > tube.wall + 1e-9 ? tube.wall : 0;
      // What just touches is clear: a refit draws holes to the last millimetre that `hole/near-joint` leaves them.
      if (end + rise <= from + MADE_SLACK || start - rise >= to - MADE_SLACK) continue;
      const [place, joined] = refusals.words(hole.at, joint.at);
      const [length] = refusals.words(joint.length);
      const message = t`${hole.name} at ${place} would go through the joint at ${joined}: its tenon reaches ${length} up from there. Move one of them, or make the tenon shorter: \`solid.tenon.length\`.`;
      refusals.noRoom(at, message, [{ path: [...joint.path, "joint"], message: t("The joint") }]);
    }
    const near = tube.holes.slice(0, i).find((other) => gapBetween(other, hole) < leastWall - 1e-9);
    if (near !== undefined)
      refusals.noWallBetween(at, near.name, hole.name, gapBetween(near, hole), [
        { path: [...near.path, "at"], message: near.name },
      ]);
  }
}

function checkSize(hole: HoleOutline, refusals: Refusals): void {
  const widest = hole.width + hole.undercut;
  if (widest > 2 * hole.boreRadius - NARROWER) {
    const [is, has] = refusals.words(widest, 2 * hole.boreRadius);
    const name = hole.undercut > 0 ? "undercut" : "diameter";
    refusals.noRoom(
      [...hole.path, name],
      t`${hole.name} is ${is} wide at the bore, which is ${has} there: no wall is left beside it. Make it narrower.`,
    );
  }
  if (hole.chimney < refusals.leastWall - 1e-9)
    // The tube's own wall is thick enough by now: a thinner chimney is written.
    refusals.tooThin([...hole.path, "chimney"], t`The wall at ${hole.name}`, hole.chimney);
}

/** Where the holes are widest: at the bore, undercut included. */
function gapBetween(a: HoleOutline, b: HoleOutline): number {
  const atBore = ({ at, angle, width, length, undercut }: HoleOutline) => ({
    at,
    angle,
    width: width + undercut,
    length: length + undercut,
  });
  return wallGap(atBore(a), atBore(b), Math.min(a.boreRadius, b.boreRadius));
}
