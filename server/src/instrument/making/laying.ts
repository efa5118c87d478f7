/**
 * How an object lies in the space a printer reaches. Plain geometry: a rod of length L and width D whose axis has the direction
 * cosines u takes L·|u| + D·√(1 − u²) along each axis of the box.
 */

export type Size = readonly [number, number, number];

export type Laying =
  | { readonly kind: "straight" }
  /** Flat, turned by this many degrees from the bed's longer edge. */
  | { readonly kind: "turned"; readonly degrees: number }
  /** From corner to corner, leaning this many degrees up from the bed. */
  | { readonly kind: "leaning"; readonly degrees: number };

/** Directions are tried degree by degree: what needs a finer angle is too tight to slice. */
const STEP = 1;
const RADIANS = Math.PI / 180;
/** What just touches the sides fits; rounding does not matter. */
const TOUCHING = -1e-9;

/** How a round rod fits; the simplest way that does, undefined where none does. All in one unit. */
export function layingOfRod(length: number, width: number, bed: Size): Laying | undefined {
  const lying = layingOfBlock([length, width, width], bed);
  if (lying !== undefined || length <= width) return lying;
  // No line in a box is longer than its diagonal.
  if (length > Math.hypot(...bed)) return undefined;
  const [x, y, z] = bed;
  const slack = (along: number, room: number) => room - length * along - width * Math.sqrt(1 - along * along);
  let best = { slack: TOUCHING, degrees: 0 };
  for (let up = STEP; up < 90; up += STEP) {
    const [flat, rise] = [Math.cos(up * RADIANS), Math.sin(up * RADIANS)];
    const high = slack(rise, z);
    // Too high at this angle, however it is turned.
    if (high <= best.slack) continue;
    for (let turn = 0; turn <= 90; turn += STEP) {
      const along = slack(flat * Math.cos(turn * RADIANS), x);
      const least = Math.min(high, along, slack(flat * Math.sin(turn * RADIANS), y));
      if (least > best.slack) best = { slack: least, degrees: up };
    }
  }
  return best.degrees === 0 ? undefined : { kind: "leaning", degrees: best.degrees };
}

/** How a block fits, lying on one of its sides or standing. */
export function layingOfBlock(block: Size, bed: Size): Laying | undefined {
  const [small, middle, large] = [...block].sort((a, b) => a - b) as [number, number, number];
  const room = [...bed].sort((a, b) => a - b) as [number, number, number];
  if (small <= room[0] && middle <= room[1] && large <= room[2]) return { kind: "straight" };
  if (small > bed[2]) return undefined;
  const [across, along] = [Math.min(bed[0], bed[1]), Math.max(bed[0], bed[1])];
  let best = { slack: TOUCHING, degrees: 0 };
  for (let turn = STEP; turn < 90; turn += STEP) {
    const [cos, sin] = [Math.cos(turn * RADIANS), Math.sin(turn * RADIANS)];
    const slack = Math.min(along - large * cos - middle * sin, across - large * sin - middle * cos);
    if (slack > best.slack) best = { slack, degrees: turn };
  }
  return best.degrees === 0 ? undefined : { kind: "turned", degrees: best.degrees };
}

/** The longest rod of a width that fits, leaning only where it `mayLean`, to a tenth of a millimetre below; 0 where none does. All in mm. */
export function longestRod(width: number, bed: Size, mayLean: boolean): number {
  let [fits, least] = [0, Math.hypot(...bed)];
  while (least - fits > TENTH) {
    const middle = (fits + least) / 2;
    const laying = mayLean ? layingOfRod(middle, width, bed) : layingOfBlock([middle, width, width], bed);
    if (laying === undefined) least = middle;
    else fits = middle;
  }
  return fits;
}

const TENTH = 0.1;

/** The longest rod of a width that lies along an edge or stands; 0 where none does. */
export function longestStraightRod(width: number, [x, y, z]: Size): number {
  const standing = width <= Math.min(x, y) ? z : 0;
  const lying = width <= Math.min(x, y, z) ? Math.max(x, y) : 0;
  return Math.max(standing, lying);
}
