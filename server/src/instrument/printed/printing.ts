/** From the drawing to the printed object in SI units: the one border where a maker's units end. */
import { DEFAULTS, MILLIMETRES_PER_INCH } from "../defaults.js";
import type { Draft } from "../draft/draft.js";
import type { Path } from "../finding.js";
import { valueAt } from "../path.js";

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
