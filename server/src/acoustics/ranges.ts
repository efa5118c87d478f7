/** Where a column leaves the ground on which its formulas were checked. */
import type { AirState } from "./airState.js";
import { boreRadiusAt, type Column } from "./column.js";

export type RangeQuantity =
  | "hole over bore"
  | "chimney over hole radius"
  | "distance of holes over bore radius"
  | "length of a hole over its width"
  | "slope of an undercut"
  | "space behind the window over bore radius"
  | "wave number times bore radius";

export interface RangeWarning {
  readonly quantity: RangeQuantity;
  readonly value: number;
  readonly least: number;
  readonly greatest: number;
  /** Index of the hole in the column's own list, where one is meant; the second of two neighbours. */
  readonly hole?: number;
  /** Index into `frequencies`, where a note is meant. */
  readonly note?: number;
}

/** Single-hole finite elements behind the hole formulas (coupled model, validity): δ, t/b, ka, and spacing s/a; δ from 0.13 by the vessel T1. */
const HOLE_OVER_BORE = [0.13, 0.8] as const;
const CHIMNEY_OVER_RADIUS = [0.2, 3] as const;
const LEAST_SPACING = 1.6;
/** Finite elements of one oval or undercut hole alone (slopes to 0.4), and of tubes (to 0.33; coupled model §11). */
const LENGTH_OVER_WIDTH = [0.5, 2] as const;
const GREATEST_SLOPE = 0.35;
/** Finite elements of tubes with a window and a plug go this far (reference/fem-stub.json). */
const GREATEST_SPACE = 4;
/** Up to here the finite-element cases go (at 0.5 a wide hole is already 4 % out); the bore's first higher mode only comes at 1.84. */
const GREATEST_KA = 0.4;
/** Rounding of drawn sizes must not tip a limit. */
const SLACK = 1e-6;

/**
 * Dimensions and notes beyond the checked ranges. `frequencies` are Hz of the notes of interest, undefined ones skipped.
 */
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
  return outside("space behind the window over bore radius", value, 0, GREATEST_SPACE, {});
}

function holeWarnings({ holes, bore }: Column): RangeWarning[] {
  return holes.flatMap(({ x, radius, chimney, angle, halfLength = radius, undercut = 0 }, hole): RangeWarning[] => {
    const a = boreRadiusAt(bore, x);
    const inside = Math.sqrt((radius + undercut) * (halfLength + undercut));
    const before = holes[hole - 1];
    const sameSide = before !== undefined && Math.cos(before.angle - angle) > 0;
    return [
      ...outside("hole over bore", inside / a, ...HOLE_OVER_BORE, { hole }),
      ...outside("chimney over hole radius", chimney / inside, ...CHIMNEY_OVER_RADIUS, { hole }),
      ...outside("length of a hole over its width", halfLength / radius, ...LENGTH_OVER_WIDTH, { hole }),
      ...outside("slope of an undercut", undercut / chimney, 0, GREATEST_SLOPE, { hole }),
      ...(sameSide
        ? outside("distance of holes over bore radius", (x - before.x) / a, LEAST_SPACING, Number.POSITIVE_INFINITY, {
            hole,
          })
        : []),
    ];
  });
}

function noteWarnings({ bore }: Column, { soundSpeed }: AirState, frequencies: readonly (number | undefined)[]) {
  const a = Math.max(...bore.map(({ radius }) => radius));
  return frequencies.flatMap((frequency, note) =>
    frequency === undefined
      ? []
      : outside("wave number times bore radius", ((2 * Math.PI * frequency) / soundSpeed) * a, 0, GREATEST_KA, {
          note,
        }),
  );
}

function outside(
  quantity: RangeQuantity,
  value: number,
  least: number,
  greatest: number,
  where: Pick<RangeWarning, "hole" | "note">,
): RangeWarning[] {
  const inside = value >= least * (1 - SLACK) && value <= greatest * (1 + SLACK);
  return inside ? [] : [{ quantity, value, least, greatest, ...where }];
}
