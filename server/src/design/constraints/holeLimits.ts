/** What holes must keep to: the bore's width, fingertips, the wall between them. */
import { stationsAround } from "../../acoustics/alongBore.js";
import { KEPT_BY_REFITS } from "../../acoustics/checkedRanges.js";
import { boreRadiusAt, type Column } from "../../acoustics/column.js";
import { mouthHalfLength } from "../../instrument/draft/mouth.js";
import { sameSide } from "../../instrument/hands/fingers.js";
import { isFingeredBy } from "../../instrument/making/making.js";
import { t } from "../../words/translation.js";
import { holeName } from "../fix/remedy.js";
import { doubleHolesOf } from "./fingers.js";
import {
  atLeast,
  atMost,
  halfLengthAtBore,
  halfLengthTerm,
  type Limit,
  type LimitContext,
  MM,
  sizesBeside,
  sizeText,
  type Term,
} from "./limit.js";

const [NARROWEST_SHARE, WIDEST_SHARE] = KEPT_BY_REFITS.holeOverBore;

export function holeLimits(context: LimitContext): readonly Limit[] {
  const holes = context.column.holes.map((_, i) => i);
  return [
    ...holes.flatMap((i) => [...widths(context, i), ...undercuts(context, i), ...places(context, i)]),
    ...mouthLimits(context),
    ...orders(context),
    ...bridges(context),
  ];
}

/** Indices of the holes from the mouth to the foot. */
export function fromMouth({ holes }: Column): readonly number[] {
  return holes.map((_, i) => i).sort((a, b) => (holes[a]?.x ?? 0) - (holes[b]?.x ?? 0));
}

/** A narrower hole clogs and hardly sounds: not a remedy. mm; common practice, no source. */
const LEAST_HOLE = 2;

/** A hole is no wider than its share of the bore allows, nor than the fingertip, nor than the design says. */
function widths(context: LimitContext, i: number): Limit[] {
  const { analysis, column, placed, constraints } = context;
  const name = holeName(analysis, i);
  const hole = column.holes[i];
  if (hole === undefined) return [];
  const stated = constraints.limits(analysis.instrument.holes[i]?.path ?? []).diameter;
  const width: Term = [2, "hole-radius", i];
  const share = (of: number): Term[] => [width, ...boreTerms(placed ?? column, (placed?.holes[i] ?? hole).x, -2 * of)];
  const narrow = {
    complaint: (mm: number) =>
      t`${name} would have to be only ${sizeText(mm, analysis)} wide, too little for the bore at its place`,
    advice: t("narrow the bore"),
    leastTold: LEAST_HOLE,
    spokenOf: 1,
  };
  const wide = {
    complaint: (mm: number) =>
      t`${name} would have to be ${sizeText(mm, analysis)} wide, too much for the bore at its place`,
    advice: t("widen the bore"),
    spokenOf: 1,
  };
  const fingertip = {
    complaint: (mm: number) => {
      const [needed, covers] = sizesBeside([mm, constraints.fingertip], analysis);
      return t`${name} would have to be ${needed} wide, but the fingertip covers ${covers}`;
    },
    advice: t("allow a wider hole (hands.fingertip)"),
  };
  const allowed = {
    complaint: (mm: number) => t`${name} would have to be ${sizeText(mm, analysis)} wide, outside its limits`,
    advice: t("widen its limits.diameter"),
  };
  const tip = Math.max(constraints.fingertip, constraints.fingertipStated ? 0 : 2 * MM * hole.radius);
  return [
    ...atLeast(context, share(NARROWEST_SHARE), 0, narrow),
    ...atMost(context, share(WIDEST_SHARE * constraints.openedShare), 0, wide),
    ...(isFingeredBy(analysis.instrument.fingerings)(i) ? atMost(context, [width], tip, fingertip) : []),
    ...(stated === undefined
      ? []
      : [...atLeast(context, [width], stated[0], allowed), ...atMost(context, [width], stated[1], allowed)]),
  ];
}

/** The undercut on one side to the chimney's length. */
const STEEPEST_UNDERCUT = KEPT_BY_REFITS.undercutSlope;

/** A hole fits the bore with its undercut; one that is free stays within what the design allows and what the prediction was checked for, too. */
function undercuts(context: LimitContext, i: number): Limit[] {
  const { analysis, column, placed, constraints } = context;
  const hole = column.holes[i];
  if (hole === undefined) return [];
  const name = holeName(analysis, i);
  const undercut: Term = [2, "hole-undercut", i];
  const atBore: Term[] = [undercut, [2, "hole-radius", i]];
  const share = boreTerms(placed ?? column, (placed?.holes[i] ?? hole).x, -2 * WIDEST_SHARE);
  if (constraints.undercut <= 0) {
    // Without one the hole's width keeps to the same share.
    if (hole.undercut === undefined) return [];
    return atMost(context, [...atBore, ...share], 0, {
      complaint: (mm) =>
        t`${name} would have to be ${sizeText(mm, analysis)} wide with its undercut, too much for the bore at its place`,
      advice: t("undercut it less"),
      spokenOf: atBore.length,
    });
  }
  const words = {
    complaint: (mm: number) => t`${name} would have to be undercut by ${sizeText(mm, analysis)}`,
    advice: t("allow more (refit.undercut), or a deeper hole"),
  };
  return [
    ...atLeast(context, [undercut], 0, { ...words, complaint: () => t`${name} would have to be narrower at the bore` }),
    ...atMost(context, [undercut], Math.min(constraints.undercut, 2 * MM * STEEPEST_UNDERCUT * hole.chimney), words),
    ...atMost(context, [...atBore, ...share], 0, { ...words, spokenOf: 1 }),
  ];
}

