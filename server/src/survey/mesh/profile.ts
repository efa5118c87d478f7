/**
 * What one sees from a point of a section in all directions. Crossings of a ray are added up by the side the wood lies on: wood is
 * where the sum is 1 or more, so that parts within one another, several shells and gaps need no repair. A ray whose sum disagrees
 * with the others' is broken.
 */
import type { Section } from "./sections.js";

export const WALL = 1;
export const FREE = 0;
export const IN_WOOD = -1;
export const BROKEN = 2;

export interface Profile {
  readonly rays: number;
  /** WALL, FREE (nothing in the way), IN_WOOD (the point itself is) or BROKEN. */
  readonly state: Int8Array;
  /** To the first wood (of a broken ray, what seems so), and to where the last wood ends; not a number where there is none. */
  readonly inner: Float64Array;
  readonly outer: Float64Array;
  /** Of air between the first wood's end and the next wood, and where it begins; 0 where there is none. */
  readonly gap: Float64Array;
  readonly gapAt: Float64Array;
  /** Whose the last wood is; −1 where there is none. */
  readonly shell: Int32Array;
  /** Whose the first is. */
  readonly innerShell: Int32Array;
  /** Which piece of the section the first wood is; −1. */
  readonly piece: Int32Array;
  /** Sum of the crossings that most rays have: 1 or more where the point is in wood. */
  readonly depth: number;
}

/** Aside of round numbers, so that no ray runs along a symmetric mesh's edges. */
const ASIDE = 0.00137;

class Hits {
  ray = new Int32Array(1 << 12);
  at = new Float64Array(1 << 12);
  sign = new Int8Array(1 << 12);
  piece = new Int32Array(1 << 12);
  count = 0;

  add(ray: number, at: number, sign: number, piece: number): void {
    if (this.count === this.ray.length) this.grow();
    this.ray[this.count] = ray;
    this.at[this.count] = at;
    this.sign[this.count] = sign;
    this.piece[this.count] = piece;
    this.count++;
  }

  private grow(): void {
    const { ray, at, sign, piece } = this;
    const size = 2 * ray.length;
    this.ray = new Int32Array(size);
    this.at = new Float64Array(size);
    this.sign = new Int8Array(size);
    this.piece = new Int32Array(size);
    this.ray.set(ray);
    this.at.set(at);
    this.sign.set(sign);
    this.piece.set(piece);
  }
}

/** Taken again by each call: a scan makes a thousand profiles. */
const hits = new Hits();
const directions = new Map<number, Directions>();

export interface Directions {
  readonly cos: Float64Array;
  readonly sin: Float64Array;
}

/** Of each ray. */
export function directionsOf(rays: number): Directions {
  const known = directions.get(rays);
  if (known !== undefined) return known;
  const made = { cos: new Float64Array(rays), sin: new Float64Array(rays) };
  for (let k = 0; k < rays; k++) {
    const angle = (2 * Math.PI * k) / rays + ASIDE;
    made.cos[k] = Math.cos(angle);
    made.sin[k] = Math.sin(angle);
  }
  directions.set(rays, made);
  return made;
}

export function profileOf(section: Section, cx: number, cy: number, rays: number): Profile {
  collect(section, cx, cy, rays);
  const sorted = byRay(rays);
  const sums = new Int32Array(rays);
  for (let i = 0; i < hits.count; i++) {
    const ray = hits.ray[i] as number;
    sums[ray] = (sums[ray] as number) + (hits.sign[i] as number);
  }
  const depth = commonest(sums);
  const found = blank(rays, depth);
  for (let ray = 0; ray < rays; ray++) {
    const [from, to] = [sorted.starts[ray] as number, sorted.starts[ray + 1] as number];
    if (sums[ray] !== depth) {
      found.state[ray] = BROKEN;
      const first = sorted.order[from];
      if (from < to && first !== undefined && (hits.sign[first] as number) < 0)
        found.inner[ray] = hits.at[first] as number;
      continue;
    }
    let wood = depth;
    let isFirst = true;
    if (wood >= 1) found.state[ray] = IN_WOOD;
    for (let k = from; k < to; k++) {
      const hit = sorted.order[k] as number;
      const at = hits.at[hit] as number;
      const before = wood;
      wood -= hits.sign[hit] as number;
      const piece = hits.piece[hit] as number;
      if (before < 1 && wood >= 1) {
        if (isFirst && found.state[ray] !== IN_WOOD) {
          found.inner[ray] = at;
          found.state[ray] = WALL;
          found.piece[ray] = piece;
          found.innerShell[ray] = section.shells[piece] as number;
          isFirst = false;
        } else if (!Number.isNaN(found.outer[ray] as number)) {
          found.gap[ray] = at - (found.outer[ray] as number);
          found.gapAt[ray] = found.outer[ray] as number;
        }
      }
      if (before >= 1 && wood < 1) {
        found.outer[ray] = at;
        found.shell[ray] = section.shells[piece] as number;
      }
    }
    if (wood !== 0) found.state[ray] = BROKEN;
  }
  return found;
}

