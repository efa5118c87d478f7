/** Corners where the prediction was found off by more than elsewhere, and bounds beyond which it was compared with nothing. */
import type { AirState } from "./airState.js";
import { CHECKED } from "./checkedRanges.js";
import { boreRadiusAt, type Column, type ToneHole } from "./column.js";

/**
 * Corners found by three-dimensional finite elements of whole tubes that the model was not made with (computed outside this project), and by how
 * many cents at the worst. What lies in no corner was within 0.5 cent in the first register and 1 in the second (docs/accuracy.md).
 */
export const CORNERS = {
  /** Holes of 0.75 of the bore 0.3 bore radii apart in a wall of 0.6: all open 1.7 sharp, beside closed ones 1 flat. */
  "wide neighbours in a thick wall": 1.7,
  /** Ovals in a wall of 0.12 of their radius: long ones flat, wide ones sharp. */
  "oval in a thin wall": 0.8,
} as const;

type Corner = keyof typeof CORNERS;

/** Beyond these bounds nothing was compared: by how much a note may be off nobody knows. */
export type Bounded =
  | "hole over bore"
  | "length of a hole over its width"
  | "slope of an undercut"
  | "space behind the window over bore radius"
  | "wave number times bore radius";

interface Where {
  /** Index of the hole in the column's own list, where one is meant; the second of two neighbours. */
  readonly hole?: number;
  /** Index of the first of two neighbours. */
  readonly other?: number;
  /** Index into `frequencies`, where a note is meant. */
  readonly note?: number;
}

export type RangeWarning =
  | (Where & { readonly kind: "corner"; readonly corner: Corner })
  | (Where & {
      readonly kind: "not compared";
      readonly quantity: Bounded;
      readonly value: number;
      readonly least: number;
      readonly greatest: number;
    });

/** Bounds of the corners. Tubes on their other side that were within 1 cent: N1 (0.7 of the bore, wall 0.31), N2 (wall 0.28 of a hole's radius). */
const WIDE = 0.7;
const NEARLY_TOUCHING = 0.4;
const THICK_WALL = 0.4;
const THIN_WALL = 0.2;

/** Rounding of drawn sizes must not tip a limit. */
const SLACK = 1e-6;

/** Corners that the column and its notes lie in, and bounds they pass. `frequencies` are Hz of the notes of interest, undefined ones skipped. */
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
    const other = holes.findIndex((each, i) => i !== hole && each.x <= own.x && areWideNeighbours(each, own, bore));
    return [
      ...outside("hole over bore", inside / boreRadiusAt(bore, own.x), 0, CHECKED.holeOverBore[1], { hole }),
      ...outside("length of a hole over its width", halfLength / radius, ...CHECKED.lengthOverWidth, { hole }),
      ...outside("slope of an undercut", undercut / chimney, 0, CHECKED.undercutSlope, { hole }),
      ...(halfLength !== radius && chimney < THIN_WALL * inside * (1 - SLACK)
        ? [{ kind: "corner", corner: "oval in a thin wall", hole } as const]
        : []),
      ...(other >= 0 ? [{ kind: "corner", corner: "wide neighbours in a thick wall", hole, other } as const] : []),
    ];
  });
}

/** Of the circle of the hole's area at the bore. */
function radiusInside({ radius, halfLength = radius, undercut = 0 }: ToneHole): number {
  return Math.sqrt((radius + undercut) * (halfLength + undercut));
}

function areWideNeighbours(upper: ToneHole, lower: ToneHole, bore: Column["bore"]): boolean {
  const a = boreRadiusAt(bore, lower.x);
  const wide = WIDE * a * (1 + SLACK);
  const gap = lower.x - upper.x - [upper, lower].reduce((sum, { radius, halfLength = radius }) => sum + halfLength, 0);
  return (
    Math.cos(upper.angle - lower.angle) > 0 &&
    gap < NEARLY_TOUCHING * a &&
    [upper, lower].every((each) => radiusInside(each) > wide && each.chimney > THICK_WALL * a)
  );
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
  return inside ? [] : [{ kind: "not compared", quantity, value, least, greatest, ...where }];
}
