/** The air column of a tube as printed, SI units. */
import type { Column, Station } from "../../acoustics/column.js";
import type { Draft } from "../draft/draft.js";
import { holesAreKnown } from "../draft/read.js";
import { allOf, areSizes } from "./allOf.js";
import { printedHole, printedMouth } from "./openings.js";
import type { Printing } from "./printing.js";

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
  return areSizes(sizesOf(column)) ? column : undefined;
}

/** Every length that must be above 0 for the column to exist. */
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
