/**
 * Looks at a mesh as whoever reads the file would, knowing nothing of how it was made: reads STL and 3MF, cuts it by planes, sizes
 * the loops, looks at its edges.
 */
import { strFromU8, unzipSync } from "fflate";

/** Nine coordinates a triangle. */
export type Soup = Float64Array;
export type Axis = 0 | 1 | 2;
type Point = readonly [number, number];
type Loop = readonly Point[];

export function readStl(bytes: Uint8Array): Soup {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const count = view.getUint32(80, true);
  if (bytes.length !== 84 + 50 * count) throw new Error(`${bytes.length} bytes for ${count} triangles`);
  const soup = new Float64Array(9 * count);
  for (let i = 0; i < count; i++)
    for (let k = 0; k < 9; k++) soup[9 * i + k] = view.getFloat32(84 + 50 * i + 12 + 4 * k, true);
  return soup;
}

export interface Read3mf {
  readonly xml: string;
  readonly objects: readonly { readonly name: string; readonly soup: Soup; readonly move: readonly number[] }[];
}

export function read3mf(bytes: Uint8Array): Read3mf {
  const files = unzipSync(bytes);
  const model = files["3D/3dmodel.model"];
  if (model === undefined) throw new Error(`no model among ${Object.keys(files)}`);
  const xml = strFromU8(model);
  const moves = new Map(
    [...xml.matchAll(/<item objectid="(\d+)" transform="([^"]*)"/g)].map(([, id, text = ""]) => [
      id,
      text.split(" ").map(Number).slice(9),
    ]),
  );
  const objects = [...xml.matchAll(/<object id="(\d+)"[^>]* name="([^"]*)">(.*?)<\/object>/gs)].map(
    ([, id, name = "", body = ""]) => {
      const corners = [...body.matchAll(/<vertex x="([^"]*)" y="([^"]*)" z="([^"]*)"/g)].map((m) =>
        m.slice(1).map(Number),
      );
      const triangles = [...body.matchAll(/<triangle v1="(\d+)" v2="(\d+)" v3="(\d+)"/g)].flatMap((m) =>
        m.slice(1).map(Number),
      );
      const soup = Float64Array.from(triangles.flatMap((index) => corners[index] ?? [Number.NaN]));
      return { name, soup, move: moves.get(id) ?? [] };
    },
  );
  return { xml, objects };
}

export interface Topology {
  readonly pieces: number;
  readonly genus: number;
  /** Edges that do not have exactly one neighbour, once each way. */
  readonly openEdges: number;
  /** Triangles two of whose corners are one. */
  readonly degenerate: number;
}

/** Corners are one where their coordinates are the same to the last bit. Genus by Euler's formula, V − E + F = 2·pieces − 2·genus. */
export function topology(soup: Soup): Topology {
  const { index, count } = cornersOf(soup);
  /** By the numbers of both corners in one. */
  const edges = new Map<number, number>();
  const parent = Array.from({ length: count }, (_, i) => i);
  const root = (i: number): number => {
    let at = i;
    while (parent[at] !== at) at = parent[at] ?? at;
    return at;
  };
  const use = (from: number, to: number) => {
    const edge = from * count + to;
    edges.set(edge, (edges.get(edge) ?? 0) + 1);
    parent[root(from)] = root(to);
  };
  let [degenerate, faces] = [0, 0];
  for (let i = 0; i < index.length; i += 3) {
    const [a, b, c] = [index[i] ?? 0, index[i + 1] ?? 0, index[i + 2] ?? 0];
    if (a === b || b === c || c === a) {
      degenerate++;
      continue;
    }
    faces++;
    use(a, b);
    use(b, c);
    use(c, a);
  }
  let openEdges = 0;
  for (const [edge, uses] of edges) {
    const [from, to] = [Math.floor(edge / count), edge % count];
    if (uses !== 1 || edges.get(to * count + from) !== 1) openEdges++;
  }
  const pieces = new Set(parent.map((_, i) => root(i))).size;
  const euler = count - edges.size / 2 + faces;
  return { pieces, genus: pieces - euler / 2, openEdges, degenerate };
}

/** The number of each corner's place, places counted as they come. */
function cornersOf(soup: Soup): { readonly index: Int32Array; readonly count: number } {
  const known = new Map<number, Map<number, Map<number, number>>>();
  const within = <V>(map: Map<number, V>, key: number, make: () => V): V => {
    const found = map.get(key) ?? make();
    map.set(key, found);
    return found;
  };
  const index = new Int32Array(soup.length / 3);
  let count = 0;
  for (let i = 0; i < index.length; i++) {
    const [x, y, z] = [soup[3 * i] ?? 0, soup[3 * i + 1] ?? 0, soup[3 * i + 2] ?? 0];
    const places = within(
      within(known, x, () => new Map()),
      y,
      () => new Map(),
    );
    index[i] = within(places, z, () => count++);
  }
  return { index, count };
}

