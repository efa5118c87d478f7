/** hole/too-near, hole/near-joint: wall that is left, but too little of it to print or to join. */

import { t } from "../../words/translation.js";
import { boreDiameterAt } from "../draft/bore.js";
import { cavityOf } from "../draft/cavity.js";
import { mouthHalfLength } from "../draft/mouth.js";
import { bodyKindOf } from "../families/index.js";
import type { Finding, Path, RelatedPlace, RuleCode } from "../finding.js";
import { DRAWN } from "../lengthWords.js";
import { jointsOf } from "../making/joints.js";
import { holeGapOf } from "../making/makerLimits.js";
import {
  holesAlong,
  MADE_SLACK,
  type MadeHole,
  type Making,
  type MakingRule,
  made,
  madeBeside,
  madeText,
} from "../making/making.js";
import { jointRoom } from "../making/solidLengths.js";
import { wallGap } from "../making/wallGap.js";
import { gapRound, openingsRound } from "./vesselOpenings.js";

const TOO_NEAR: RuleCode = "hole/too-near";
const NEAR_JOINT: RuleCode = "hole/near-joint";

/** Room left between a hole and something beside it, mm of the finished object. */
interface Room {
  readonly gap: number;
  /** `L2 and L1`, `R3 and the foot's end`. */
  readonly what: string;
  readonly path: Path;
  readonly related: readonly RelatedPlace[];
  readonly remedy: string;
}

/** Between two holes, and between a hole and an end, there is wall enough to print. */
export const holeTooNear: MakingRule = {
  code: TOO_NEAR,
  check: (making) => {
    const least = holeGapOf(making.draft);
    if (least === undefined) return [];
    const rooms = [...roomBetween(making), ...roomToEnds(making), ...roomRound(making)];
    return rooms.flatMap(({ gap, what, path, related, remedy }): readonly Finding[] => {
      // Where nothing is left at all there is an error already.
      if (gap <= MADE_SLACK || gap >= least.mm - MADE_SLACK) return [];
      const [left, wanted] = madeBeside([made(gap, making), made(least.mm, making, DRAWN)], making);
      const message = t`Between ${what} only ${left} of wall is left; it needs ${wanted} to print whole and not leak. ${remedy}, or state what your printer can: \`print.holeGap\`.`;
      return [{ code: TOO_NEAR, severity: "warning", message, path, related }];
    });
  },
};

/** For each hole, the one before it that is nearest. */
function roomBetween(making: Making): readonly Room[] {
  const holes = holesAlong(making);
  return holes.flatMap((hole, i): readonly Room[] => {
    let nearest: { readonly other: MadeHole; readonly gap: number } | undefined;
    // Neighbours come first, so that most others are known to be farther: around the bore the gap can only be more.
    for (const other of holes.slice(0, i).reverse()) {
      if (nearest !== undefined && Math.abs(hole.at - other.at) - halvesOf(other, hole) > nearest.gap) continue;
      const gap = gapBetween(making, other, hole);
      if (nearest === undefined || gap <= nearest.gap) nearest = { other, gap };
    }
    if (nearest === undefined) return [];
    const { other, gap } = nearest;
    const related = [{ path: [...other.path, "at"], message: other.name }];
    const what = t`${other.name} and ${hole.name}`;
    return [{ gap, what, path: [...hole.path, "at"], related, remedy: t("Move them apart or narrow one") }];
  });
}

/** Infinite where the bore is not known. */
function gapBetween({ draft, finishedUnit }: Making, a: MadeHole, b: MadeHole): number {
  const cavity = draft.bore === undefined ? cavityOf(draft) : undefined;
  const drawn =
    cavity?.kind === "tube" ? cavity.diameter : boreDiameterAt(draft.bore, (a.at + b.at) / 2 / finishedUnit);
  if (drawn === undefined) return Number.POSITIVE_INFINITY;
  const opening = ({ at, angle, length, diameter }: MadeHole) => ({ at, angle, length, width: diameter });
  return wallGap(opening(a), opening(b), (drawn * finishedUnit) / 2);
}

/** No less than what two holes take up of the distance between their centres, in any direction. */
function halvesOf(a: MadeHole, b: MadeHole): number {
  return (Math.max(a.diameter, a.length) + Math.max(b.diameter, b.length)) / 2;
}

