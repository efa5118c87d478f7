/** The space that a pan pipe and a vessel take up on the printer's bed, as boxes. */
import { DEFAULTS, MILLIMETRES_PER_INCH } from "../defaults.js";
import { cavityOf } from "../draft/cavity.js";
import { own } from "../path.js";
import { pipeData } from "../printed/pipes.js";
import type { Size } from "./laying.js";
import type { Making } from "./making.js";

/** A row of pipes printed as one: side by side, walls shared. Length, breadth, thickness, mm; undefined while a number is missing. */
export function pipesBlock({ draft, laidUnit }: Making): Size | undefined {
  const usual = DEFAULTS.pipeWall / (draft.unit === "in" ? MILLIMETRES_PER_INCH : 1);
  const wall = own(draft.data, "wall") === undefined ? usual : draft.wall;
  const pipes = pipeData(draft.data).map((_, i) => ({
    length: draft.numbers.at(["pipes", i, "length"]),
    diameter: draft.numbers.at(["pipes", i, "diameter"]),
  }));
  if (wall === undefined || pipes.length === 0) return undefined;
  const lengths = pipes.map(({ length }) => length ?? 0);
  const diameters = pipes.map(({ diameter }) => diameter ?? 0);
  const across = diameters.reduce((sum, diameter) => sum + diameter + wall, wall);
  const block = [Math.max(...lengths) + wall, across, Math.max(...diameters) + 2 * wall];
  return block.map((size) => size * laidUnit) as unknown as Size;
}

/** A vessel with its walls, without what sticks out at the mouth: from the longest side to the shortest, mm; undefined while a number is missing. */
export function vesselBlock({ draft, laidUnit }: Making): Size | undefined {
  const cavity = cavityOf(draft);
  const { wall } = draft;
  if (cavity === undefined || wall === undefined) return undefined;
  const inner =
    cavity.kind === "tube"
      ? ([cavity.length, cavity.diameter, cavity.diameter] as const)
      : cavity.semiAxes.map((half) => 2 * half);
  return inner.map((size) => (size + 2 * wall) * laidUnit).sort((a, b) => b - a) as unknown as Size;
}
