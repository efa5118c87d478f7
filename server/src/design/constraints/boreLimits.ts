/** What the bore must keep to: its foot below the last hole, its taper, the order of its stations, the stopper's place. */
import { boreRadiusAt } from "../../acoustics/column.js";
import { t } from "../../words/translation.js";
import { holeName } from "../fix/remedy.js";
import { fromMouth } from "./holeLimits.js";
import { atLeast, atMost, halfLengthAtBore, type Limit, type LimitContext, MM, sizeText, type Term } from "./limit.js";

/** How far a station may flare from the bore's width at the mouth, as a share. Our own limit: more is another instrument. */
export const TAPER_SHARE = 0.2;
/** How far it may narrow: conical flutes narrow to about two thirds of their head. Common practice, no source. */
const NARROWING_SHARE = 0.35;
/** How far it may when it keeps its slope: the feet of conical flutes are hardly narrower than half their head. Common practice, no source. */
const NARROWEST_SHARE = 0.5;
/** Wider than the mouth by less than this share a bore is a cylinder. */
const CYLINDER = 0.005;
/** Stations keep this distance, mm: a shorter section is a step. */
const LEAST_SECTION = 5;
/** The stopper's place in bore diameters upstream of the hole's centre. Common practice, no source: about one. */
const STOPPER_SHARES = [0.4, 1.6] as const;

export function boreLimits(context: LimitContext): readonly Limit[] {
  const stations = context.column.bore.map((_, i) => i);
  return [...footLimits(context), ...stations.flatMap((i) => stationLimits(context, i)), ...stopperLimits(context)];
}

function footLimits(context: LimitContext): Limit[] {
  const { analysis, column } = context;
  const last = fromMouth(column).at(-1);
  if (last === undefined) return [];
  const below: Term[] = [
    [1, "station-place", column.bore.length - 1],
    [-1, "hole-place", last],
    ...halfLengthAtBore(context, last, -1),
  ];
  return atLeast(context, below, context.constraints.holeGap, {
    complaint: (mm) =>
      t`only ${sizeText(mm, analysis)} of bore would be left between ${holeName(analysis, last)} and the foot`,
    advice: t("make the hole narrower"),
  });
}

function stationLimits(context: LimitContext, i: number): Limit[] {
  const { analysis, column } = context;
  const { bore } = column;
  const [station, before] = [bore[i], bore[i - 1]];
  if (station === undefined) return [];
  const width: Term[] = [[2, "station-radius", i]];
  const diameter = 2 * MM * station.radius;
  const stated = context.constraints.limits(["bore", i]);
  const head = 2 * MM * (bore[0] ?? station).radius;
  const isKept = !context.constraints.taperIsFree && stated.diameter === undefined;
  const [least, most] = stated.diameter ?? (isKept ? slopeLimits(diameter, head) : taperLimits(diameter, head));
  const where = i === bore.length - 1 ? t("at the foot") : t`at station ${i + 1}`;
  const advice = t("allow it in the station's limits.diameter");
  const limits = [
    ...atLeast(context, width, least, {
      complaint: (mm) => t`the bore would have to narrow to ${sizeText(mm, analysis)} ${where}`,
      advice,
    }),
    ...atMost(context, width, most, {
      complaint: (mm) => t`the bore would have to widen to ${sizeText(mm, analysis)} ${where}`,
      advice,
    }),
    ...stationPlaces(context, i, stated.at),
  ];
  if (before === undefined) return limits;
  const section: Term[] = [
    [1, "station-place", i],
    [-1, "station-place", i - 1],
  ];
  const words = {
    complaint: (mm: number) => t`stations ${i} and ${i + 1} would have only ${sizeText(mm, analysis)} between them`,
    advice: t("remove one of them"),
  };
  // A step, or a section drawn shorter, may stay as short.
  const length = Math.min(LEAST_SECTION, MM * (station.x - before.x));
  return [...limits, ...atLeast(context, section, length, words), ...(isKept ? keptSlope(context, i) : [])];
}

