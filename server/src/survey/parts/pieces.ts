/** What stands apart in a mesh: surfaces whose boxes meet belong to one piece. */
import { type Mesh, partOf } from "../mesh/mesh.js";

/** Beyond so many surfaces it is a scan's crumbs. */
const MOST_SHELLS = 500;
/** Pieces of fewer triangles are no parts. */
const LEAST_TRIANGLES = 8;

/** Largest box first. */
export function piecesOf(mesh: Mesh): readonly Mesh[] {
  if (mesh.shells > MOST_SHELLS) return [mesh];
  const boxes = boxesOf(mesh);
  const owner = Array.from({ length: mesh.shells }, (_, i) => i);
  const root = (i: number): number => {
    let at = i;
    while (owner[at] !== at) at = owner[at] as number;
    return at;
  };
  for (let i = 0; i < mesh.shells; i++) for (let j = 0; j < i; j++) if (meet(boxes, i, j)) owner[root(i)] = root(j);
  const roots = [...new Set(owner.map((_, i) => root(i)))];
  if (roots.length === 1) return [mesh];
  const pieces = roots.map((each) => partOf(mesh, (triangle) => root(mesh.shell[triangle] as number) === each));
  const parts = pieces.filter(({ t }) => t.length / 3 >= LEAST_TRIANGLES);
  return (parts.length > 0 ? parts : [mesh]).sort((a, b) => diagonal(b) - diagonal(a));
}

function boxesOf({ v, t, shell, shells }: Mesh): Float64Array {
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

function meet(boxes: Float64Array, i: number, j: number): boolean {
  return [0, 1, 2].every(
    (axis) =>
      (boxes[6 * i + axis] as number) <= (boxes[6 * j + 3 + axis] as number) &&
      (boxes[6 * j + axis] as number) <= (boxes[6 * i + 3 + axis] as number),
  );
}

function diagonal(mesh: Mesh): number {
  const box = boxesOf({ ...mesh, shell: new Int32Array(mesh.t.length / 3), shells: 1 });
  return Math.hypot(...[0, 1, 2].map((axis) => (box[axis + 3] as number) - (box[axis] as number)));
}
