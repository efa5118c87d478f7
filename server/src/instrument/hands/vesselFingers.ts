/** The fingers on a round vessel: its holes lie round the body, left and right of the mouth. */
import { apart, cavityOf, holeDirection, holeElevation, placeIsAssumed, placeOn } from "../draft/cavity.js";
import type { Path } from "../finding.js";
import type { Making } from "../making/making.js";
import { type FingersApart, fingersFrom, handOf } from "./fingers.js";

interface VesselHole {
  readonly name: string;
  readonly path: Path;
  readonly index: number;
  /** Degrees from the mouth, -180 to 180. */
  readonly angle: number;
  /** Degrees over the plane through the mouth. */
  readonly elevation: number;
}

interface Pair {
  readonly upper: VesselHole;
  readonly lower: VesselHole;
  readonly which: FingersApart;
  /** Straight from centre to centre on the outer surface, mm. */
  readonly apart: number;
  readonly moved: "angle";
}

/**
 * Neighbours of one hand, by the names L… and R… where every hole has one, else by the side of the mouth. Holes without
 * an `angle` of their own may be anywhere, and a thumb's (T…) pairs with nothing.
 */
export function vesselFingerPairs({ draft, finishedUnit, isFingered }: Making): readonly Pair[] {
  const cavity = cavityOf(draft);
  const { wall } = draft;
  if (cavity?.kind !== "round" || wall === undefined) return [];
  const holes = draft.holes.flatMap(({ label, path }, i): VesselHole[] => {
    const direction = placeIsAssumed(draft, i) ? undefined : holeDirection(draft, i);
    const elevation = holeElevation(draft, i);
    if (direction === undefined || elevation === undefined || !isFingered(i) || /^T/i.test(label)) return [];
    return [{ name: label, path, index: i, angle: ((((direction + 180) % 360) + 360) % 360) - 180, elevation }];
  });
  const named = holes.every(({ name }) => handOf(name) !== undefined);
  const hand = ({ name, angle }: VesselHole) => (named ? handOf(name) : angle < 0 ? "L" : "R");
  const [a, b, c] = cavity.semiAxes;
  const outer = [a + wall, b + wall, c + wall] as const;
  return ["L", "R"].flatMap((side) => {
    const own = holes.filter((hole) => hand(hole) === side).sort((x, y) => Math.abs(x.angle) - Math.abs(y.angle));
    return own.slice(1).map((lower, i): Pair => {
      const upper = own[i] ?? lower;
      const [from, to] = [upper, lower].map(({ angle, elevation }) => placeOn(outer, angle, elevation).point);
      return {
        upper,
        lower,
        which: fingersFrom(i),
        apart: from === undefined || to === undefined ? Number.NaN : apart(from, to) * finishedUnit,
        moved: "angle",
      };
    });
  });
}
