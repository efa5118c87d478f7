/** Where a ray first meets a mesh: triangles in the order of a space-filling curve, boxes over halves of it. */
import { extent, type Mesh } from "../mesh/mesh.js";
import { cross, dot, plus, type Vector } from "../mesh/vector.js";

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

  constructor(private readonly mesh: Mesh) {
    const count = mesh.t.length / 3;
    this.order = alongCurve(mesh);
    this.depth = Math.max(0, Math.ceil(Math.log2(count / LEAF)));
    this.boxes = new Float64Array(6 * (2 ** (this.depth + 1) - 1));
    this.box(0, 0, count, 0);
  }

  first(origin: Vector, direction: Vector): Hit | undefined {
    let best = Infinity;
    let isIntoWood = false;
    const inverse = direction.map((each) => 1 / (each || 1e-300)) as unknown as Vector;
    const stack = [{ node: 0, from: 0, to: this.order.length, depth: 0 }];
    for (let top = stack.pop(); top !== undefined; top = stack.pop()) {
      const { node, from, to, depth } = top;
      if (!this.meets(node, origin, inverse, best)) continue;
      if (depth < this.depth) {
        const half = (from + to) >> 1;
        stack.push(
          { node: 2 * node + 1, from, to: half, depth: depth + 1 },
          { node: 2 * node + 2, from: half, to, depth: depth + 1 },
        );
        continue;
      }
      for (let k = from; k < to; k++) {
        const hit = this.triangle(this.order[k] as number, origin, direction);
        if (hit === undefined || hit.distance >= best) continue;
        best = hit.distance;
        isIntoWood = hit.isIntoWood;
      }
    }
    return best === Infinity ? undefined : { distance: best, isIntoWood };
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
    let [low, high] = [0, best];
    for (let axis = 0; axis < 3; axis++) {
      const a = ((this.boxes[6 * node + axis] as number) - (origin[axis] as number)) * (inverse[axis] as number);
      const b = ((this.boxes[6 * node + 3 + axis] as number) - (origin[axis] as number)) * (inverse[axis] as number);
      low = Math.max(low, Math.min(a, b));
      high = Math.min(high, Math.max(a, b));
    }
    return low <= high;
  }

  /** Möller and Trumbore 1997; from memory. */
  private triangle(i: number, origin: Vector, direction: Vector): Hit | undefined {
    const { v, t } = this.mesh;
    const corner = (k: number): Vector => {
      const at = 3 * (t[3 * i + k] as number);
      return [v[at] as number, v[at + 1] as number, v[at + 2] as number];
    };
    const a = corner(0);
    const [one, other] = [plus(corner(1), a, -1), plus(corner(2), a, -1)];
    const p = cross(direction, other);
    const determinant = dot(one, p);
    if (Math.abs(determinant) < 1e-14) return undefined;
    const from = plus(origin, a, -1);
    const x = dot(from, p) / determinant;
    if (x < -EDGE || x > 1 + EDGE) return undefined;
    const q = cross(from, one);
    const y = dot(direction, q) / determinant;
    if (y < -EDGE || x + y > 1 + EDGE) return undefined;
    const distance = dot(other, q) / determinant;
    return distance > EDGE ? { distance, isIntoWood: determinant > 0 } : undefined;
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
      const middle = [0, 1, 2].reduce((sum, k) => sum + (v[3 * (t[3 * i + k] as number) + axis] as number), 0) / 3;
      return Math.min(CELLS - 1, Math.floor(((middle - low[axis]) / (high[axis] - low[axis] || 1)) * CELLS));
    };
    // 30 bits of place and 22 of index stay within a number's 53.
    keys[i] = (spread(cell(0)) + 2 * spread(cell(1)) + 4 * spread(cell(2))) * 2 ** 22 + i;
  }
  return Int32Array.from(keys.sort(), (key) => key % 2 ** 22);
}

/** Each bit three places from the next. */
function spread(value: number): number {
  let spreadOut = 0;
  for (let bit = 0; bit < 10; bit++) spreadOut += ((value >> bit) & 1) * 8 ** bit;
  return spreadOut;
}
