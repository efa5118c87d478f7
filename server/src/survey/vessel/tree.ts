/** Where a ray first meets a mesh: triangles in the order of a space-filling curve, boxes over halves of it. */
import { extent, type Mesh } from "../mesh/mesh.js";
import type { Vector } from "../mesh/vector.js";

export interface Hit {
  readonly distance: number;
  /** Whether wood begins there, seen along the ray. */
  readonly isIntoWood: boolean;
}

const LEAF = 8;
/** Cells of the curve along each axis. */
const CELLS = 1024;
/** Shares of an edge by which a ray may pass a triangle by and still meet it: no gap between neighbours. */
const EDGE = 1e-9;

export class Tree {
  private readonly order: Int32Array;
  /** Six numbers a node, least corner first; node k has the children 2k + 1 and 2k + 2. */
  private readonly boxes: Float64Array;
  private readonly depth: number;
  /** Nodes still to be visited: node, from, to and depth of each. */
  private readonly stack: Int32Array;

  constructor(private readonly mesh: Mesh) {
    const count = mesh.t.length / 3;
    this.order = alongCurve(mesh);
    this.depth = Math.max(0, Math.ceil(Math.log2(count / LEAF)));
    this.stack = new Int32Array(4 * (this.depth + 2));
    this.boxes = new Float64Array(6 * (2 ** (this.depth + 1) - 1));
    this.box(0, 0, count, 0);
  }

  first(origin: Vector, direction: Vector): Hit | undefined {
    let best = Infinity;
    let isIntoWood = false;
    const inverse = direction.map((each) => 1 / (each || 1e-300)) as unknown as Vector;
    const { stack } = this;
    let top = this.push(0, 0, 0, this.order.length, 0);
    while (top > 0) {
      top -= 4;
      const node = stack[top] as number;
      if (!this.meets(node, origin, inverse, best)) continue;
      const from = stack[top + 1] as number;
      const to = stack[top + 2] as number;
      const depth = stack[top + 3] as number;
      if (depth < this.depth) {
        const half = (from + to) >> 1;
        top = this.push(top, 2 * node + 1, from, half, depth + 1);
        top = this.push(top, 2 * node + 2, half, to, depth + 1);
        continue;
      }
      for (let k = from; k < to; k++) {
        const distance = this.triangle(this.order[k] as number, origin, direction);
        if (!(Math.abs(distance) < best)) continue;
        best = Math.abs(distance);
        isIntoWood = distance > 0;
      }
    }
    return best === Infinity ? undefined : { distance: best, isIntoWood };
  }

  private push(top: number, node: number, from: number, to: number, depth: number): number {
    const { stack } = this;
    stack[top] = node;
    stack[top + 1] = from;
    stack[top + 2] = to;
    stack[top + 3] = depth;
    return top + 4;
  }

  private box(node: number, from: number, to: number, depth: number): void {
    const at = 6 * node;
    this.boxes.set([Infinity, Infinity, Infinity, -Infinity, -Infinity, -Infinity], at);
    if (depth < this.depth) {
      const half = (from + to) >> 1;
      this.box(2 * node + 1, from, half, depth + 1);
      this.box(2 * node + 2, half, to, depth + 1);
      for (const child of [2 * node + 1, 2 * node + 2])
        for (let axis = 0; axis < 3; axis++) {
          this.grow(at + axis, this.boxes[6 * child + axis] as number);
          this.grow(at + axis, this.boxes[6 * child + 3 + axis] as number);
        }
      return;
    }
    const { v, t } = this.mesh;
    for (let k = from; k < to; k++)
      for (let corner = 0; corner < 3; corner++)
        for (let axis = 0; axis < 3; axis++)
          this.grow(at + axis, v[3 * (t[3 * (this.order[k] as number) + corner] as number) + axis] as number);
  }

