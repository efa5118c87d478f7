/** What a refit may change: holes' places and sizes, the bore's length and its taper toward the foot, the stopper. */
import type { Column } from "../../acoustics/column.js";
import type { Path } from "../../instrument/finding.js";
import type { Instrument } from "../../instrument/model.js";

export type UnknownKind = "hole-place" | "hole-radius" | "foot-place" | "foot-radius" | "stopper";

export interface Unknown {
  readonly kind: UnknownKind;
  /** Index of the hole, for the two kinds that have one. */
  readonly hole: number;
  readonly path: Path;
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
  const holes = instrument.holes.flatMap(({ path }, hole): Unknown[] =>
    isFixed(path)
      ? []
      : [
          { kind: "hole-place", hole, path: [...path, "at"] },
          { kind: "hole-radius", hole, path: [...path, "diameter"] },
        ],
  );
  if (freedom === "holes") return holes;
  const foot = ["bore", column.bore.length - 1];
  const bore: Unknown[] = isFixed(foot)
    ? []
    : [
        { kind: "foot-place", hole: -1, path: [...foot, "at"] },
        { kind: "foot-radius", hole: -1, path: [...foot, "diameter"] },
      ];
  const stopper: Unknown[] =
    column.mouth.kind === "embouchure" ? [{ kind: "stopper", hole: -1, path: ["mouth", "stopper"] }] : [];
  return [...holes, ...bore, ...stopper];
}

/** The value of an unknown in a column, m. */
export function valueIn({ kind, hole }: Unknown, column: Column): number {
  switch (kind) {
    case "hole-place":
      return column.holes[hole]?.x ?? Number.NaN;
    case "hole-radius":
      return column.holes[hole]?.radius ?? Number.NaN;
    case "foot-place":
      return column.bore.at(-1)?.x ?? Number.NaN;
    case "foot-radius":
      return column.bore.at(-1)?.radius ?? Number.NaN;
    case "stopper":
      return column.mouth.kind === "embouchure" ? column.mouth.stopper : Number.NaN;
  }
}

/** The column with one unknown set to another value. */
export function withValue(column: Column, { kind, hole }: Unknown, value: number): Column {
  switch (kind) {
    case "hole-place":
    case "hole-radius":
      return {
        ...column,
        holes: column.holes.map((old, i) =>
          i === hole ? { ...old, [kind === "hole-place" ? "x" : "radius"]: value } : old,
        ),
      };
    case "foot-place":
    case "foot-radius":
      return {
        ...column,
        bore: column.bore.map((old, i) =>
          i === column.bore.length - 1 ? { ...old, [kind === "foot-place" ? "x" : "radius"]: value } : old,
        ),
      };
    case "stopper":
      return column.mouth.kind === "embouchure" ? { ...column, mouth: { ...column.mouth, stopper: value } } : column;
  }
}
