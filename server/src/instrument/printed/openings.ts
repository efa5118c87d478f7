/** Holes and mouth as printed, SI units. */
import type { Mouth, ToneHole } from "../../acoustics/column.js";
import { notchReach } from "../../acoustics/notchReach.js";
import type { Draft, DraftHole, DraftMouth } from "../draft/draft.js";
import type { Printing } from "./printing.js";

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
export function printedMouth(
  { mouth }: Draft,
  { printedUnit, holeUndersize, unitMillimetres }: Printing,
): Mouth | undefined {
  switch (mouth?.kind) {
    case "correction":
      return { kind: "correction", length: mouth.length * printedUnit };
    case "window":
      return {
        kind: "window",
        width: mouth.width * printedUnit,
        cutUp: mouth.cutUp * printedUnit,
        chimney: mouth.chimney * mouth.labium * printedUnit,
        ...(mouth.stopper === 0 ? {} : { stopper: mouth.stopper * printedUnit }),
        extra: mouth.extra * printedUnit,
      };
    case "embouchure":
      return {
        kind: "embouchure",
        length: mouth.length * printedUnit - holeUndersize,
        width: mouth.width * printedUnit - holeUndersize,
        chimney: mouth.chimney * printedUnit,
        ...(mouth.undercut === 0 ? {} : { undercut: (mouth.undercut * printedUnit) / 2 }),
        cover: mouth.cover,
        stopper: mouth.stopper * printedUnit,
        extra: mouth.extra * printedUnit,
      };
    case "notch":
      return printedNotch(mouth, printedUnit, unitMillimetres / 1000);
    case "rim":
      return { ...mouth, extra: mouth.extra * printedUnit };
    default:
      return mouth;
  }
}

/** The notch grows with the print, where the player's lip lies does not. @param unit m, of what is not printed */
function printedNotch(
  { width, depth, gap, lipToEdge = 0, chimney, extra }: Extract<DraftMouth, { kind: "notch" }>,
  printedUnit: number,
  unit: number,
): Mouth {
  const printed = depth * printedUnit;
  const lip = gap === undefined ? { lipToEdge: lipToEdge * unit } : { gap: gap * unit };
  return {
    kind: "notch",
    width: width * printedUnit,
    cutUp: notchReach(printed, lip),
    depth: printed,
    ...lip,
    chimney: chimney * printedUnit,
    extra: extra * printedUnit,
  };
}
