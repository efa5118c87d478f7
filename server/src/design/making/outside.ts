/** Whether what stands out from a tube's body has room. */

import { t } from "../../words/translation.js";
import type { TubeOutline } from "../outline/outline.js";
import { radiusOn } from "../outline/tube.js";
import { jointZone } from "./joints.js";
import type { Refusals } from "./refusals.js";

/** Widest flat in shares of the body's diameter: beyond, it is no longer round. Common practice, no source. */
const WIDEST_BASE = 0.9;
/** Holes within this many degrees of the back would come out under the thumb rest. */
const NEAR_BACK = 60;

export function checkOutside(tube: TubeOutline, refusals: Refusals): void {
  const narrowest = 2 * Math.min(...tube.outside.map(([, radius]) => radius));
  if (tube.base !== undefined && tube.base > WIDEST_BASE * narrowest) {
    const [is, most] = refusals.words(tube.base, WIDEST_BASE * narrowest);
    refusals.noRoom(["solid", "base"], t`The flat is ${is} wide; the body takes ${most} at most. Make it narrower.`);
  }
  checkThumbRest(tube, refusals);
}

function checkThumbRest(tube: TubeOutline, refusals: Refusals): void {
  const rest = tube.thumbRest;
  if (rest === undefined) return;
  const path = ["solid", "thumbRest", "at"];
  const reach = rest.length / 2 + radiusOn(tube.outside, rest.at) + rest.height;
  const [from, to] = [rest.at - reach, rest.at + reach];
  const [at] = refusals.words(rest.at);
  if (from < tube.from || to > tube.to)
    refusals.noRoom(path, t`The thumb rest at ${at} reaches over the tube's end. Move it.`);
  if (tube.joints.some((joint) => from < jointZone(joint)[1] && to > joint.at))
    refusals.noRoom(path, t`The thumb rest at ${at} lies over a joint. Move it.`);
  if (rest.width > 2 * radiusOn(tube.outside, rest.at))
    refusals.noRoom(["solid", "thumbRest", "width"], t("The thumb rest is wider than the body. Make it narrower."));
  const hole = tube.holes.find(
    (each) =>
      Math.abs((Math.abs(each.angle) % 360) - 180) < NEAR_BACK &&
      Math.abs(each.at - rest.at) < (each.length + rest.length) / 2 + rest.height,
  );
  if (hole !== undefined) refusals.noRoom(path, t`The thumb rest at ${at} lies over ${hole.name}. Move it.`);
}
