/** What the printer asks, as the findings of the same names do: joints clear of holes, parts that fit its bed. */
import type { Column } from "../../acoustics/column.js";
import { mouthHalfLength } from "../../instrument/draft/mouth.js";
import { t } from "../../words/translation.js";
import { holeName } from "../fix/remedy.js";
import { TAPER_SHARE } from "./boreLimits.js";
import {
  atLeast,
  atMost,
  halfLengthTerm,
  type Limit,
  type LimitContext,
  MM,
  sizesBeside,
  sizeText,
  type Term,
} from "./limit.js";
import { changesNoNote } from "./unknowns.js";

export function makingLimits(context: LimitContext): readonly Limit[] {
  return [...jointLimits(context), ...bedLimits(context)];
}

/**
 * How far a joint may leave its place, our own choice: a millimetre, half of what the length is wrong by for the worst note, and no more
 * than a share of the length. So parts stay what they are, and another refit of a design in tune moves no joint.
 */
const JOINT_SLACK = 1;
const SHARE_OF_ERROR = 0.5;
const JOINT_SHARE = 0.05;

function jointRoomOf(context: LimitContext, foot: number): number {
  return JOINT_SLACK + foot * Math.min(JOINT_SHARE, SHARE_OF_ERROR * lengthError(context));
}

/** By what share the length is wrong for the note that is farthest off; 0 where none is known. */
function lengthError({ analysis }: LimitContext): number {
  return 2 ** (Math.abs(analysis.summary?.worstCents ?? 0) / 1200) - 1;
}

/**
 * A joint keeps its share of the bore's length, unless the station's own `limits.at` say where it may lie. In a cylinder it may as well stay
 * where it is, and does where nothing else moves it.
 */
function placeLimits(context: LimitContext, station: number): Limit[] {
  const { analysis, column, constraints, kept = column } = context;
  const placeIn = ({ bore }: Column) => [bore[station]?.x ?? Number.NaN, bore.at(-1)?.x ?? Number.NaN] as const;
  // Where refits follow each other its room is counted from its first place, or each would move it a little farther.
  const [joint, foot] = placeIn(kept);
  const path = ["bore", station];
  // Where the design says its place, the bore's length does not depend on it.
  if (!(joint > 0) || constraints.isFixed(path) || constraints.limits(path).at !== undefined) return [];
  const beside: Term[] = [
    [1, "station-place", station],
    [-joint / foot, "station-place", column.bore.length - 1],
  ];
  const stays: Term[] = changesNoNote(column, context.unknowns, station) ? [[1, "station-place", station]] : beside;
  const place = stays === beside ? 0 : MM * joint;
  const [jointNow, footNow] = placeIn(column);
  const gone = MM * Math.abs(jointNow - (joint / foot) * footNow);
  const most = Math.max(gone, jointRoomOf(context, MM * footNow));
  // A tube that is too high as it is grows, and its joint's share lies below its place.
  const grows = (analysis.summary?.meanCents ?? 0) > 0;
  const [above, below] = grows ? [stays, beside] : [beside, stays];
  const from = (terms: Term[]) => (terms === beside ? 0 : place);
  const wordsOf = (terms: Term[]) => ({
    complaint: (mm: number) =>
      t`the joint would have to move by ${sizeText(Math.abs(mm - from(terms)), analysis)}, but only ${sizeText(most, analysis)} are allowed`,
    advice: t("say where it may lie (the station's limits.at)"),
  });
  return [
    ...atLeast(context, above, from(above) - most, wordsOf(above)),
    ...atMost(context, below, from(below) + most, wordsOf(below)),
  ];
}

/** Stations with a joint that would rather stay where they are: to move them does nothing for the notes. */
export function stayingJoints({ column, constraints, unknowns }: LimitContext): ReadonlySet<number> {
  const stations = constraints.joints.map(({ station }) => station);
  return new Set(stations.filter((station) => changesNoNote(column, unknowns, station)));
}

