/** From the drawing to the printed object in SI units: the one border where a maker's units end. */
import type { Column, Mouth, Station, ToneHole } from "../acoustics/column.js";
import { DEFAULTS, MILLIMETRES_PER_INCH } from "./defaults.js";
import { type Draft, type DraftHole, holesAreKnown } from "./draft.js";
import type { Path } from "./finding.js";
import { valueAt } from "./path.js";

export interface Printing {
  /** Millimetres in one unit of length of the file. */
  readonly unitMillimetres: number;
  /** 1 is the size as drawn. */
  readonly printScale: number;
  /** Metres of the printed object for one unit of length in the file. */
  readonly printedUnit: number;
  /** How much smaller a printed hole comes out, m on the diameter, after scaling. */
  readonly holeUndersize: number;
  /** False while a number of `print` cannot be used, and the size of the printed object is not known. */
  readonly known: boolean;
}

export function printingOf({ data, numbers, unit }: Draft): Printing {
  const unitMillimetres = unit === "in" ? MILLIMETRES_PER_INCH : 1;
  let known = true;
  const read = (path: Path, standIn: number, fits: (value: number) => boolean) => {
    const value = valueAt(data, path) === undefined ? standIn : numbers.at(path);
    if (value !== undefined && fits(value)) return value;
    known = false;
    return standIn;
  };
  const printScale = read(["print", "scale"], DEFAULTS.printScale, (value) => value > 0) / 100;
  const shrinkage = read(["print", "shrinkage"], DEFAULTS.shrinkage, (value) => value < 100) / 100;
  const undersize = read(["print", "holeUndersize"], DEFAULTS.holeUndersize, (value) => value >= 0);
  return {
    unitMillimetres,
    printScale,
    printedUnit: (unitMillimetres / 1000) * printScale * (1 - shrinkage),
    holeUndersize: (undersize * unitMillimetres) / 1000,
    known,
  };
}

/** How far a printed diameter may be from what it should be, m. A bad number counts as not given. */
export function printTolerance({ numbers, unit }: Draft): number {
  const stated = numbers.at(["print", "tolerance"]);
  const millimetres =
    stated === undefined ? DEFAULTS.printToleranceMillimetres : stated * (unit === "in" ? MILLIMETRES_PER_INCH : 1);
  return millimetres / 1000;
}

/** Step to which changed places and diameters are drawn, in the file's unit. A bad number counts as not given. */
export function roundingOf({ numbers, unit }: Draft): number {
  const stated = numbers.at(["print", "rounding"]);
  return stated !== undefined && stated > 0 ? stated : DEFAULTS.rounding[unit === "in" ? "in" : "mm"];
}

/** The air column of the printed object, m; undefined while a number is missing or nothing of that size can be made. */
export function columnOf(draft: Draft, printing: Printing): Column | undefined {
  const { printedUnit } = printing;
  const { wall, foot } = draft;
  if (draft.bore === undefined || !holesAreKnown(draft.data)) return undefined;
  const bore = allOf(draft.bore, ({ at, diameter }): Station | undefined =>
    at === undefined || diameter === undefined
      ? undefined
      : { x: at * printedUnit, radius: (diameter * printedUnit) / 2 },
  );
  const holes = allOf(draft.holes, (hole) => printedHole(hole, hole.at, printing));
  const mouth = printedMouth(draft, printing);
  if (!printing.known || wall === undefined || bore === undefined || holes === undefined || mouth === undefined)
    return undefined;
  const column = { bore, wall: wall * printedUnit, foot, holes, mouth };
  return sizesOf(column).every((size) => Number.isFinite(size) && size > 0) ? column : undefined;
}

/**
 * A hole of a tube whose centre is at `at`, in the file's unit; undefined while a number of it is missing. An undersize takes as
 * much from both ends of an undercut hole.
 */
export function printedHole(
  { diameter, length, undercut, raised, chimney, angle }: DraftHole,
  at: number | undefined,
  { printedUnit, holeUndersize }: Printing,
): ToneHole | undefined {
  if (at === undefined || diameter === undefined || length === undefined) return undefined;
  if (undercut === undefined || raised === undefined || chimney === undefined || angle === undefined) return undefined;
  const half = (size: number) => (size * printedUnit - holeUndersize) / 2;
  return {
    x: at * printedUnit,
    radius: half(diameter),
    chimney: chimney * printedUnit,
    angle: (angle * Math.PI) / 180,
    ...(length === diameter ? {} : { halfLength: half(length) }),
    ...(undercut === 0 ? {} : { undercut: (undercut * printedUnit) / 2 }),
    ...(raised === 0 ? {} : { raised: raised * printedUnit }),
  };
}

/** The mouth in SI units, as printed. */
export function printedMouth({ mouth }: Draft, { printedUnit, holeUndersize }: Printing): Mouth | undefined {
  switch (mouth?.kind) {
    case "correction":
      return { kind: "correction", length: mouth.length * printedUnit };
    case "window":
      return {
        kind: "window",
        width: mouth.width * printedUnit,
        cutUp: mouth.cutUp * printedUnit,
        chimney: mouth.chimney * printedUnit,
        ...(mouth.stopper === 0 ? {} : { stopper: mouth.stopper * printedUnit }),
        extra: mouth.extra * printedUnit,
      };
    case "embouchure":
      return {
        kind: "embouchure",
        length: mouth.length * printedUnit - holeUndersize,
        width: mouth.width * printedUnit - holeUndersize,
        chimney: mouth.chimney * printedUnit,
        cover: mouth.cover,
        stopper: mouth.stopper * printedUnit,
        extra: mouth.extra * printedUnit,
      };
    case "notch":
      return {
        kind: "notch",
        width: mouth.width * printedUnit,
        cutUp: mouth.cutUp * printedUnit,
        chimney: mouth.chimney * printedUnit,
        extra: mouth.extra * printedUnit,
      };
    case "rim":
      return { ...mouth, extra: mouth.extra * printedUnit };
    default:
      return mouth;
  }
}

/** Every length that must be more than nothing for the column to be an object at all. */
function sizesOf({ bore, holes, wall, mouth }: Column): readonly number[] {
  const sizes = [
    wall,
    ...bore.map(({ radius }) => radius),
    ...holes.flatMap(({ radius, halfLength = radius, chimney }) => [radius, halfLength, chimney]),
  ];
  if (mouth.kind === "window" || mouth.kind === "notch") sizes.push(mouth.width, mouth.cutUp, mouth.chimney);
  if (mouth.kind === "embouchure") sizes.push(mouth.length, mouth.width, mouth.chimney, mouth.stopper);
  return sizes;
}

/** Whether the stations follow one another toward the foot. */
export function isInOrder({ bore }: Column): boolean {
  return bore.every(({ x }, i) => x >= (bore[i - 1]?.x ?? Number.NEGATIVE_INFINITY));
}

/** The results in order, or undefined if any of them is. */
export function allOf<T, R>(items: readonly T[], make: (item: T) => R | undefined): readonly R[] | undefined {
  const made = items.map(make).filter((item) => item !== undefined);
  return made.length === items.length ? made : undefined;
}
