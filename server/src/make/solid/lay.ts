/** Places of parts on the printer's bed: rows, the largest first. */
import type { Size } from "../../instrument/making/laying.js";
import type { Point3 } from "./kernel.js";

/** Room between parts, mm, and the width of the rows where no bed is known. Common practice, no source. */
const GAP = 8;
const USUAL_WIDTH = 220;

/** mm: rounding does not count. */
const TOUCHING = 1e-6;

export interface Laid {
  /** One a part, in their order. */
  readonly moves: readonly Point3[];
  /** Whether all of it lies on the bed at once; true where no bed is known. */
  readonly fits: boolean;
  /** Parts that do not stand on the bed even alone. */
  readonly tooLarge: readonly number[];
}

export function layOut(sizes: readonly Point3[], bed: Size | undefined): Laid {
  const [wide, deep] = bed ?? [USUAL_WIDTH, Number.POSITIVE_INFINITY];
  const order = sizes.map((_, i) => i).sort((a, b) => (sizes[b]?.[1] ?? 0) - (sizes[a]?.[1] ?? 0));
  const moves: Point3[] = sizes.map(() => [0, 0, 0]);
  let [x, y, row] = [0, 0, 0];
  let widest = 0;
  for (const i of order) {
    const [width, depth] = sizes[i] ?? [0, 0, 0];
    if (x > 0 && x + width > wide) [x, y, row] = [0, y + row + GAP, 0];
    moves[i] = [x, y, 0];
    x += width + GAP;
    widest = Math.max(widest, x - GAP);
    row = Math.max(row, depth);
  }
  const tooLarge = sizes.flatMap((size, i) => (bed === undefined || standsOn(size, bed) ? [] : [i]));
  const fits = bed === undefined || (widest <= wide + TOUCHING && y + row <= deep + TOUCHING);
  return { moves, fits, tooLarge };
}

/** Upright as it is, turned on the bed as it likes. */
function standsOn([width, depth, height]: Point3, [x, y, z]: Size): boolean {
  const [small, large] = [Math.min(width, depth), Math.max(width, depth)];
  return small <= Math.min(x, y) + TOUCHING && large <= Math.max(x, y) + TOUCHING && height <= z + TOUCHING;
}