/** Holes stay on their side of a joint: which one they lie on is the maker's choice. */
function jointLimits(context: LimitContext): Limit[] {
  const { analysis, column, constraints } = context;
  return constraints.joints.flatMap(({ station, room }): Limit[] => {
    const joint = column.bore[station]?.x ?? Number.NaN;
    const advice = t("put the joint elsewhere, or let it be nearer (print.jointClearance)");
    const mouth = atLeast(
      context,
      [[1, "station-place", station]],
      MM * mouthHalfLength(column.mouth) + room.upstream,
      {
        complaint: (mm) => t`the joint would lie at ${sizeText(mm, analysis)}, too near to the mouth`,
        advice,
      },
    );
    const holes = column.holes.flatMap(({ x }, hole): Limit[] => {
      const side = x < joint ? 1 : -1;
      const apart: Term[] = [
        [side, "station-place", station],
        [-side, "hole-place", hole],
        halfLengthTerm(context, hole, -1),
      ];
      return atLeast(context, apart, side > 0 ? room.upstream : room.downstream, {
        complaint: (mm) => t`${holeName(analysis, hole)} would be ${sizeText(mm, analysis)} from the joint`,
        advice,
      });
    });
    // Beside or above the mouth it is no unknown, and neither of the first two is a limit.
    return [...placeLimits(context, station), ...mouth, ...holes];
  });
}

/**
 * A part that a refit has fitted to the bed to the last millimetre may be a little longer than the bed once its width is drawn: it counts as fitting.
 */
const FITS_BARELY = 1.02;

/** What does not fit as drawn may grow with the notes and little more: by this share of the length's error. Our own choice. */
const GROWTH = 1.5;

/** The tube, or each part of it between joints, fits the printer. */
function bedLimits(context: LimitContext): Limit[] {
  const { analysis, column, constraints } = context;
  const { bore, mouth } = column;
  const ends = [...constraints.joints.map(({ station }) => station), bore.length - 1];
  return ends.flatMap((end, i): Limit[] => {
    const before = ends[i - 1];
    const [from, to] = [before === undefined ? 0 : (bore[before]?.x ?? 0), bore[end]?.x ?? 0];
    const radii = bore.flatMap(({ x, radius }) => (x >= from && x <= to ? [radius] : []));
    // A refit may widen the bore as well.
    const widest = (1 + TAPER_SHARE) * Math.max(0, ...radii);
    const longest = constraints.longestPart(2 * MM * (widest + column.wall));
    const above: Term[] = mouth.kind === "embouchure" ? [[1, "stopper"]] : [];
    const start: Term[] = before === undefined ? above : [[-1, "station-place", before]];
    const isFoot = end === bore.length - 1 && column.foot === "stopped";
    const fixed = (constraints.joints[i - 1]?.tenon ?? headOf(context)) + (isFoot ? MM * column.wall : 0);
    const stopper = before === undefined && mouth.kind === "embouchure" ? MM * mouth.stopper : 0;
    const present = MM * (to - from) + fixed + stopper;
    const what = ends.length === 1 ? t("the tube") : t`part ${i + 1} of the tube`;
    const length: Term[] = [[1, "station-place", end], ...start];
    if (present > FITS_BARELY * longest) {
      const most = present * (1 + GROWTH * lengthError(context)) + JOINT_SLACK;
      return atMost(context, length, most - fixed, {
        complaint: (mm) =>
          t`${what}, too long for the bed as it is, would have to grow to ${sizeText(mm + fixed, analysis)}`,
        advice: t("split it (joint: true on a station between holes) or state a larger bed (print.bed)"),
      });
    }
    return atMost(context, length, Math.max(present, longest) - fixed, {
      complaint: (mm) => {
        const [needed, takes] = sizesBeside([mm + fixed, longest], analysis);
        return t`${what} would have to be ${needed} long, but the bed takes ${takes}`;
      },
      advice: t("split it (joint: true on a station between holes) or state a larger bed (print.bed)"),
    });
  });
}

/** What lies above the mouth's middle beside a stopper that may move, mm: windway and slow air chamber, the stopper's own length. */
function headOf({ column: { bore, mouth }, constraints }: LimitContext): number {
  switch (mouth.kind) {
    case "window":
      return MM * mouthHalfLength(mouth) + constraints.head;
    case "embouchure":
      return constraints.head;
    default:
      return Math.max(0, -MM * (bore[0]?.x ?? 0));
  }
}