function roomToEnds(making: Making): readonly Room[] {
  const { draft, finishedUnit } = making;
  const foot = draft.bore?.at(-1)?.at;
  return holesAlong(making).flatMap(({ name, path, at, length }): readonly Room[] => {
    const room = (gap: number, what: string, remedy: string): Room => ({
      gap,
      what,
      path: [...path, "at"],
      related: [],
      remedy,
    });
    const mouth = at - length / 2 - mouthHalf(making);
    const rooms =
      draft.mouth === undefined ? [] : [room(mouth, t`${name} and the mouth`, t("Move it down or narrow it"))];
    // A stopped foot is closed by a wall of its own.
    if (foot === undefined || draft.foot === "stopped") return rooms;
    const end = foot * finishedUnit - at - length / 2;
    return [...rooms, room(end, t`${name} and the foot's end`, t("Move it up, narrow it or lengthen the bore"))];
  });
}

function roomRound(making: Making): readonly Room[] {
  const { draft, finishedUnit, undersize } = making;
  const openings = bodyKindOf(draft) === "vessel" ? openingsRound(draft) : [];
  return openings.flatMap((opening, i): readonly Room[] => {
    const gaps = openings.slice(0, i).map((other) => ({ other, gap: gapRound(other, opening) }));
    const nearest = gaps.sort((a, b) => a.gap - b.gap)[0];
    if (nearest === undefined) return [];
    const { other, gap } = nearest;
    const what = other.isMouth ? t`the mouth and ${opening.label}` : t`${other.label} and ${opening.label}`;
    const related = [{ path: other.path, message: other.label }];
    const finished = gap <= 0 ? gap : gap * finishedUnit + undersize;
    const remedy = t("Give them `angle`s farther apart or narrow one");
    return [{ gap: finished, what, path: opening.path, related, remedy }];
  });
}

/** Socket and tenon of a joint find room beside holes and mouth. */
export const holeNearJoint: MakingRule = {
  code: NEAR_JOINT,
  check: (making) => {
    const { draft, finishedUnit } = making;
    const joints = jointsOf(draft);
    return openingsAlong(making).flatMap(({ name, at: place, half, path }): readonly Finding[] => {
      const rooms = joints.flatMap((joint) => {
        const room = roomBeside(making, joint.at, { at: place, half });
        return room === undefined ? [] : [{ joint, ...room }];
      });
      const tightest = rooms.sort((a, b) => a.gap - a.wants - (b.gap - b.wants))[0];
      if (tightest === undefined || tightest.gap >= tightest.wants - MADE_SLACK) return [];
      const { joint, gap, wants } = tightest;
      const [left, wanted] = madeBeside([made(gap, making), made(wants, making, DRAWN)], making);
      const at = madeText(joint.at * finishedUnit, making);
      const is =
        gap <= MADE_SLACK
          ? t`${name} is cut by the joint at ${at}`
          : t`${name} is only ${left} from the joint at ${at}`;
      const message = t`${is}; socket and tenon need ${wanted}. Put the joint between holes that are farther apart, at a station of its own on the bore's outline, or state how near it may be: \`print.jointClearance\`.`;
      const related = [{ path: [...joint.path, "joint"], message: t("The joint") }];
      return [{ code: NEAR_JOINT, severity: "warning", message, path, related }];
    });
  },
};

/** What an opening has beside a joint, and what it needs there, mm of the finished object. @param joint in the file's units */
export function roomBeside(
  { draft, finishedUnit }: Making,
  joint: number,
  { at, half }: Pick<OpeningAlong, "at" | "half">,
): { readonly gap: number; readonly wants: number } | undefined {
  const room = jointRoom(draft, joint, finishedUnit);
  const apart = at - joint * finishedUnit;
  return room && { gap: Math.abs(apart) - half, wants: apart < 0 ? room.upstream : room.downstream };
}

/** Half the mouth opening's length along the tube; an embouchure hole comes out undersized as holes do. */
function mouthHalf({ draft: { mouth }, finishedUnit, undersize }: Making): number {
  return mouthHalfLength(mouth) * finishedUnit - (mouth?.kind === "embouchure" ? undersize / 2 : 0);
}

interface OpeningAlong {
  readonly name: string;
  /** The same after "between", "above" or "below". */
  readonly beside: string;
  readonly at: number;
  /** Half its length along the tube. */
  readonly half: number;
  readonly path: Path;
}

/** Mouth and holes along the tube, mm of the finished object. */
export function openingsAlong(making: Making): readonly OpeningAlong[] {
  const { mouth } = making.draft;
  const holes = holesAlong(making).map(({ name, at, length, path }) => ({
    name,
    beside: name,
    at,
    half: length / 2,
    path: [...path, "at"],
  }));
  if (mouth?.kind !== "window" && mouth?.kind !== "embouchure") return holes;
  const [name, beside, part] =
    mouth.kind === "window"
      ? [t("The window"), t("the window"), "window"]
      : [t("The embouchure hole"), t("the embouchure hole"), "hole"];
  return [{ name, beside, at: 0, half: mouthHalf(making), path: ["mouth", part] }, ...holes];
}
