/** Plane cuts of a mesh, as loose pieces of line that know on which side the wood lies. No loops are linked, so that gaps do no harm. */
import type { Mesh } from "./mesh.js";

export interface Section {
  readonly count: number;
  /** x1, y1, x2, y2 of each piece, in the two coordinates after the axis in right-handed order. */
  readonly ends: Float64Array;
  /** Unit normals, out of the wood. */
  readonly normals: Float64Array;
  readonly shells: Int32Array;
}

/** Stretches into which triangles are sorted along the axis: at most and at least, and in how many a usual triangle lies. */
const MOST_BINS = 600;
const FEWEST_BINS = 8;
const PER_TRIANGLE = 4;

export class Sections {
  /** Of the mesh along the axis. */
  readonly low: number;
  readonly high: number;
  private readonly width: number;
  private readonly bins: number;
  /** Triangles of bin k: `listed` from `starts[k]` to `starts[k + 1]`. */
  private readonly starts: Int32Array;
  private readonly listed: Int32Array;

  constructor(
    private readonly mesh: Mesh,
    private readonly axis: 0 | 1 | 2,
  ) {
    const { v, t } = mesh;
    const count = t.length / 3;
    const from = new Float64Array(count);
    const to = new Float64Array(count);
    let [low, high, all] = [Infinity, -Infinity, 0];
    for (let i = 0; i < count; i++) {
      const a = v[3 * (t[3 * i] as number) + axis] as number;
      const b = v[3 * (t[3 * i + 1] as number) + axis] as number;
      const c = v[3 * (t[3 * i + 2] as number) + axis] as number;
      from[i] = Math.min(a, b, c);
      to[i] = Math.max(a, b, c);
      all += (to[i] as number) - (from[i] as number);
      if ((from[i] as number) < low) low = from[i] as number;
      if ((to[i] as number) > high) high = to[i] as number;
    }
    this.low = low;
    this.high = high;
    // Slivers as long as the tube would stand in every bin.
    const usual = all / count / (high - low);
    const bins = Math.round(Math.min(MOST_BINS, Math.max(FEWEST_BINS, PER_TRIANGLE / usual))) || FEWEST_BINS;
    this.bins = bins;
    this.width = Math.max((high - low) / bins, Number.MIN_VALUE);
    const binOf = (value: number) => Math.min(bins, Math.floor((value - low) / this.width));
    const starts = new Int32Array(bins + 2);
    for (let i = 0; i < count; i++)
      for (let k = binOf(from[i] as number); k <= binOf(to[i] as number); k++)
        starts[k + 1] = (starts[k + 1] as number) + 1;
    for (let k = 0; k <= bins; k++) starts[k + 1] = (starts[k + 1] as number) + (starts[k] as number);
    const fill = starts.slice();
    this.listed = new Int32Array(starts[bins + 1] as number);
    for (let i = 0; i < count; i++)
      for (let k = binOf(from[i] as number); k <= binOf(to[i] as number); k++) {
        this.listed[fill[k] as number] = i;
        fill[k] = (fill[k] as number) + 1;
      }
    this.starts = starts;
  }

  at(place: number): Section {
    const bin = Math.floor((place - this.low) / this.width);
    const inside = bin >= 0 && bin <= this.bins;
    const [from, to] = inside ? [this.starts[bin] as number, this.starts[bin + 1] as number] : [0, 0];
    return cutThrough(this.mesh, this.axis, place, this.listed.subarray(from, to));
  }
}

/** A single cut, which costs less than sorting the triangles for many. */
export function sectionAt(mesh: Mesh, axis: 0 | 1 | 2, place: number): Section {
  const { v, t } = mesh;
  const met: number[] = [];
  for (let i = 0; i < t.length; i += 3) {
    const isAbove = (v[3 * (t[i] as number) + axis] as number) > place;
    for (let corner = 1; corner < 3; corner++)
      if ((v[3 * (t[i + corner] as number) + axis] as number) > place !== isAbove) {
        met.push(i / 3);
        break;
      }
  }
  return cutThrough(mesh, axis, place, met);
}

function cutThrough(mesh: Mesh, axis: 0 | 1 | 2, place: number, triangles: ArrayLike<number>): Section {
  const ends = new Float64Array(4 * triangles.length);
  const normals = new Float64Array(2 * triangles.length);
  const shells = new Int32Array(triangles.length);
  let count = 0;
  for (let k = 0; k < triangles.length; k++)
    if (cut(mesh, axis, triangles[k] as number, place, count, ends, normals, shells)) count++;
  return { count, ends, normals, shells };
}

/** Writes the piece that the plane cuts out of a triangle; false where it misses. */
function cut(
  { v, t, shell }: Mesh,
  axis: 0 | 1 | 2,
  triangle: number,
  place: number,
  index: number,
  ends: Float64Array,
  normals: Float64Array,
  shells: Int32Array,
): boolean {
  const u = (axis + 1) % 3;
  const w = (axis + 2) % 3;
  let crossings = 0;
  for (let e = 0; e < 3; e++) {
    let a = 3 * (t[3 * triangle + e] as number);
    let b = 3 * (t[3 * triangle + ((e + 1) % 3)] as number);
    const isUp = (v[b + axis] as number) > place;
    if ((v[a + axis] as number) > place === isUp) continue;
    // From lesser to greater corner: neighbours must find the same point to the last bit.
    if (a > b) [a, b] = [b, a];
    const va = v[a + axis] as number;
    const f = (place - va) / ((v[b + axis] as number) - va);
    // Of a triangle seen from outside, from the rising side to the falling one the wood lies on the left.
    const at = 4 * index + (isUp ? 0 : 2);
    ends[at] = (v[a + u] as number) + f * ((v[b + u] as number) - (v[a + u] as number));
    ends[at + 1] = (v[a + w] as number) + f * ((v[b + w] as number) - (v[a + w] as number));
    crossings++;
  }
  if (crossings !== 2) return false;
  const dx = (ends[4 * index + 2] as number) - (ends[4 * index] as number);
  const dy = (ends[4 * index + 3] as number) - (ends[4 * index + 1] as number);
  const length = Math.sqrt(dx * dx + dy * dy);
  if (!(length > SHORTEST)) return false;
  normals[2 * index] = -dy / length;
  normals[2 * index + 1] = dx / length;
  shells[index] = shell[triangle] as number;
  return true;
}

/** mm: shorter pieces have no direction. */
const SHORTEST = 1e-12;

/** The stretch of air round a point on a line across a section: along y at x, or along x at y. Infinite where nothing bounds it. */
export function airAround(
  section: Section,
  x: number,
  y: number,
  along: "x" | "y",
): readonly [number, number] | undefined {
  const X = along === "y" ? 0 : 1;
  const [line, point] = along === "y" ? [x, y] : [y, x];
  const Y = 1 - X;
  let [low, high, lowFaces, highFaces] = [-Infinity, Infinity, 1, -1];
  const { ends, normals, count } = section;
  for (let i = 0; i < count; i++) {
    const a = ends[4 * i + X] as number;
    const c = ends[4 * i + 2 + X] as number;
    if (a < line === c < line) continue;
    const from = ends[4 * i + Y] as number;
    const at = from + ((line - a) / (c - a)) * ((ends[4 * i + 2 + Y] as number) - from);
    if (at <= point && at > low) [low, lowFaces] = [at, normals[2 * i + Y] as number];
    if (at > point && at < high) [high, highFaces] = [at, normals[2 * i + Y] as number];
  }
  return lowFaces > 0 && highFaces < 0 ? [low, high] : undefined;
}
