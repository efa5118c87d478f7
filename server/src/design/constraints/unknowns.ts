/** What a refit may change: holes' places and sizes, their undercut where the design allows it, the bore's length and its taper toward the foot, the stopper. */
import type { Column } from "../../acoustics/column.js";
import { sharedColumn } from "../../instrument/body.js";
import type { Path } from "../../instrument/finding.js";
import type { Instrument } from "../../instrument/model.js";
import type { Constraints } from "./constraints.js";
import { doubleHolesOf } from "./fingers.js";

export type UnknownKind =
  | "hole-place"
  | "hole-radius"
  | "hole-undercut"
  | "station-place"
  | "station-radius"
  | "stopper";

export interface Unknown {
  readonly kind: UnknownKind;
  /** Index of the hole or station; −1 for the stopper. */
  readonly index: number;
  readonly path: Path;
  /** Of a step of the bore: the stations at the same place, which move along; of a width, those of the cylinder below it; of two holes under one finger, the other one. */
  readonly along?: readonly number[];
}

/** What a refit is free to use. */
export type Freedom = "all" | "holes";

/** Everything of an instrument that may move, but for what the design says stays; `holes` leaves the bore alone. */
export function unknownsOf(
  instrument: Instrument,
  column: Column,
  freedom: Freedom,
  constraints: Pick<Constraints, "isFixed" | "limits" | "taperIsFree" | "undercut">,
): readonly Unknown[] {
  const { isFixed } = constraints;
  const pairs = doubleHolesOf(instrument, column);
  const holes = instrument.holes.flatMap(({ path }, index): Unknown[] => {
    if (isFixed(path)) return [];
    const width: Unknown = { kind: "hole-radius", index, path: [...path, "diameter"] };
    const pair = pairs.find((each) => each.includes(index));
    // Two holes under one finger move as one, and stay where one of them does.
    const isHeld =
      pair !== undefined && (pair[1] === index || pair.some((i) => isFixed(instrument.holes[i]?.path ?? [])));
    const undercut: Unknown[] =
      constraints.undercut > 0 ? [{ kind: "hole-undercut", index, path: [...path, "undercut"] }] : [];
    return [...(isHeld ? [] : [holePlace(instrument, column, index, pairs)]), width, ...undercut];
  });
  if (freedom === "holes") return holes;
  // The bore at and before the mouth stays: mouth and voicing depend on it.
  const bore = column.bore.flatMap(({ x }, index): Unknown[] => {
    const path = ["bore", index];
    if (x <= 0 || isFixed(path)) return [];
    const cylinder = cylinderBelow(column, index, constraints);
    const isWidthHeld = cylinder.some((i) => isFixed(["bore", i])) || !mayChangeWidth(column, index, constraints);
    const width: Unknown[] = isWidthHeld
      ? []
      : [{ kind: "station-radius", index, path: [...path, "diameter"], along: cylinder }];
    const along = column.bore.flatMap((other, i) => (i !== index && other.x === x ? [i] : []));
    // A step is one edge: its place is moved as the first of its stations, and held where one of them is.
    const isHeld = along.some((i) => i < index || isFixed(["bore", i]));
    return isHeld ? width : [{ kind: "station-place", index, path: [...path, "at"], along }, ...width];
  });
  const stopper: Unknown[] =
    column.mouth.kind === "embouchure" ? [{ kind: "stopper", index: -1, path: ["mouth", "stopper"] }] : [];
  return [...holes, ...bore, ...stopper];
}

/** The place of a hole, with the one that lies under the same finger. */
export function holePlace(
  instrument: Instrument,
  column: Column,
  index: number,
  pairs = doubleHolesOf(instrument, column),
): Unknown {
  const path = [...(instrument.holes[index]?.path ?? []), "at"];
  const along = pairs.find((pair) => pair.includes(index))?.filter((other) => other !== index) ?? [];
  return along.length === 0 ? { kind: "hole-place", index, path } : { kind: "hole-place", index, path, along };
}

/** Difference, m, between an unknown's own value and that of a hole or station that moves along with it. */
export function offsetOf({ kind, index }: Unknown, other: number, column: Column): number {
  return valueIn({ kind, index: other }, column) - valueIn({ kind, index }, column);
}

