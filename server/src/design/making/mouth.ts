/** Whether a tube's mouth can be made. */

import type { Path } from "../../instrument/finding.js";
import { t } from "../../words/translation.js";
import { tangent } from "../outline/angle.js";
import { boreRadiusAt, boreRange } from "../outline/bore.js";
import type { DuctOutline, LabiumOutline, RimOutline, TubeOutline, TwoChamberOutline } from "../outline/outline.js";
import type { Refusals } from "./refusals.js";

/** Lowest windway that prints open, and least step of a labium below the surface, mm. Common practice, no source. */
const LOWEST_WINDWAY = 0.5;
const LEAST_RAMP = 0.3;
/** Shortest plug or block that holds, mm. Common practice, no source. */
const SHORTEST_PLUG = 3;
/** A bore under a block may vary by this much, mm: the block is turned to one radius there. */
const STRAIGHT = 0.02;

export function checkMouth(tube: TubeOutline, refusals: Refusals): void {
  const { mouth } = tube;
  switch (mouth?.kind) {
    case "duct":
      checkDuct(mouth, tube, refusals);
      break;
    case "two-chamber":
      checkTwoChamber(mouth, tube, refusals);
      break;
    case "embouchure": {
      const { chimney } = mouth;
      if (chimney < refusals.leastWall - 1e-9)
        refusals.tooThin(
          refusals.written(["mouth", "hole", "chimney"], ["wall"]),
          t("The wall at the embouchure hole"),
          chimney,
        );
      break;
    }
    case "rim":
      checkRim(mouth, tube, refusals);
      break;
    default: {
      const how = t("describe it by `window: { width, cutUp }`, by `hole: { length, width }`, or blow a `rim`");
      refusals.say(
        "solid/no-mouth",
        ["mouth"],
        t`A mouth is made from its dimensions, and the design gives none that can be: ${how}.`,
      );
    }
  }
}

/** Where the mouth's features on the body's surface end: holes and joints may lie past it. */
export function mouthEnds(tube: TubeOutline): number {
  const { mouth } = tube;
  const outer = boreRadiusAt(tube.bore, 0) + tube.wall;
  switch (mouth?.kind) {
    case "duct":
    case "two-chamber":
      return mouth.window.to + Math.max(0, outer - mouth.labium.high) / tangent(mouth.labium.ramp);
    case "embouchure":
      return mouth.length / 2;
    case "rim":
      return mouth.notch === undefined
        ? tube.from
        : tube.from + mouth.notch.depth + tube.wall / tangent(mouth.notch.ramp);
    default:
      return tube.from;
  }
}

function checkDuct(mouth: DuctOutline, tube: TubeOutline, refusals: Refusals): void {
  const { window, windway, labium, block } = mouth;
  const radius = boreRadiusAt(tube.bore, window.from);
  const outer = radius + tube.wall;
  checkStraight(windway.from, window.from, tube, refusals);
  checkWindowDepth(window.chimney, tube, refusals);
  const roof = outer - (windway.floor + Math.max(windway.entryHeight, windway.exitHeight));
  const where = refusals.written(["mouth", "windway", "entry"], ["mouth", "windway", "height"], ["wall"]);
  if (roof < refusals.leastWall - 1e-6)
    refusals.tooThin(
      where,
      t("The roof of the windway"),
      Math.max(0, roof),
      t("Make the wall thicker or the windway lower"),
    );
  checkHeight(windway, outer - refusals.leastWall - windway.floor, refusals);
  checkWidth(windway.width, 2 * radius, refusals);
  checkLabium(labium, outer, radius, tube, refusals);
  if (block.to - block.from < SHORTEST_PLUG) {
    const [stopper] = refusals.words(window.stopper);
    refusals.noRoom(
      ["mouth", "window", "stopper"],
      t`The plug lies ${stopper} above the window, and the windway is hardly longer: no block is left to close the bore. Put it nearer, or make the windway longer.`,
    );
  }
}

/** @param room mm from the windway's floor to the least roof */
export function checkHeight({ exitHeight }: { readonly exitHeight: number }, room: number, refusals: Refusals): void {
  if (exitHeight >= LOWEST_WINDWAY) return;
  const [is, least] = refusals.words(exitHeight, LOWEST_WINDWAY);
  const height: Path = ["mouth", "windway", "height"];
  if (refusals.written(height, ["wall"]) !== height)
    refusals.noRoom(
      ["wall"],
      t`The wall leaves room for a windway ${is} high; one under ${least} prints closed. Make the wall thicker.`,
    );
  else
    refusals.noRoom(
      height,
      t`The windway is ${is} high; one under ${least} prints closed. Make it higher.`,
      [],
      room < LOWEST_WINDWAY ? undefined : { do: "set", raw: refusals.drawnAtLeast(LOWEST_WINDWAY) },
    );
}