/** By the divergence theorem; positive where the faces look outward. */
export function volume(soup: Soup): number {
  let sum = 0;
  for (let i = 0; i < soup.length; i += 9) {
    const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0, g = 0, h = 0, j = 0] = soup.subarray(i, i + 9);
    sum += a * (e * j - f * h) - b * (d * j - f * g) + c * (d * h - e * g);
  }
  return sum / 6;
}

/** A hair off round numbers, so that no corner lies in the plane. */
const ASIDE = 1.7e-5;

/** Closed loops of the cut at `axis` = `value`, in the two other coordinates. */
export function cut(soup: Soup, axis: Axis, value: number): readonly Loop[] {
  const at = value + ASIDE;
  const [u, v] = [0, 1, 2].filter((each) => each !== axis) as [number, number];
  const next = new Map<string, Map<string, Point>>();
  const key = (point: Point) => point.map((each) => Math.round(each * 1e5)).join();
  for (let i = 0; i < soup.length; i += 9) {
    const crossing: Point[] = [];
    for (let e = 0; e < 3; e++) {
      const [p, q] = [i + 3 * e, i + 3 * ((e + 1) % 3)];
      const [from, to] = [soup[p + axis] ?? 0, soup[q + axis] ?? 0];
      if (from > at === to > at) continue;
      const share = (at - from) / (to - from);
      const along = (k: number) => (soup[p + k] ?? 0) + share * ((soup[q + k] ?? 0) - (soup[p + k] ?? 0));
      crossing.push([along(u), along(v)]);
    }
    const [one, other] = crossing;
    if (one === undefined || other === undefined || key(one) === key(other)) continue;
    for (const [from, to] of [
      [one, other],
      [other, one],
    ] as const) {
      const beside = next.get(key(from)) ?? new Map<string, Point>();
      next.set(key(from), beside);
      // There and back again, across a sliver of a triangle, is not part of a loop.
      if (!beside.delete(key(to))) beside.set(key(to), to);
    }
  }
  return loopsOf(next);
}

function loopsOf(next: ReadonlyMap<string, ReadonlyMap<string, Point>>): readonly Loop[] {
  const loops: Loop[] = [];
  const used = new Set<string>();
  for (const start of next.keys()) {
    if (used.has(start)) continue;
    const loop: Point[] = [];
    let at: string | undefined = start;
    while (at !== undefined && !used.has(at)) {
      used.add(at);
      const step: readonly [string, Point] | undefined = [...(next.get(at) ?? [])].find(
        ([to]) => !used.has(to) || (to === start && loop.length > 1),
      );
      if (step !== undefined) loop.push(step[1]);
      at = step?.[0];
    }
    if (loop.length > 2) loops.push(loop);
  }
  return loops;
}

function area(loop: Loop): number {
  return Math.abs(
    loop.reduce((sum, [x, y], i) => {
      const [a, b] = loop[(i + 1) % loop.length] ?? [x, y];
      return sum + (x * b - a * y) / 2;
    }, 0),
  );
}

function holds(loop: Loop, [x, y]: Point): boolean {
  return loop.reduce((is, [a, b], i) => {
    const [c, d] = loop[(i + 1) % loop.length] ?? [a, b];
    return b > y !== d > y && x < a + ((y - b) * (c - a)) / (d - b) ? !is : is;
  }, false);
}

export interface Opening {
  /** Of the circle of equal area. */
  readonly diameter: number;
  readonly size: Point;
  /** Of its extent. */
  readonly middle: Point;
  readonly loop: Loop;
}

/** The smallest loop round a point. */
export function openingAt(loops: readonly Loop[], point: Point): Opening {
  const loop = loops.filter((each) => holds(each, point)).sort((a, b) => area(a) - area(b))[0];
  if (loop === undefined) throw new Error(`no opening round ${point}`);
  const range = (k: 0 | 1) => {
    const values = loop.map((each) => each[k]);
    return [Math.min(...values), Math.max(...values)] as const;
  };
  const [x, y] = [range(0), range(1)];
  return {
    diameter: 2 * Math.sqrt(area(loop) / Math.PI),
    size: [x[1] - x[0], y[1] - y[0]],
    middle: [(x[0] + x[1]) / 2, (y[0] + y[1]) / 2],
    loop,
  };
}
