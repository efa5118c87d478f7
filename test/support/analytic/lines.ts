/**
 * Solids by the mathematics of their surfaces, without a mesh: each is asked for the stretches of a line along z that lie in it. Circles are
 * circles here and ellipsoids ellipsoids. Volume by quadrature over such lines. mm.
 */

/** Starts and ends of stretches, ascending. */
export type Stretches = readonly number[];
export type Line = (x: number, y: number) => Stretches;
export type Point = readonly [number, number];

const EMPTY: Stretches = [];
export const nothing: Line = () => EMPTY;

/** What lies in at least one of `lines`, and in none of `without`. */
export function wood(lines: readonly Line[], without: readonly Line[] = []): Line {
  return (x, y) => {
    const has = met(lines, x, y);
    if (has.length === 0) return EMPTY;
    const lacking = met(without, x, y);
    return has.length === 1 && lacking.length === 0 ? (has[0] ?? EMPTY) : combined(has, lacking, 1);
  };
}

function met(lines: readonly Line[], x: number, y: number): readonly Stretches[] {
  return lines.map((line) => line(x, y)).filter(({ length }) => length > 0);
}

/** What lies in all of them. */
export function common(...lines: readonly Line[]): Line {
  return (x, y) => {
    const has = lines.map((line) => line(x, y));
    return has.some(({ length }) => length === 0) ? EMPTY : combined(has, [], lines.length);
  };
}

/** Ends met along a line, in order, and what each changes: 1 and −1 for wood, 2 and −2 for what is taken away. */
const places = new Float64Array(64);
const changes = new Int8Array(64);

function combined(has: readonly Stretches[], without: readonly Stretches[], least: number): Stretches {
  let count = 0;
  const sortIn = (stretches: Stretches, change: number) => {
    for (const [i, at] of stretches.entries()) {
      let k = count++;
      for (; k > 0 && (places[k - 1] ?? 0) > at; k--) {
        places[k] = places[k - 1] ?? 0;
        changes[k] = changes[k - 1] ?? 0;
      }
      places[k] = at;
      changes[k] = i % 2 === 0 ? change : -change;
    }
  };
  for (const each of has) sortIn(each, 1);
  for (const each of without) sortIn(each, 2);
  const found: number[] = [];
  let [inside, outside, is] = [0, 0, false];
  for (let k = 0; k < count; k++) {
    const change = changes[k] ?? 0;
    if (Math.abs(change) === 1) inside += change;
    else outside += change / 2;
    const now = inside >= least && outside === 0;
    if (now !== is) found.push(places[k] ?? 0);
    is = now;
  }
  return found;
}

/** Where a closed outline is crossed at height `at` of its first coordinate: seconds, ascending. */
function crossings(outline: readonly Point[], at: number): Stretches {
  const found: number[] = [];
  let [u, v] = outline.at(-1) ?? [0, 0];
  for (const [s, t] of outline) {
    if (u > at !== s > at) found.push(v + ((at - u) / (s - u)) * (t - v));
    [u, v] = [s, t];
  }
  return found.length > 1 ? found.sort((a, b) => a - b) : EMPTY;
}

/** A closed outline of [z, radius] turned about the axis. */
export function turned(outline: readonly Point[]): Line {
  const byRadius = outline.map(([z, radius]): Point => [radius, z]);
  return (x, y) => crossings(byRadius, Math.hypot(x, y));
}

/** What lies between the axis and a profile of [z, radius]. */
export function filled(profile: readonly Point[]): Line {
  const [first = [0, 0], last = [0, 0]] = [profile[0], profile.at(-1)];
  return turned([[first[0], -1], ...profile, [last[0], -1]]);
}

/** A side view of [y, z], `width` wide about x = `middle`. */
export function prism(side: readonly Point[], width: number, middle = 0): Line {
  return (x, y) => (Math.abs(x - middle) < width / 2 ? crossings(side, y) : EMPTY);
}

/** A plan of [x, z] seen from the front, from y `low` upward. */
export function slab(plan: readonly Point[], low = 0): Line {
  return (x, y) => (y > low ? crossings(plan, x) : EMPTY);
}

/** Half the width of an opening across and along, at distances from the axis. */
export type Oval = readonly [y: number, across: number, along: number];

/** A stack of ovals about the y axis, then turned about z, clockwise seen from the mouth. */
export function ovals(rings: readonly Oval[], degrees = 0, at = 0): Line {
  const [cos, sin] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
  return (x, y) => {
    const [u, v] = [cos * x + sin * y, cos * y - sin * x];
    const above = rings.findIndex(([height]) => height > v);
    const [below, top] = [rings[above - 1], rings[above]];
    if (below === undefined || top === undefined) return EMPTY;
    const share = (v - below[0]) / (top[0] - below[0]);
    const across = below[1] + share * (top[1] - below[1]);
    if (Math.abs(u) >= across) return EMPTY;
    const half = (below[2] + share * (top[2] - below[2])) * Math.sqrt(1 - (u / across) ** 2);
    return [at - half, at + half];
  };
}

/** What lies within `out` of an ellipsoid, square to its surface: its support function with `out` more (convex geometry, from memory). */
export function ellipsoid([a, b, c]: readonly [number, number, number], out = 0): Line {
  return (x, y) => {
    // The normal n of the surface at (x, y), by way of h, the distance of the plane that touches the ellipsoid there from the middle.
    let [h, u, v] = [c, 0, 0];
    let [low, high] = [Math.min(a, b, c), Math.max(a, b, c)];
    for (let i = 0; i < (out === 0 ? 0 : 26); i++) {
      h = (low + high) / 2;
      [u, v] = [x / (a ** 2 / h + out), y / (b ** 2 / h + out)];
      if (c ** 2 + (a ** 2 - c ** 2) * u ** 2 + (b ** 2 - c ** 2) * v ** 2 > h ** 2) low = h;
      else high = h;
    }
    const left = out === 0 ? 1 - (x / a) ** 2 - (y / b) ** 2 : 1 - u ** 2 - v ** 2;
    if (left <= 0) return EMPTY;
    const top = Math.sqrt(left) * (out === 0 ? c : c ** 2 / h + out);
    return [-top, top];
  };
}