/** What moves with an unknown, and how far from it each lies, file's unit. */
export function alongWith(
  unknown: Unknown,
  { body, holes, printedUnit }: Instrument,
): readonly { readonly path: Path; readonly offset: number }[] {
  const column = sharedColumn(body);
  const list = unknown.kind === "hole-place" ? holes.map(({ path }) => path) : column?.bore.map((_, i) => ["bore", i]);
  const [name, times] = unknown.kind === "station-radius" ? ["diameter", 2] : ["at", 1];
  return (unknown.along ?? []).flatMap((index) => {
    const path = list?.[index];
    if (path === undefined || column === undefined) return [];
    return [{ path: [...path, name], offset: (times * offsetOf(unknown, index, column)) / printedUnit }];
  });
}

/** Neighbouring stations whose widths differ by less than this share belong to a cylinder. */
const CYLINDER = 0.005;

/** Whether a station lies in a cylinder that stays one: wherever it lies there, nothing sounds otherwise. */
export function changesNoNote({ bore }: Column, unknowns: readonly Unknown[], station: number): boolean {
  const around = [station - 1, station, station + 1];
  const radii = around.map((i) => bore[i]?.radius);
  const [first] = radii;
  return (
    first !== undefined &&
    radii.every((radius) => radius !== undefined && Math.abs(radius - first) <= CYLINDER * first) &&
    !unknowns.some(({ kind, index }) => kind === "station-radius" && around.includes(index))
  );
}

/** The stations below `index` that are as wide as it and stay so: a cylinder below a taper goes with the taper's end. */
function cylinderBelow(column: Column, index: number, constraints: Parameters<typeof mayChangeWidth>[2]): number[] {
  const below = column.bore.map((_, i) => i).slice(index + 1);
  const end = below.findIndex((i) => mayChangeWidth(column, i, constraints));
  return end < 0 ? below : below.slice(0, end);
}

/** A cylinder's end stays as wide unless the design allows more; a taper's width goes with its place (`boreLimits.ts`). */
function mayChangeWidth(
  { bore }: Column,
  index: number,
  { limits, taperIsFree }: Pick<Constraints, "limits" | "taperIsFree">,
): boolean {
  const [station, before] = [bore[index], bore[index - 1]];
  if (station === undefined) return false;
  if (taperIsFree || limits(["bore", index]).diameter !== undefined) return true;
  return before !== undefined && Math.abs(station.radius - before.radius) > CYLINDER * before.radius;
}

/** The value of an unknown in a column, m. */
export function valueIn({ kind, index }: Pick<Unknown, "kind" | "index">, column: Column): number {
  switch (kind) {
    case "hole-place":
      return column.holes[index]?.x ?? Number.NaN;
    case "hole-radius":
      return column.holes[index]?.radius ?? Number.NaN;
    case "hole-undercut":
      return column.holes[index]?.undercut ?? 0;
    case "station-place":
      return column.bore[index]?.x ?? Number.NaN;
    case "station-radius":
      return column.bore[index]?.radius ?? Number.NaN;
    case "stopper":
      return column.mouth.kind === "embouchure" ? column.mouth.stopper : Number.NaN;
  }
}

/** The column with one unknown set to another value. */
export function withValue(column: Column, unknown: Unknown, value: number): Column {
  const { kind, index, along = [] } = unknown;
  switch (kind) {
    case "hole-place":
      return {
        ...column,
        holes: along.reduce(
          (holes, i) => replaced(holes, i, { x: value + offsetOf(unknown, i, column) }),
          replaced(column.holes, index, { x: value }),
        ),
      };
    case "hole-radius":
      return { ...column, holes: replaced(column.holes, index, { radius: value }) };
    case "hole-undercut":
      return { ...column, holes: replaced(column.holes, index, { undercut: value }) };
    case "station-place":
      return {
        ...column,
        bore: along.reduce((bore, i) => replaced(bore, i, { x: value }), replaced(column.bore, index, { x: value })),
      };
    case "station-radius":
      return {
        ...column,
        bore: along.reduce(
          (bore, i) => replaced(bore, i, { radius: value + offsetOf(unknown, i, column) }),
          replaced(column.bore, index, { radius: value }),
        ),
      };
    case "stopper":
      return column.mouth.kind === "embouchure" ? { ...column, mouth: { ...column.mouth, stopper: value } } : column;
  }
}

function replaced<T>(items: readonly T[], index: number, change: Partial<T>): readonly T[] {
  return items.map((item, i) => (i === index ? { ...item, ...change } : item));
}
