/** What a refit may change: holes' places and sizes, the bore's length and its taper toward the foot, the stopper. */
import type { Column } from "../../acoustics/column.js";
import type { Path } from "../../instrument/finding.js";
import type { Instrument } from "../../instrument/model.js";

export type UnknownKind = "hole-place" | "hole-radius" | "station-place" | "station-radius" | "stopper";

export interface Unknown {
  readonly kind: UnknownKind;
  /** Index of the hole or station; −1 for the stopper. */
  readonly index: number;
  readonly path: Path;
  /** Of a step of the bore: the stations at the same place, which move along. */
  readonly along?: readonly number[];
}

/** What a refit is free to use. */
export type Freedom = "all" | "holes";

/** Everything of an instrument that may move, but for what `isFixed` says stays; `holes` leaves the bore alone. */
export function unknownsOf(
  instrument: Instrument,
  column: Column,
  freedom: Freedom,
  isFixed: (path: Path) => boolean,
): readonly Unknown[] {
  const holes = instrument.holes.flatMap(({ path }, index): Unknown[] =>
    isFixed(path)
      ? []
      : [
          { kind: "hole-place", index, path: [...path, "at"] },
          { kind: "hole-radius", index, path: [...path, "diameter"] },
        ],
  );
  if (freedom === "holes") return holes;
  // The bore at and before the mouth stays: mouth and voice hang on it.
  const bore = column.bore.flatMap(({ x }, index): Unknown[] => {
    const path = ["bore", index];
    if (x <= 0 || isFixed(path)) return [];
    const width: Unknown = { kind: "station-radius", index, path: [...path, "diameter"] };
    const along = column.bore.flatMap((other, i) => (i !== index && other.x === x ? [i] : []));
    // A step is one edge: its place is moved as the first of its stations, and held where one of them is.
    const isHeld = along.some((i) => i < index || isFixed(["bore", i]));
    return isHeld ? [width] : [{ kind: "station-place", index, path: [...path, "at"], along }, width];
  });
  const stopper: Unknown[] =
    column.mouth.kind === "embouchure" ? [{ kind: "stopper", index: -1, path: ["mouth", "stopper"] }] : [];
  return [...holes, ...bore, ...stopper];
}

/** The value of an unknown in a column, m. */
export function valueIn({ kind, index }: Pick<Unknown, "kind" | "index">, column: Column): number {
  switch (kind) {
    case "hole-place":
      return column.holes[index]?.x ?? Number.NaN;
    case "hole-radius":
      return column.holes[index]?.radius ?? Number.NaN;
    case "station-place":
      return column.bore[index]?.x ?? Number.NaN;
    case "station-radius":
      return column.bore[index]?.radius ?? Number.NaN;
    case "stopper":
      return column.mouth.kind === "embouchure" ? column.mouth.stopper : Number.NaN;
  }
}

/** The column with one unknown set to another value. */
export function withValue(column: Column, { kind, index, along = [] }: Unknown, value: number): Column {
  switch (kind) {
    case "hole-place":
      return { ...column, holes: replaced(column.holes, index, { x: value }) };
    case "hole-radius":
      return { ...column, holes: replaced(column.holes, index, { radius: value }) };
    case "station-place":
      return {
        ...column,
        bore: along.reduce((bore, i) => replaced(bore, i, { x: value }), replaced(column.bore, index, { x: value })),
      };
    case "station-radius":
      return { ...column, bore: replaced(column.bore, index, { radius: value }) };
    case "stopper":
      return column.mouth.kind === "embouchure" ? { ...column, mouth: { ...column.mouth, stopper: value } } : column;
  }
}

function replaced<T>(items: readonly T[], index: number, change: Partial<T>): readonly T[] {
  return items.map((item, i) => (i === index ? { ...item, ...change } : item));
}