/** An oval cylinder along a direction in the plane of x and z: from `from` to `to` of it, `across` half as wide in that plane, `along` along y. */
export function leaning(
  [px, pz]: Point,
  [nx, nz]: Point,
  [from, to]: Point,
  { across, along }: { readonly across: number; readonly along: number },
): Line {
  return (x, y) => {
    if (Math.abs(y) >= along) return EMPTY;
    const half = across * Math.sqrt(1 - (y / along) ** 2);
    const ahead = between(nx * (x - px), nz, from, to);
    const aside = between(nz * (x - px), -nx, -half, half);
    if (ahead === undefined || aside === undefined) return EMPTY;
    const [low, high] = [Math.max(ahead[0], aside[0]), Math.min(ahead[1], aside[1])];
    return low < high ? [pz + low, pz + high] : EMPTY;
  };
}

/** A round cylinder along any direction, of unit length, through a point: from `from` to `to` of it. */
export function pointing(
  [px, py, pz]: readonly [number, number, number],
  [nx, ny, nz]: readonly [number, number, number],
  [from, to]: Point,
  radius: number,
): Line {
  return (x, y) => {
    const [u, v] = [x - px, y - py];
    const start = nx * u + ny * v;
    const ahead = between(start, nz, from, to);
    // (u² + v² + t²) − (start + nz t)² < radius² for t from pz on.
    const level = 1 - nz * nz;
    const inside = (start * nz) ** 2 - level * (u * u + v * v - start * start - radius * radius);
    if (ahead === undefined || level < 1e-12 || inside <= 0) return EMPTY;
    const [middle, half] = [(start * nz) / level, Math.sqrt(inside) / level];
    const [low, high] = [Math.max(ahead[0], middle - half), Math.min(ahead[1], middle + half)];
    return low < high ? [pz + low, pz + high] : EMPTY;
  };
}

/** Where `start + slope · t` lies between two values. */
function between(start: number, slope: number, low: number, high: number): Point | undefined {
  if (Math.abs(slope) < 1e-12) return start > low && start < high ? [-1e3, 1e3] : undefined;
  const [a, b] = [(low - start) / slope, (high - start) / slope];
  return a < b ? [a, b] : [b, a];
}

export const slice =
  (low: number, high: number): Line =>
  () => [low, high];

const lengthOf = (stretches: Stretches): number => stretches.reduce((sum, at, i) => sum + (i % 2 === 0 ? -at : at), 0);

/** Of what is round about the z axis but for details. @param jumps radii at which the length of lines jumps: walls along the axis @param fine how many times finer than usual */
export function roundVolume(line: Line, jumps: readonly number[], fine = 1): number {
  const edges = [0, ...[...new Set(jumps)].sort((a, b) => a - b)];
  const rays = RAYS * fine;
  let [sum, ring] = [0, 0];
  for (const [i, to] of edges.entries()) {
    const from = edges[i - 1] ?? 0;
    const steps = Math.ceil((fine * (to - from)) / RING);
    for (let k = 0; k < steps; k++) {
      const radius = from + ((k + 0.5) * (to - from)) / steps;
      // Each ring begins elsewhere, so that straight walls are not always met alike.
      const start = (ring++ * GOLDEN) % 1;
      let around = 0;
      for (let j = 0; j < rays; j++) {
        const turn = (2 * Math.PI * (j + start)) / rays;
        around += lengthOf(line(radius * Math.sin(turn), radius * Math.cos(turn)));
      }
      sum += (around / rays) * 2 * Math.PI * radius * ((to - from) / steps);
    }
  }
  return sum;
}

/** Within x and y of a box, over a grid whose rows begin each elsewhere. */
export function boxVolume(line: Line, [x0, x1]: Point, [y0, y1]: Point, step: number): number {
  const [columns, rows] = [Math.ceil((x1 - x0) / step), Math.ceil((y1 - y0) / step)];
  const [dx, dy] = [(x1 - x0) / columns, (y1 - y0) / rows];
  let sum = 0;
  for (let row = 0; row < rows; row++) {
    const start = (row * GOLDEN) % 1;
    for (let column = 0; column < columns; column++)
      sum += lengthOf(line(x0 + (column + start) * dx, y0 + (row + 0.5) * dy));
  }
  return sum * dx * dy;
}

/** Over columns of x, each parted where lines change their length at once. @param jumps the y of these places, in any order */
export function partedVolume(
  line: Line,
  [x0, x1]: Point,
  step: number,
  jumps: (x: number) => readonly number[],
): number {
  const columns = Math.ceil((x1 - x0) / step);
  const dx = (x1 - x0) / columns;
  let sum = 0;
  for (let column = 0; column < columns; column++) {
    const x = x0 + (column + 0.5) * dx;
    const edges = [...jumps(x)].sort((a, b) => a - b);
    for (const [i, to] of edges.entries()) {
      const from = edges[i - 1] ?? to;
      for (let k = 0; k < PARTED && to > from; k++)
        sum += (lengthOf(line(x, from + ((k + 0.5) * (to - from)) / PARTED)) * (to - from)) / PARTED;
    }
  }
  return sum * dx;
}

const PARTED = 3;

/** Distance of rings, mm, and lines on each; the golden ratio's fraction spreads their starts. */
const RING = 0.12;
const RAYS = 200;
const GOLDEN = 0.6180339887498949;