/** Nothing seen yet; all in one piece of memory, as a scan keeps a thousand. */
function blank(rays: number, depth: number): Profile {
  const memory = new ArrayBuffer(rays * (4 * Float64Array.BYTES_PER_ELEMENT + 3 * Int32Array.BYTES_PER_ELEMENT + 1));
  let used = 0;
  const take = <T extends { readonly byteLength: number }>(
    of: new (memory: ArrayBuffer, at: number, length: number) => T,
  ): T => {
    const taken = new of(memory, used, rays);
    used += taken.byteLength;
    return taken;
  };
  return {
    rays,
    inner: take(Float64Array).fill(Number.NaN),
    outer: take(Float64Array).fill(Number.NaN),
    gap: take(Float64Array),
    gapAt: take(Float64Array),
    shell: take(Int32Array).fill(-1),
    innerShell: take(Int32Array).fill(-1),
    piece: take(Int32Array).fill(-1),
    state: take(Int8Array),
    depth,
  };
}

/** Every crossing of a ray with a piece of the section. */
function collect({ ends, count }: Section, cx: number, cy: number, rays: number): void {
  hits.count = 0;
  const { cos, sin } = directionsOf(rays);
  const step = (2 * Math.PI) / rays;
  for (let i = 0; i < count; i++) {
    const x1 = (ends[4 * i] as number) - cx;
    const y1 = (ends[4 * i + 1] as number) - cy;
    const x2 = (ends[4 * i + 2] as number) - cx;
    const y2 = (ends[4 * i + 3] as number) - cy;
    let start = Math.atan2(y1, x1);
    let turn = Math.atan2(x1 * y2 - y1 * x2, x1 * x2 + y1 * y2);
    if (turn < 0) {
      start += turn;
      turn = -turn;
    }
    const last = Math.ceil((start + turn - ASIDE) / step);
    for (let k = Math.floor((start - ASIDE) / step); k <= last; k++) {
      const ray = ((k % rays) + rays) % rays;
      const c = cos[ray] as number;
      const s = sin[ray] as number;
      const d1 = c * y1 - s * x1;
      const d2 = c * y2 - s * x2;
      if (d1 < 0 === d2 < 0) continue;
      const f = d1 / (d1 - d2);
      const at = c * (x1 + f * (x2 - x1)) + s * (y1 + f * (y2 - y1));
      if (at > 0) hits.add(ray, at, d2 < d1 ? 1 : -1, i);
    }
  }
}

/** Hits of each ray from near to far. */
function byRay(rays: number): { readonly starts: Int32Array; readonly order: Int32Array } {
  const starts = new Int32Array(rays + 1);
  for (let i = 0; i < hits.count; i++) {
    const ray = (hits.ray[i] as number) + 1;
    starts[ray] = (starts[ray] as number) + 1;
  }
  for (let k = 0; k < rays; k++) starts[k + 1] = (starts[k + 1] as number) + (starts[k] as number);
  const fill = starts.slice();
  const order = new Int32Array(hits.count);
  for (let i = 0; i < hits.count; i++) {
    const ray = hits.ray[i] as number;
    // Inserted in order among the few that the ray has so far.
    let at = fill[ray] as number;
    const first = starts[ray] as number;
    while (at > first && (hits.at[order[at - 1] as number] as number) > (hits.at[i] as number)) {
      order[at] = order[at - 1] as number;
      at--;
    }
    order[at] = i;
    fill[ray] = (fill[ray] as number) + 1;
  }
  return { starts, order };
}

function commonest(values: Int32Array): number {
  const tally = new Map<number, number>();
  for (const value of values) tally.set(value, (tally.get(value) ?? 0) + 1);
  let [best, most] = [0, -1];
  for (const [value, count] of tally) if (count > most) [best, most] = [value, count];
  return best;
}