  private grow(least: number, value: number): void {
    if (value < (this.boxes[least] as number)) this.boxes[least] = value;
    if (value > (this.boxes[least + 3] as number)) this.boxes[least + 3] = value;
  }

  private meets(node: number, origin: Vector, inverse: Vector, best: number): boolean {
    const { boxes } = this;
    let low = 0;
    let high = best;
    for (let axis = 0; axis < 3; axis++) {
      const from = origin[axis] as number;
      const slope = inverse[axis] as number;
      const a = ((boxes[6 * node + axis] as number) - from) * slope;
      const b = ((boxes[6 * node + 3 + axis] as number) - from) * slope;
      low = Math.max(low, Math.min(a, b));
      high = Math.min(high, Math.max(a, b));
    }
    return low <= high;
  }

  /** Distance, less than 0 where the ray leaves wood; not a number where it misses. Möller and Trumbore 1997; from memory. */
  private triangle(i: number, origin: Vector, direction: Vector): number {
    // Lists would be taken apart by their iterators, which costs as much as the arithmetic.
    const { v, t } = this.mesh;
    const a = 3 * (t[3 * i] as number);
    const b = 3 * (t[3 * i + 1] as number);
    const c = 3 * (t[3 * i + 2] as number);
    const dx = direction[0];
    const dy = direction[1];
    const dz = direction[2];
    const ax = v[a] as number;
    const ay = v[a + 1] as number;
    const az = v[a + 2] as number;
    const bx = (v[b] as number) - ax;
    const by = (v[b + 1] as number) - ay;
    const bz = (v[b + 2] as number) - az;
    const cx = (v[c] as number) - ax;
    const cy = (v[c + 1] as number) - ay;
    const cz = (v[c + 2] as number) - az;
    const px = dy * cz - dz * cy;
    const py = dz * cx - dx * cz;
    const pz = dx * cy - dy * cx;
    const determinant = bx * px + by * py + bz * pz;
    if (Math.abs(determinant) < 1e-14) return Number.NaN;
    const fx = origin[0] - ax;
    const fy = origin[1] - ay;
    const fz = origin[2] - az;
    const x = (fx * px + fy * py + fz * pz) / determinant;
    if (x < -EDGE || x > 1 + EDGE) return Number.NaN;
    const qx = fy * bz - fz * by;
    const qy = fz * bx - fx * bz;
    const qz = fx * by - fy * bx;
    const y = (dx * qx + dy * qy + dz * qz) / determinant;
    if (y < -EDGE || x + y > 1 + EDGE) return Number.NaN;
    const distance = (cx * qx + cy * qy + cz * qz) / determinant;
    return distance > EDGE ? Math.sign(determinant) * distance : Number.NaN;
  }
}

/** Triangles by the Morton code of their middles. */
function alongCurve(mesh: Mesh): Int32Array {
  const { v, t } = mesh;
  const [low, high] = extent(mesh);
  const count = t.length / 3;
  const keys = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const cell = (axis: 0 | 1 | 2) => {
      const at = (k: number) => v[3 * (t[3 * i + k] as number) + axis] as number;
      const middle = (at(0) + at(1) + at(2)) / 3;
      return Math.min(CELLS - 1, Math.floor(((middle - low[axis]) / (high[axis] - low[axis] || 1)) * CELLS));
    };
    // 30 bits of place and 22 of index stay within a number's 53.
    keys[i] = (spread(cell(0)) + 2 * spread(cell(1)) + 4 * spread(cell(2))) * 2 ** 22 + i;
  }
  return Int32Array.from(keys.sort(), (key) => key % 2 ** 22);
}

/** Each of ten bits three places from the next. */
function spread(value: number): number {
  let bits = value;
  bits = (bits | (bits << 16)) & 0x30000ff;
  bits = (bits | (bits << 8)) & 0x300f00f;
  bits = (bits | (bits << 4)) & 0x30c30c3;
  return (bits | (bits << 2)) & 0x9249249;
}
