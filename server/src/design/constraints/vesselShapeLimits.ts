/** What a vessel's size and holes must keep to together: wall between its openings, and the printer's bed. Millimetres as printed. */
import { straightBetween, type Vessel, wallPoint } from "../../acoustics/vesselShape.js";
import type { Size } from "../../instrument/making/laying.js";
import { t } from "../../words/translation.js";
import { holeName } from "../fix/remedy.js";
import type { Analysis } from "../predict/analysis.js";
import type { Constraints } from "./constraints.js";
import { MM, sizeText } from "./limit.js";

/** `bySize · size + Σ factor · radius ≥ least`; the size is 1 as drawn. */
export interface VesselShapeLimit {
  readonly bySize: number;
  /** Indices of holes, each with its factor. */
  readonly byRadius: readonly (readonly [hole: number, factor: number])[];
  readonly least: number;
  /** What the limit is, for reports; and whether it is the most that is allowed. */
  readonly limit: number;
  readonly isMost?: boolean;
  readonly message: string;
  readonly advice: string;
}

/**
 * @param given the vessel as it was given, where `vessel` is on the way from it: its walls are those that may stay thinner
 */
export function vesselShapeLimits(
  vessel: Vessel,
  constraints: Constraints,
  analysis: Analysis,
  given: Vessel = vessel,
): readonly VesselShapeLimit[] {
  return [...gaps(vessel, constraints.holeGap, analysis, given), ...bedLimit(vessel, constraints, analysis)];
}

function gaps(vessel: Vessel, gap: number, analysis: Analysis, given: Vessel): readonly VesselShapeLimit[] {
  const between = (hole: number, other: number | undefined): VesselShapeLimit => {
    const apart = distance(vessel, hole, other);
    const half = halfWidth(vessel, other);
    // Where there is less wall in the given vessel, it may stay so.
    const wall = Math.min(gap, distance(given, hole, other) - halfWidth(given, hole) - halfWidth(given, other));
    const byRadius = [[hole, -1] as const, ...(other === undefined ? [] : [[other, -1] as const])];
    const beside = other === undefined ? t("the mouth") : holeName(analysis, other);
    return {
      bySize: apart,
      byRadius,
      least: wall + (other === undefined ? half : 0),
      limit: wall,
      message: t`${holeName(analysis, hole)} and ${beside} would have less than ${sizeText(wall, analysis)} of wall between them`,
      advice: t("give them places farther apart (`angle`, `elevation`)"),
    };
  };
  return vessel.holes.flatMap((_, hole) => [
    between(hole, undefined),
    ...vessel.holes.slice(0, hole).map((_, other) => between(hole, other)),
  ]);
}

/** Between the centres of two openings, straight, mm; undefined is the mouth. */
function distance(vessel: Vessel, hole: number, other: number | undefined): number {
  const [one, two] = [hole, other].map((i) => {
    const { angle = 0, elevation = 0 } = (i === undefined ? undefined : vessel.holes[i]) ?? {};
    return wallPoint(vessel, angle, elevation);
  });
  return one === undefined || two === undefined ? 0 : MM * straightBetween(one, two);
}

function halfWidth({ holes, mouth }: Vessel, hole: number | undefined): number {
  return MM * (hole === undefined ? mouth.width / 2 : (holes[hole]?.radius ?? 0));
}

/** Sizes that are searched for the greatest that fits: no refit makes anything larger. */
const LARGEST_SIZE = 16;
const CLOSE_ENOUGH = 1e-4;

/** One that does not fit as drawn is left to its finding. */
function bedLimit(
  { semiAxes, wall }: Vessel,
  { fitsBed }: Constraints,
  analysis: Analysis,
): readonly VesselShapeLimit[] {
  const outside = (size: number) => semiAxes.map((half) => 2 * MM * (half * size + wall)) as unknown as Size;
  if (!fitsBed(outside(1)) || fitsBed(outside(LARGEST_SIZE))) return [];
  let [fits, least] = [1, LARGEST_SIZE];
  while (least - fits > CLOSE_ENOUGH) {
    const middle = (fits + least) / 2;
    if (fitsBed(outside(middle))) fits = middle;
    else least = middle;
  }
  const longest = 2 * MM * Math.max(...semiAxes);
  const long = Math.max(...outside(fits));
  return [
    {
      bySize: -longest,
      byRadius: [],
      least: -longest * fits,
      limit: long,
      isMost: true,
      message: t`the vessel would have to be longer than ${sizeText(long, analysis)} outside, the most that the bed takes`,
      advice: t("state a larger bed (print.bed)"),
    },
  ];
}
