/** The fingers on a column, in millimetres of the printed object: as the findings of hands see them. */
import { boreRadiusAt, type Column } from "../../acoustics/column.js";
import {
  doubleHoles,
  type Finger,
  type FingerHole,
  type FingerPair,
  fingerPairs,
  thumbPairs,
} from "../../instrument/hands/fingers.js";
import { isFingeredBy } from "../../instrument/making/making.js";
import type { Instrument } from "../../instrument/model.js";

const MM = 1e3;

export interface ColumnHole extends FingerHole {
  /** Its place in the column's list. */
  readonly index: number;
}

type Named = Pick<Instrument, "holes" | "fingerings">;

/** Neighbouring fingers, of one hand or of both. */
export function neighbouringFingers(instrument: Named, column: Column): readonly FingerPair<ColumnHole>[] {
  return fingerPairs(fingered(instrument, column));
}

/** Each thumb with the nearest finger of its hand. */
export function thumbsAndFingers(
  instrument: Named,
  column: Column,
): readonly (readonly [thumb: Finger<ColumnHole>, finger: Finger<ColumnHole>])[] {
  return thumbPairs(fingered(instrument, column));
}

/** Holes that lie under one finger two by two, by their indices, the one nearer to the mouth first. */
export function doubleHolesOf(instrument: Named, column: Column): readonly (readonly [number, number])[] {
  return doubleHoles(fingered(instrument, column)).map(([a, b]) => [a.index, b.index]);
}

function fingered({ holes, fingerings }: Named, column: Column): readonly ColumnHole[] {
  const isFingered = isFingeredBy(fingerings);
  return column.holes.flatMap(({ x, radius, halfLength = radius, angle }, index): ColumnHole[] => {
    if (!isFingered(index)) return [];
    const outer = MM * (boreRadiusAt(column.bore, x) + column.wall);
    const name = holes[index]?.name ?? "";
    return [{ index, name, at: MM * x, angle: (angle * 180) / Math.PI, length: 2 * MM * halfLength, outer }];
  });
}
