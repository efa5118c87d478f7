/** A tube with holes: transverse, duct and rim flutes. */
import { SOLID_DEFAULTS as USUAL } from "../../instrument/defaults.js";
import type { Draft } from "../../instrument/draft/draft.js";
import { allOf } from "../../instrument/printed/allOf.js";
import { boreProfile } from "./bore.js";
import { holeOutline } from "./holes.js";
import { jointOutlines, partOutlines } from "./joints.js";
import { mouthOutline, woodBegins } from "./mouth.js";
import type { BorePoint, JointOutline, MouthOutline, Profile, ThumbRestOutline, TubeOutline } from "./outline.js";
import type { Sizes } from "./sizes.js";

/** Undefined while a number that it needs is missing. */
export function tubeOutline(draft: Draft, sizes: Sizes): TubeOutline | undefined {
  const wall = sizes.mm(draft.wall);
  const bore = allOf(draft.bore ?? [], ({ at, diameter, path }): BorePoint | undefined =>
    at === undefined || diameter === undefined ? undefined : { path, at: sizes.mm(at), diameter: sizes.mm(diameter) },
  );
  if (wall === undefined || bore === undefined || bore.length < 2) return undefined;
  const holes = allOf(draft.holes, (hole) => holeOutline(hole, hole.at, bore, sizes));
  if (holes === undefined) return undefined;
  return assembled({ bore, wall, holes, foot: draft.foot, mouth: mouthOutline(bore, wall, sizes) }, sizes);
}

type Given = Pick<TubeOutline, "bore" | "wall" | "holes" | "foot" | "mouth">;

/** Adds to bore, mouth and holes what follows from them. */
export function assembled(given: Given, sizes: Sizes): TubeOutline {
  const { bore, wall, foot, mouth } = given;
  const places = bore.map(({ at }) => at);
  const from = startOf(mouth, Math.min(...places), wall);
  const to = Math.max(...places) + (foot === "stopped" ? wall : 0);
  const joints = jointOutlines(bore, wall, sizes).filter(({ at }) => at > from && at < to);
  return {
    kind: "tube",
    ...given,
    from,
    to,
    outside: outsideOf(bore, wall, from, to, joints),
    joints,
    parts: partOutlines(from, to, joints),
    base: sizes.at("solid", "base"),
    thumbRest: thumbRestOf(sizes),
  };
}

function startOf(mouth: MouthOutline | undefined, first: number, wall: number): number {
  if (mouth?.kind === "embouchure" && mouth.stopper === undefined) return mouth.closedAt - wall;
  return Math.min(first, woodBegins(mouth, first));
}

/** The surface as turned: the bore's outline and the wall, with a ring round each joint that needs one. */
function outsideOf(
  bore: readonly BorePoint[],
  wall: number,
  from: number,
  to: number,
  joints: readonly JointOutline[],
): Profile {
  const plain = boreProfile(bore, from, to).map(([z, radius]) => [z, radius + wall] as const);
  return joints.reduce<Profile>((profile, joint) => withRing(profile, joint), plain);
}

/** With slopes of 45° at both ends of the ring. */
function withRing(profile: Profile, { ring: [from, to], outerRadius }: JointOutline): Profile {
  if (from === to) return profile;
  const rise = (z: number) => Math.max(0, outerRadius - radiusOn(profile, z));
  const [start, end] = [from - rise(from), to + rise(to)];
  return [
    ...profile.filter(([z]) => z < start),
    [start, radiusOn(profile, start)],
    [from, outerRadius],
    [to, outerRadius],
    [end, radiusOn(profile, end)],
    ...profile.filter(([z]) => z > end),
  ];
}

/** Straight between the points, the end's beyond. */
export function radiusOn(profile: Profile, at: number): number {
  let before: Profile[number] | undefined;
  for (const point of profile) {
    if (point[0] > at) {
      if (before === undefined) return point[1];
      return before[1] + ((at - before[0]) / (point[0] - before[0])) * (point[1] - before[1]);
    }
    before = point;
  }
  return before?.[1] ?? 0;
}

function thumbRestOf(sizes: Sizes): ThumbRestOutline | undefined {
  const at = sizes.at("solid", "thumbRest", "at");
  if (at === undefined) return undefined;
  const size = (name: "length" | "width" | "height") => sizes.or(["solid", "thumbRest", name], USUAL.thumbRest[name]);
  return { at, length: size("length"), width: size("width"), height: size("height") };
}
