/** Whether the parts between joints have room for socket and tenon. */

import { SOLID_DEFAULTS as USUAL } from "../../instrument/defaults.js";
import { t } from "../../words/translation.js";
import type { JointOutline, TubeOutline } from "../outline/outline.js";
import { mouthEnds } from "./mouth.js";
import type { Refusals } from "./refusals.js";

/** A tenon shorter than its tip's cut and a groove, mm, holds nothing. Common practice, no source. */
const SHORTEST_TENON = 6;
/** Wood left between a socket's end and what lies above it, mm. Common practice, no source. */
const REST = 2;

/** What a joint takes of the tube, along it. */
export function jointZone({ at, length, ring }: JointOutline): readonly [from: number, to: number] {
  return [Math.min(ring[0], at - length - USUAL.tenonPlay - REST), Math.max(ring[1], at + USUAL.chamfer)];
}

export function checkJoints(tube: TubeOutline, refusals: Refusals): void {
  const mouth = mouthEnds(tube);
  for (const [i, joint] of tube.joints.entries()) {
    const path = [...joint.path, "at"];
    if (joint.length < SHORTEST_TENON) {
      const [is, least] = refusals.words(joint.length, SHORTEST_TENON);
      refusals.noRoom(
        refusals.written(["solid", "tenon", "length"], path),
        t`The tenon is ${is} long; it holds from ${least} on. Make it longer.`,
      );
    }
    const [from] = jointZone(joint);
    const above = tube.joints[i - 1]?.ring[1] ?? mouth;
    const what = i === 0 ? t("the mouth") : t("the joint above");
    if (from < above) {
      const [at, length] = refusals.words(joint.at, joint.length);
      refusals.noRoom(
        path,
        t`The joint at ${at} has a tenon ${length} long, which reaches into ${what}. Put the joint farther down, or make the tenon shorter: \`solid.tenon.length\`.`,
      );
    }
    if (joint.ring[1] > tube.to - 2 * USUAL.chamfer) {
      const [at] = refusals.words(joint.at);
      refusals.noRoom(path, t`The joint at ${at} leaves no room for the part below it. Put it farther up.`);
    }
  }
}