/** Steps of the drawing by which a width may leave its taper's line either way: rounding takes one. */
const BESIDE_THE_LINE = 1.5;

/** The section above station `i` keeps its slope, to the drawing's step; a step of the bore its height. */
function keptSlope(context: LimitContext, i: number): Limit[] {
  const { analysis, column, unknowns, kept = column, stretch = 1 } = context;
  const [before, station] = [kept.bore[i - 1], kept.bore[i]];
  const isWidthUnknown = unknowns.some(({ kind, index }) => kind === "station-radius" && index === i);
  if (before === undefined || station === undefined || !isWidthUnknown) return [];
  const run = station.x - before.x;
  const slope = run > 0 ? (station.radius - before.radius) / run / stretch : 0;
  const beside: Term[] = [
    [2, "station-radius", i],
    [-2, "station-radius", i - 1],
    [-2 * slope, "station-place", i],
    [2 * slope, "station-place", i - 1],
  ];
  const line = 2 * MM * (station.radius - before.radius - slope * run * stretch);
  const { printedUnit, rounding } = analysis.instrument;
  const room = BESIDE_THE_LINE * MM * printedUnit * rounding;
  const words = {
    complaint: () =>
      i === column.bore.length - 1
        ? t("the taper above the foot would have to change its slope")
        : t`the taper above station ${i + 1} would have to change its slope`,
    advice: t("allow it (refit: { taper: free })"),
  };
  return [...atLeast(context, beside, line - room, words), ...atMost(context, beside, line + room, words)];
}

/** A taper that keeps its slope is as wide as its place makes it, within what is still an instrument. Diameters in mm. */
function slopeLimits(diameter: number, head: number): readonly [number, number] {
  return [Math.min(diameter, head * (1 - NARROWEST_SHARE)), Math.max(diameter, head * (1 + TAPER_SHARE))];
}

/**
 * Relative to the mouth, which no refit changes, so that the same refit again leads no further. A cylinder may narrow and does not flare;
 * what narrows goes on narrowing, what flares goes on flaring, what is beyond already stays. Diameters in mm.
 */
function taperLimits(diameter: number, head: number): readonly [number, number] {
  const flares = diameter > head * (1 + CYLINDER);
  return flares
    ? [head, Math.max(diameter, head * (1 + TAPER_SHARE))]
    : [Math.min(diameter, head * (1 - NARROWING_SHARE)), Math.max(diameter, head)];
}

/** Where the design says that a station, or the foot, may lie. */
function stationPlaces(context: LimitContext, i: number, stated: readonly [number, number] | undefined): Limit[] {
  if (stated === undefined) return [];
  const place: Term[] = [[1, "station-place", i]];
  const { analysis, column } = context;
  const what = i === column.bore.length - 1 ? t("the foot") : t`station ${i + 1}`;
  const words = {
    complaint: (mm: number) => t`${what} would have to lie at ${sizeText(mm, analysis)}, outside its limits`,
    advice: t("widen its limits.at"),
  };
  return [...atLeast(context, place, stated[0], words), ...atMost(context, place, stated[1], words)];
}

function stopperLimits(context: LimitContext): Limit[] {
  const { analysis, column } = context;
  const { bore, mouth } = column;
  const head = 2 * MM * boreRadiusAt(bore, 0);
  const edge = mouth.kind === "embouchure" ? (MM * mouth.length) / 2 : 0;
  const words = {
    complaint: (mm: number) => t`the stopper would have to stand ${sizeText(mm, analysis)} from the embouchure hole`,
    advice: t("move the stopper by hand"),
  };
  const [least, most] = STOPPER_SHARES;
  return [
    ...atLeast(context, [[1, "stopper"]], Math.max(edge, least * head), words),
    ...atMost(context, [[1, "stopper"]], most * head, words),
  ];
}
