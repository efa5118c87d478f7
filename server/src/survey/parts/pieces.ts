/** What stands apart in a mesh: surfaces whose boxes meet belong to one piece. */
import { boxesOf, type Mesh, partOf } from "../mesh/mesh.js";

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
