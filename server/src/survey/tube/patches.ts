/** Places of the bore's wall through which one sees out. */
import { FREE, IN_WOOD, WALL } from "../mesh/profile.js";
import { RAYS, type Run, type Scan } from "./scan.js";

export interface Patch {
  /** Middle direction, radians from x toward y. */
  readonly theta: number;
  readonly from: number;
  readonly to: number;
  /** Half the angle it takes up on the mean, radians. */
  readonly halfAngle: number;
  /** Whether it reaches the run's first or last row. */
  readonly isFirst: boolean;
  readonly isLast: boolean;
}

/** Smaller ones are cracks between facets. */
const FEWEST_CELLS = 6;
const SHORTEST_STEPS = 1.2;
/** mm: wood farther out than the wall's outside is seen through an opening: a rest, a block over it. */
const BEYOND_WALL = 1;
/** What goes nearly all round is the tube's own end, not an opening. */
const ALL_ROUND = 0.8;

/**
 * @param outer distance of the wall's outside from the axis at a place
 * @param beyond mm beyond an end that wood closes, where what stands on it may hide an opening from the axis
 */
export function patchesOf(
  { rows, step }: Scan,
  bore: Run,
  outer: (z: number) => number,
  { mm, radius }: Beyond = NONE_BEYOND,
): readonly Patch[] {
  const more = Math.ceil(mm / step);
  const first = bore.closedFrom ? Math.max(0, bore.first - more) : bore.first;
  const last = bore.closedTo ? Math.min(rows.length - 1, bore.last + more) : bore.last;
  const run = { first, last };
  const height = run.last - run.first + 1;
  const owner = new Int32Array(height * RAYS).fill(-1);
  const limits = Array.from({ length: height }, (_, i) => outer(rows[run.first + i]?.z ?? 0) + BEYOND_WALL);
  const walls = limits.map((_, i) => CLEAR * radius(rows[run.first + i]?.z ?? 0));
  const isOpen = (row: number, ray: number) => {
    const profile = rows[run.first + row]?.profile;
    if (profile === undefined) return false;
    const state = profile.state[ray];
    // A plug's cone on the axis, and no wall beyond it.
    if (state === IN_WOOD) return (profile.outer[ray] as number) < (walls[row] as number);
    return state === FREE || (state === WALL && (profile.inner[ray] as number) > (limits[row] as number));
  };
  const patches: Patch[] = [];
  for (let start = 0; start < owner.length; start++) {
    const [row, ray] = [Math.floor(start / RAYS), start % RAYS];
    if ((owner[start] as number) >= 0 || !isOpen(row, ray)) continue;
    const cells = [start];
    owner[start] = start;
    for (let k = 0; k < cells.length; k++) {
      const cell = cells[k] as number;
      const [a, b] = [Math.floor(cell / RAYS), cell % RAYS];
      for (let da = -1; da <= 1; da++)
        for (let db = -1; db <= 1; db++) {
          const [c, d] = [a + da, (b + db + RAYS) % RAYS];
          if (c < 0 || c >= height || (owner[c * RAYS + d] as number) >= 0 || !isOpen(c, d)) continue;
          owner[c * RAYS + d] = start;
          cells.push(c * RAYS + d);
        }
    }
    if (cells.length < FEWEST_CELLS) continue;
    const patch = patchOf(cells, run, rows, height);
    const share = patch.halfAngle / Math.PI;
    if (patch.to - patch.from > SHORTEST_STEPS * step && share < ALL_ROUND) patches.push(patch);
  }
  return patches;
}

export interface Beyond {
  readonly mm: number;
  /** Of the bore at a place. */
  readonly radius: (z: number) => number;
}

const NONE_BEYOND: Beyond = { mm: 0, radius: () => 0 };
/** Wood within this share of the bore's radius is not wall. */
const CLEAR = 0.9;

function patchOf(cells: readonly number[], run: Pick<Run, "first">, rows: Scan["rows"], height: number): Patch {
  let [x, y, low, high] = [0, 0, Infinity, -1];
  for (const cell of cells) {
    const row = Math.floor(cell / RAYS);
    const angle = ((cell % RAYS) + 0.5) * ((2 * Math.PI) / RAYS);
    x += Math.cos(angle);
    y += Math.sin(angle);
    if (row < low) low = row;
    if (row > high) high = row;
  }
  return {
    theta: Math.atan2(y, x),
    from: rows[run.first + low]?.z ?? 0,
    to: rows[run.first + high]?.z ?? 0,
    halfAngle: (Math.PI * cells.length) / ((high - low + 1) * RAYS),
    isFirst: low === 0,
    isLast: high === height - 1,
  };
}
