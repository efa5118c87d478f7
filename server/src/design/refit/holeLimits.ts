/** What holes must keep to: the bore's width, fingertips, the wall between them, the reach of the hand. */
import { boreRadiusAt, type Column } from "../../acoustics/column.js";
import { holeName } from "../remedy.js";
import { neighbouringFingers } from "./fingers.js";
import { atLeast, atMost, inTenths, LEAST_BRIDGE, type Limit, type LimitContext, MM, type Term } from "./limit.js";

/** A refit keeps clear of the bounds of the checked ranges (hole over bore 0.2…0.8), as rounding still follows. */
const NARROWEST_SHARE = 0.21;
const WIDEST_SHARE = 0.78;

export function holeLimits(context: LimitContext): readonly Limit[] {
  const holes = context.column.holes.map((_, i) => i);
  return [...holes.flatMap((i) => ownLimits(context, i)), ...bridges(context), ...reaches(context)];
}

/** Indices of the holes from the mouth to the foot. */
export function fromMouth({ holes }: Column): readonly number[] {
  return holes.map((_, i) => i).sort((a, b) => (holes[a]?.x ?? 0) - (holes[b]?.x ?? 0));
}

function ownLimits(context: LimitContext, i: number): Limit[] {
  const { analysis, column, wishes } = context;
  const name = holeName(analysis, i);
  const hole = column.holes[i];
  if (hole === undefined) return [];
  const bore = 2 * MM * boreRadiusAt(column.bore, hole.x);
  const stated = wishes.limits(analysis.instrument.holes[i]?.path ?? []);
  const width: Term[] = [[2, "hole-radius", i]];
  const least = Math.max(NARROWEST_SHARE * bore, stated.diameter?.[0] ?? 0);
  const most = Math.min(WIDEST_SHARE * bore, stated.diameter?.[1] ?? Number.POSITIVE_INFINITY);
  const tip = Math.max(wishes.fingertip, wishes.fingertipStated ? 0 : 2 * MM * hole.radius);
  const limits = [
    ...atLeast(context, width, least, {
      complaint: (mm) => `${name} would have to be only ${mm} mm wide`,
      advice: "accept a narrower hole (limits.diameter)",
    }),
    ...atMost(context, width, most, {
      complaint: (mm) => `${name} would have to be ${mm} mm wide in a bore of ${inTenths(bore)} mm`,
      advice: "widen the bore",
    }),
  ];
  if (hole.angle === 0)
    limits.push(
      ...atMost(context, width, tip, {
        complaint: (mm) => `${name} would have to be ${mm} mm wide, the fingertip covers ${wishes.fingertip}`,
        advice: "allow a wider hole (hands.fingertip)",
      }),
    );
  if (stated.at === undefined) return limits;
  const place: Term[] = [[1, "hole-place", i]];
  const words = {
    complaint: (mm: string) => `${name} would have to lie at ${mm} mm`,
    advice: "widen its limits.at",
  };
  return [...limits, ...atLeast(context, place, stated.at[0], words), ...atMost(context, place, stated.at[1], words)];
}

/** Wall between neighbours on one side. */
function bridges(context: LimitContext): Limit[] {
  const { analysis, column } = context;
  const order = fromMouth(column);
  return order.flatMap((hole, n): Limit[] => {
    const before = order.slice(0, n).findLast((other) => sameSide(column, other, hole));
    if (before === undefined) return [];
    const between: Term[] = [
      [1, "hole-place", hole],
      [-1, "hole-place", before],
      [-1, "hole-radius", hole],
      [-1, "hole-radius", before],
    ];
    const [upper, lower] = [holeName(analysis, before), holeName(analysis, hole)];
    return atLeast(context, between, LEAST_BRIDGE, {
      complaint: (mm) => `${upper} and ${lower} would have only ${mm} mm of wall between them`,
      advice: "make them narrower",
    });
  });
}

function reaches(context: LimitContext): Limit[] {
  const { analysis, column, wishes } = context;
  return neighbouringFingers(analysis, column).flatMap(([upper, lower]): Limit[] => {
    const gap: Term[] = [
      [1, "hole-place", lower],
      [-1, "hole-place", upper],
    ];
    const present = MM * ((column.holes[lower]?.x ?? 0) - (column.holes[upper]?.x ?? 0));
    const fingers = `${holeName(analysis, upper)} to ${holeName(analysis, lower)}`;
    return atMost(context, gap, Math.max(wishes.reach, wishes.reachStated ? 0 : present), {
      complaint: (mm) => `${fingers} would need ${mm} mm of reach, the hand has ${wishes.reach}`,
      advice: "allow a longer stretch (hands.reach)",
    });
  });
}

function sameSide(column: Column, a: number, b: number): boolean {
  return Math.cos((column.holes[a]?.angle ?? 0) - (column.holes[b]?.angle ?? 0)) > 0.5;
}