/** `factor` times the bore's radius at `x` by the stations on both sides; moving the hole among them changes it little. */
export function boreTerms({ bore }: Column, x: number, factor: number): Term[] {
  const [before, after, share] = stationsAround(bore, x, (station) => station.x) ?? [0, 0, 0];
  if (before === after) return [[factor, "station-radius", before]];
  return [
    [factor * (1 - share), "station-radius", before],
    [factor * share, "station-radius", after],
  ];
}

/** Where the design says that a hole may lie. */
function places(context: LimitContext, i: number): Limit[] {
  const { analysis, constraints } = context;
  const stated = constraints.limits(analysis.instrument.holes[i]?.path ?? []).at;
  if (stated === undefined) return [];
  const place: Term[] = [[1, "hole-place", i]];
  const words = {
    complaint: (mm: number) =>
      t`${holeName(analysis, i)} would have to lie at ${sizeText(mm, analysis)}, outside its limits`,
    advice: t("widen its limits.at"),
  };
  return [...atLeast(context, place, stated[0], words), ...atMost(context, place, stated[1], words)];
}

/** The first hole stays clear of the mouth. */
function mouthLimits(context: LimitContext): Limit[] {
  const { analysis, column } = context;
  const [first] = fromMouth(column);
  if (first === undefined) return [];
  const between: Term[] = [[1, "hole-place", first], halfLengthTerm(context, first, -1)];
  return atLeast(context, between, MM * mouthHalfLength(column.mouth) + context.constraints.holeGap, {
    complaint: (mm) =>
      t`${holeName(analysis, first)} would have its edge only ${sizeText(mm, analysis)} from the mouth's centre`,
    advice: t("make it narrower"),
  });
}

/** Holes stay in their order, also those that lie on different sides. */
function orders(context: LimitContext): Limit[] {
  const { analysis, column } = context;
  const order = fromMouth(column);
  return order.slice(1).flatMap((hole, n): Limit[] => {
    const before = order[n] as number;
    if (areOnOneSide(column, before, hole)) return [];
    const gap: Term[] = [
      [1, "hole-place", hole],
      [-1, "hole-place", before],
    ];
    const [upper, lower] = [holeName(analysis, before), holeName(analysis, hole)];
    return atLeast(context, gap, 0, {
      complaint: (mm) => t`${lower} would have to lie ${sizeText(mm, analysis)} below ${upper}`,
      advice: t`list ${lower} before ${upper}, and the signs of the fingerings with them`,
    });
  });
}

/** Wall between neighbours on one side: to the hole above, and to the one that lies beside that under the same finger. */
function bridges(context: LimitContext): Limit[] {
  const { analysis, column } = context;
  const order = fromMouth(column);
  const pairs = doubleHolesOf(analysis.instrument, column);
  const pairOf = (hole: number | undefined) => pairs.find((pair) => pair.some((each) => each === hole));
  return order.flatMap((hole, n): Limit[] => {
    const own = pairOf(hole);
    const above = order.slice(0, n).filter((other) => !own?.includes(other) && areOnOneSide(column, other, hole));
    const [nearest, double] = [above.at(-1), pairOf(above.at(-1))];
    const near = above.filter((other) => other === nearest || double?.includes(other));
    const beside = own?.[1] === hole ? besideEachOther(context, ...own) : [];
    return [...near.flatMap((other) => bridge(context, other, hole)), ...beside];
  });
}

function bridge(context: LimitContext, before: number, hole: number): Limit[] {
  const { analysis } = context;
  const between: Term[] = [
    [1, "hole-place", hole],
    [-1, "hole-place", before],
    ...halfLengthAtBore(context, hole, -1),
    ...halfLengthAtBore(context, before, -1),
  ];
  const [upper, lower] = [holeName(analysis, before), holeName(analysis, hole)];
  return atLeast(context, between, context.constraints.holeGap, {
    complaint: (mm) => t`${upper} and ${lower} would have only ${sizeText(mm, analysis)} of wall between them`,
    advice: t("make them narrower"),
  });
}

/** Two holes under one finger move together: the wall between them on the bore's surface is left by their widths there. */
function besideEachOther(context: LimitContext, a: number, b: number): Limit[] {
  const { analysis, column } = context;
  const [one, other] = [column.holes[a], column.holes[b]];
  if (one === undefined || other === undefined) return [];
  const turn = Math.acos(Math.cos(one.angle - other.angle));
  const apart = MM * Math.hypot(other.x - one.x, turn * boreRadiusAt(column.bore, (one.x + other.x) / 2));
  const names = t`${holeName(analysis, a)} and ${holeName(analysis, b)}`;
  const room = apart - context.constraints.holeGap;
  const widths = [a, b].flatMap((hole): Term[] => [
    [1, "hole-radius", hole],
    [1, "hole-undercut", hole],
  ]);
  return atMost(context, widths, room, {
    complaint: (mm) =>
      mm < apart
        ? t`${names} would have only ${sizeText(apart - mm, analysis)} of wall between them`
        : t`${names} would run into each other`,
    advice: t("turn them farther apart (angle)"),
  });
}

function areOnOneSide({ holes }: Column, a: number, b: number): boolean {
  return sameSide(holes[a]?.angle ?? 0, holes[b]?.angle ?? 0);
}
