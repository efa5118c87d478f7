/** A mesh whose corners are shared. */
import type { Rows, Vector } from "./vector.js";

export interface Mesh {
  /** Three numbers a corner, mm. */
  readonly v: Float64Array;
  /** Three corners a triangle, counter-clockwise as seen from outside the wood. */
  readonly t: Int32Array;
  /** Which closed surface each triangle belongs to. */
  readonly shell: Int32Array;
  readonly shells: number;
}

/** A copy seen from a frame: `rows` become x, y and z, `origin` 0. */
export function framed(mesh: Mesh, rows: Rows, origin: Vector): Mesh {
  const { v } = mesh;
  const turned = new Float64Array(v.length);
  const [a, b, c] = rows;
  for (let i = 0; i < v.length; i += 3) {
    const x = (v[i] as number) - origin[0];
    const y = (v[i + 1] as number) - origin[1];
    const z = (v[i + 2] as number) - origin[2];
    turned[i] = a[0] * x + a[1] * y + a[2] * z;
    turned[i + 1] = b[0] * x + b[1] * y + b[2] * z;
    turned[i + 2] = c[0] * x + c[1] * y + c[2] * z;
  }
  return { ...mesh, v: turned };
}

/** A copy of the triangles that `keep` takes, with their corners only. */
export function partOf(mesh: Mesh, keep: (triangle: number) => boolean): Mesh {
  const { v, t, shell } = mesh;
  const kept: number[] = [];
  for (let i = 0; i < t.length / 3; i++) if (keep(i)) kept.push(i);
  const index = new Int32Array(v.length / 3).fill(-1);
  const corners = new Float64Array(Math.min(9 * kept.length, v.length));
  const faces = new Int32Array(3 * kept.length);
  const shells = new Int32Array(kept.length);
  let count = 0;
  for (let n = 0; n < kept.length; n++) {
    const i = kept[n] as number;
    shells[n] = shell[i] as number;
    for (let k = 0; k < 3; k++) {
      const corner = t[3 * i + k] as number;
      let known = index[corner] as number;
      if (known < 0) {
        known = count++;
        index[corner] = known;
        corners[3 * known] = v[3 * corner] as number;
        corners[3 * known + 1] = v[3 * corner + 1] as number;
        corners[3 * known + 2] = v[3 * corner + 2] as number;
      }
      faces[3 * n + k] = known;
    }
  }
  return { v: corners.slice(0, 3 * count), t: faces, shell: shells, shells: mesh.shells };
}

/** Several as one, each shell its own. */
export function combined(meshes: readonly Mesh[]): Mesh {
  const sum = (of: (mesh: Mesh) => number) => meshes.reduce((total, mesh) => total + of(mesh), 0);
  const v = new Float64Array(sum((mesh) => mesh.v.length));
  const t = new Int32Array(sum((mesh) => mesh.t.length));
  const shell = new Int32Array(t.length / 3);
  let [corners, faces, shells] = [0, 0, 0];
  for (const mesh of meshes) {
    v.set(mesh.v, 3 * corners);
    for (let i = 0; i < mesh.t.length; i++) t[3 * faces + i] = (mesh.t[i] as number) + corners;
    for (let i = 0; i < mesh.shell.length; i++) shell[faces + i] = (mesh.shell[i] as number) + shells;
    corners += mesh.v.length / 3;
    faces += mesh.shell.length;
    shells += mesh.shells;
  }
  return { v, t, shell, shells };
}

/** Least and greatest along each axis. */
export function extent({ v }: Mesh): readonly [Vector, Vector] {
  const low = [Infinity, Infinity, Infinity] as [number, number, number];
  const high = [-Infinity, -Infinity, -Infinity] as [number, number, number];
  for (let i = 0; i < v.length; i++) {
    const axis = (i % 3) as 0 | 1 | 2;
    const value = v[i] as number;
    if (value < low[axis]) low[axis] = value;
    if (value > high[axis]) high[axis] = value;
  }
  return [low, high];
}

/** Of each shell, least corner first: six numbers. */
export function boxesOf({ v, t, shell, shells }: Mesh): Float64Array {
  const boxes = new Float64Array(6 * shells);
  for (let i = 0; i < shells; i++) boxes.set([Infinity, Infinity, Infinity, -Infinity, -Infinity, -Infinity], 6 * i);
  for (let i = 0; i < shell.length; i++) {
    const at = 6 * (shell[i] as number);
    for (let k = 0; k < 3; k++)
      for (let axis = 0; axis < 3; axis++) {
        const value = v[3 * (t[3 * i + k] as number) + axis] as number;
        if (value < (boxes[at + axis] as number)) boxes[at + axis] = value;
        if (value > (boxes[at + 3 + axis] as number)) boxes[at + 3 + axis] = value;
      }
  }
  return boxes;
}

export interface Faces {
  /** Unit normals, areas and middles of the triangles. */
  readonly normal: Float64Array;
  readonly area: Float64Array;
  readonly middle: Float64Array;
}

export function facesOf({ v, t }: Mesh): Faces {
  const count = t.length / 3;
  const normal = new Float64Array(3 * count);
  const area = new Float64Array(count);
  const middle = new Float64Array(3 * count);
  const at = (corner: number, k: number) => v[3 * corner + k] as number;
  for (let i = 0; i < count; i++) {
    const [a, b, c] = [t[3 * i] as number, t[3 * i + 1] as number, t[3 * i + 2] as number];
    const [ux, uy, uz] = [at(b, 0) - at(a, 0), at(b, 1) - at(a, 1), at(b, 2) - at(a, 2)];
    const [wx, wy, wz] = [at(c, 0) - at(a, 0), at(c, 1) - at(a, 1), at(c, 2) - at(a, 2)];
    const [x, y, z] = [uy * wz - uz * wy, uz * wx - ux * wz, ux * wy - uy * wx];
    const length = Math.sqrt(x * x + y * y + z * z);
    area[i] = length / 2;
    const inverse = length > 0 ? 1 / length : 0;
    normal[3 * i] = x * inverse;
    normal[3 * i + 1] = y * inverse;
    normal[3 * i + 2] = z * inverse;
    for (let k = 0; k < 3; k++) middle[3 * i + k] = (at(a, k) + at(b, k) + at(c, k)) / 3;
  }
  return { normal, area, middle };
}