function checkTwoChamber(mouth: TwoChamberOutline, tube: TubeOutline, refusals: Refusals): void {
  const { window, windway, labium, chamber, plug, block, exitLength } = mouth;
  const radius = boreRadiusAt(tube.bore, window.from);
  const outer = radius + tube.wall;
  checkStraight(plug.from, window.from, tube, refusals);
  checkWindowDepth(window.chimney, tube, refusals);
  // A channel on the outside has its roof from the block.
  checkHeight(windway, Number.POSITIVE_INFINITY, refusals);
  checkWidth(windway.width, 2 * radius, refusals);
  checkLabium(labium, outer, radius, tube, refusals);
  const wall = outer - chamber.diameter / 2;
  if (wall < refusals.leastWall - 1e-9)
    refusals.tooThin(
      refusals.written(["mouth", "chamber", "diameter"], ["wall"]),
      t("The slow chamber's wall"),
      Math.max(0, wall),
      t("Make the chamber narrower"),
    );
  if (chamber.to - chamber.from < 2 * exitLength + chamber.diameter / 2) {
    const [is] = refusals.words(chamber.to - chamber.from);
    refusals.noRoom(
      ["mouth", "chamber", "length"],
      t`The slow chamber is ${is} long: too short for its mouth hole's cone and its exit. Make it longer.`,
    );
  }
  const covered = windway.to - windway.from;
  if (block.length < covered) {
    const [is, wanted] = refusals.words(block.length, covered);
    refusals.noRoom(
      refusals.written(["mouth", "block", "length"], ["mouth", "windway", "length"]),
      t`The block is ${is} long and has ${wanted} of channel and exit hole to cover. Make it longer.`,
    );
  }
  if (block.width < windway.width + 2 * refusals.leastWall) {
    const [is, wanted] = refusals.words(block.width, windway.width + 2 * refusals.leastWall);
    refusals.noRoom(
      refusals.written(["mouth", "block", "width"], ["mouth", "windway", "width"]),
      t`The block is ${is} wide; to seal the channel at both sides it needs ${wanted}. Make it wider.`,
    );
  }
  if (plug.to - plug.from < SHORTEST_PLUG) {
    const [length, stopper] = refusals.words(covered - exitLength, window.stopper);
    refusals.noRoom(
      refusals.written(["mouth", "window", "stopper"], ["mouth", "windway", "length"]),
      t`The channel is ${length} long and the plug ends ${stopper} above the window: too little of it is left to hold. Make the channel longer.`,
    );
  }
}

function checkStraight(from: number, to: number, tube: TubeOutline, refusals: Refusals): void {
  const [narrow, wide] = boreRange(tube.bore, from, to);
  if (wide - narrow <= STRAIGHT) return;
  const [least, most] = refusals.words(2 * narrow, 2 * wide);
  const path = tube.bore[0]?.path ?? ["bore"];
  refusals.noRoom(
    [...path, "diameter"],
    t`Above the window the bore goes from ${least} to ${most}; a block closes a straight one. Keep it the same there, or begin its outline at the window.`,
  );
}

function checkWindowDepth(chimney: number, tube: TubeOutline, refusals: Refusals): void {
  if (chimney >= tube.wall - 1e-6) return;
  const [is, wall] = refusals.words(chimney, tube.wall);
  refusals.noRoom(
    ["mouth", "window", "chimney"],
    t`The window is ${is} deep and the wall ${wall}: a window less deep than the wall cannot be made. Make it as deep, or the wall thinner.`,
  );
}

function checkWidth(width: number, bore: number, refusals: Refusals): void {
  if (width <= bore + 1e-9) return;
  const [is, has] = refusals.words(width, bore);
  refusals.noRoom(
    ["mouth", "windway", "width"],
    t`The windway is ${is} wide and the bore under it ${has}: it would cut through the sides. Make it narrower.`,
  );
}

function checkLabium(
  { at, low, high }: LabiumOutline,
  outer: number,
  radius: number,
  tube: TubeOutline,
  refusals: Refusals,
): void {
  const path = refusals.written(["solid", "labium", "edge"], ["solid", "labium", "lift"], ["wall"]);
  if (high > outer - LEAST_RAMP) {
    const [is, has] = refusals.words(high - radius, outer - radius);
    refusals.noRoom(
      path,
      t`The labium's edge would end ${is} above the bore, and the wall is ${has}: no ramp is left. Make the wall thicker or the edge thinner.`,
    );
  }
  const below = boreRadiusAt(tube.bore, at);
  if (low <= below - LEAST_RAMP) {
    const station = tube.bore.find((each) => each.at >= at) ?? tube.bore[0];
    refusals.noRoom(
      [...(station?.path ?? ["bore"]), "diameter"],
      t("The bore widens under the labium so much that its edge would be cut away. Let it widen farther down."),
    );
  }
}

function checkRim({ notch }: RimOutline, tube: TubeOutline, refusals: Refusals): void {
  if (notch === undefined) return;
  const bore = 2 * boreRadiusAt(tube.bore, tube.from);
  if (notch.width > bore - LEAST_RAMP) {
    const [is, has] = refusals.words(notch.width, bore);
    refusals.noRoom(
      ["mouth", "notch", "width"],
      t`The notch is ${is} wide and the bore ${has}: it would cut the tube's sides off. Make it narrower.`,
    );
  }
  if (notch.edge > tube.wall - LEAST_RAMP) {
    const [is, has] = refusals.words(notch.edge, tube.wall);
    refusals.noRoom(
      refusals.written(["solid", "labium", "edge"], ["wall"]),
      t`The notch's edge is ${is} thick and the wall ${has}: no slope is left behind it. Make the edge thinner.`,
    );
  }
}
