/** Where in the plane across a direction the inward normals of many walls meet: the middles of bores. */
import { facesOf, type Mesh } from "../mesh/mesh.js";
import { randomNumbers } from "../mesh/statistics.js";

export interface Centre {
  readonly x: number;
  readonly y: number;
  /** Share of the wall's area whose normals meet here. */
  readonly share: number;
  /** Along the direction. */
  readonly from: number;
  readonly to: number;
}

interface Wall {
  readonly x: number;
  readonly y: number;
  /** Out of the wood. */
  readonly nx: number;
  readonly ny: number;
  readonly area: number;
  /** Width of the face across the direction: the flatter the side, the less its normal says. */
  readonly chord: number;
  readonly from: number;
  readonly to: number;
}

/** Faces that are drawn, by area, where there are more. */
const SAMPLE = 2000;
const PAIRS = 600;
const STEEPEST = 0.15;
/** A further centre must have this share of the first one's support. */
const LEAST_OF_FIRST = 0.15;

/** The mesh's z is the direction. Best first. @param most how many are sought */
export function centresOf(mesh: Mesh, most: number): readonly Centre[] {
  const random = randomNumbers(7);
  let pool = wallsOf(mesh, random);
  const total = pool.reduce((sum, { area }) => sum + area, 0);
  const found: (Centre & { readonly area: number })[] = [];
  while (found.length < most && pool.length > 8) {
    const best = bestPoint(pool, random);
    if (best === undefined) break;
    const inliers = pool.filter((wall) => meets(wall, best.x, best.y));
    if (found[0] !== undefined && best.votes < LEAST_OF_FIRST * found[0].area) break;
    const { x, y } = refit(inliers) ?? best;
    const [from, to] = [Math.min(...inliers.map((w) => w.from)), Math.max(...inliers.map((w) => w.to))];
    found.push({ x, y, area: best.votes, share: best.votes / total, from, to });
    const gone = new Set(inliers);
    pool = pool.filter((wall) => !gone.has(wall));
  }
  return found;
}

/** If there are more than a few thousand, some are drawn evenly by area: each then represents the same area of wall. */
function wallsOf(mesh: Mesh, random: () => number): readonly Wall[] {
  const { normal, area, middle } = facesOf(mesh);
  const isWall = (i: number) => Math.abs(normal[3 * i + 2] as number) <= STEEPEST && (area[i] as number) > 0;
  let [count, total] = [0, 0];
  for (let i = 0; i < area.length; i++)
    if (isWall(i)) {
      count++;
      total += area[i] as number;
    }
  const step = count > SAMPLE ? total / SAMPLE : 0;
  const walls: Wall[] = [];
  let [sum, next] = [0, random() * step];
  for (let i = 0; i < area.length; i++) {
    if (!isWall(i)) continue;
    let drawn = area[i] as number;
    if (step > 0) {
      sum += drawn;
      drawn = 0;
      for (; next < sum; next += step) drawn += step;
      if (drawn === 0) continue;
    }
    walls.push({ ...wallOf(mesh, i, normal, middle), area: drawn });
  }
  return walls;
}

function wallOf({ v, t }: Mesh, i: number, normal: Float64Array, middle: Float64Array): Omit<Wall, "area"> {
  const length = Math.hypot(normal[3 * i] as number, normal[3 * i + 1] as number);
  const [nx, ny] = [(normal[3 * i] as number) / length, (normal[3 * i + 1] as number) / length];
  const corners = [0, 1, 2].map((k) => 3 * (t[3 * i + k] as number));
  const across = corners.map((c) => -ny * (v[c] as number) + nx * (v[c + 1] as number));
  const along = corners.map((c) => v[c + 2] as number);
  return {
    x: middle[3 * i] as number,
    y: middle[3 * i + 1] as number,
    nx,
    ny,
    chord: Math.max(...across) - Math.min(...across),
    from: Math.min(...along),
    to: Math.max(...along),
  };
}

/** Whether a wall's normal passes the point, and the wall looks toward it: a bore's wall, not a rod's. */
function meets({ x, y, nx, ny, chord }: Wall, px: number, py: number): boolean {
  return passes(px - x, py - y, nx, ny, CHORD * chord);
}

/** By how much of the chord a normal may pass the point by. */
const CHORD = 0.25;

/** @param dx from the wall to the point */
function passes(dx: number, dy: number, nx: number, ny: number, aside: number): boolean {
  const ahead = dx * nx + dy * ny;
  return ahead > 1e-9 && Math.abs(dx * ny - dy * nx) < Math.max(0.006 * ahead, aside) + 0.012 * ahead;
}

/** Numbers of a wall in one piece of memory: each is asked about a million times. */
const PACKED = 6;

function bestPoint(pool: readonly Wall[], random: () => number) {
  const packed = new Float64Array(PACKED * pool.length);
  for (const [i, { x, y, nx, ny, chord, area }] of pool.entries())
    packed.set([x, y, nx, ny, CHORD * chord, area], PACKED * i);
  const sums: number[] = [];
  let sum = 0;
  for (const { area } of pool) {
    sum += area;
    sums.push(sum);
  }
  const draw = () => {
    const wanted = random() * sum;
    let [low, high] = [0, sums.length - 1];
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((sums[middle] as number) < wanted) low = middle + 1;
      else high = middle;
    }
    return pool[low] as Wall;
  };
  let best: { readonly x: number; readonly y: number; readonly votes: number } | undefined;
  for (let pair = 0; pair < PAIRS; pair++) {
    const [a, b] = [draw(), draw()];
    const turn = a.nx * b.ny - a.ny * b.nx;
    if (Math.abs(turn) < 0.2) continue;
    const ahead = ((b.x - a.x) * b.ny - (b.y - a.y) * b.nx) / turn;
    const [x, y] = [a.x + ahead * a.nx, a.y + ahead * a.ny];
    const behind = (b.x - x) * b.nx + (b.y - y) * b.ny;
    if (ahead <= 0 || behind >= 0 || Math.abs(ahead + behind) > 0.3 * ahead) continue;
    let votes = 0;
    // Where even all that are left cannot make it the best, nothing is lost by going no farther.
    for (let i = 0; i < pool.length && (best === undefined || votes + sum - (sums[i - 1] ?? 0) > best.votes); i++) {
      const at = PACKED * i;
      const dx = x - (packed[at] as number);
      const dy = y - (packed[at + 1] as number);
      if (passes(dx, dy, packed[at + 2] as number, packed[at + 3] as number, packed[at + 4] as number))
        votes += packed[at + 5] as number;
    }
    if (best === undefined || votes > best.votes) best = { x, y, votes };
  }
  return best;
}

/** Where the normals pass nearest, by least squares. */
function refit(walls: readonly Wall[]): { readonly x: number; readonly y: number } | undefined {
  let [xx, xy, yy, x, y] = [0, 0, 0, 0, 0];
  for (const { nx, ny, area, ...at } of walls) {
    const [tx, ty] = [-ny, nx];
    const offset = tx * at.x + ty * at.y;
    xx += area * tx * tx;
    xy += area * tx * ty;
    yy += area * ty * ty;
    x += area * tx * offset;
    y += area * ty * offset;
  }
  const determinant = xx * yy - xy * xy;
  if (!(Math.abs(determinant) > 0)) return undefined;
  return { x: (x * yy - y * xy) / determinant, y: (y * xx - x * xy) / determinant };
}
