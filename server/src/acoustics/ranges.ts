/** Bounds of what the prediction was checked against. Inside them no case is known that is off by more than 0.5 cent in the first register, 1 in the second. */
import type { AirState } from "./airState.js";
import { CHECKED } from "./checkedRanges.js";
import { boreRadiusAt, type Column, type ToneHole } from "./column.js";

/** Beyond these bounds nothing was checked: nobody knows how far off a note may be. */
export type Bounded =
  | "hole over bore"
  | "length of a hole over its width"
  | "slope of an undercut"
  | "space behind the window over bore radius"
  | "wave number times bore radius";

interface Where {
  /** Index of the hole in the column's own list, where one is meant. */
  readonly hole?: number;
  /** Index into `frequencies`, where a note is meant. */
  readonly note?: number;
}

export interface RangeWarning extends Where {
  readonly quantity: Bounded;
  readonly value: number;
  readonly least: number;
  readonly greatest: number;
}

/** Rounding of drawn sizes must not trigger a limit. */
const SLACK = 1e-6;

/** Bounds that the column and its notes exceed. `frequencies` are Hz of the notes of interest, undefined ones skipped. */
export function rangeWarnings(
  column: Column,
  air: AirState,
  frequencies: readonly (number | undefined)[],
): readonly RangeWarning[] {
  return [...windowWarnings(column), ...holeWarnings(column), ...noteWarnings(column, air, frequencies)];
}

function windowWarnings({ mouth, bore }: Column): RangeWarning[] {
  if (mouth.kind !== "window" || mouth.stopper === undefined) return [];
  const value = mouth.stopper / boreRadiusAt(bore, -mouth.cutUp / 2);
  return outside("space behind the window over bore radius", value, 0, CHECKED.windowSpace, {});
}

function holeWarnings({ holes, bore }: Column): RangeWarning[] {
  return holes.flatMap((own, hole): RangeWarning[] => {
    const { radius, chimney, halfLength = radius, undercut = 0 } = own;
    const inside = radiusInside(own);
    return [
      ...outside("hole over bore", inside / boreRadiusAt(bore, own.x), 0, CHECKED.holeOverBore[1], { hole }),
      ...outside("length of a hole over its width", halfLength / radius, ...CHECKED.lengthOverWidth, { hole }),
      ...outside("slope of an undercut", undercut / chimney, 0, CHECKED.undercutSlope, { hole }),
    ];
  });
}

/** Radius of the circle of the hole's area at the bore. */
function radiusInside({ radius, halfLength = radius, undercut = 0 }: ToneHole): number {
  return Math.sqrt((radius + undercut) * (halfLength + undercut));
}

function noteWarnings({ bore }: Column, { soundSpeed }: AirState, frequencies: readonly (number | undefined)[]) {
  const a = Math.max(...bore.map(({ radius }) => radius));
  return frequencies.flatMap((frequency, note) =>
    frequency === undefined
      ? []
      : outside(
          "wave number times bore radius",
          ((2 * Math.PI * frequency) / soundSpeed) * a,
          0,
          CHECKED.waveNumberTimesBore,
          {
            note,
          },
        ),
  );
}

function outside(quantity: Bounded, value: number, least: number, greatest: number, where: Where): RangeWarning[] {
  const inside = value >= least * (1 - SLACK) && value <= greatest * (1 + SLACK);
  return inside ? [] : [{ quantity, value, least, greatest, ...where }];
}
