/** What stands apart in a mesh: surfaces between which no plane of a few dozen directions passes belong to one piece. */
import { boxesOf, type Mesh, partOf } from "../mesh/mesh.js";
import { spiral, type Vector } from "../mesh/vector.js";

/** Beyond so many surfaces it is a scan's crumbs. */
const MOST_SHELLS = 500;
/** Pieces of fewer triangles are no parts. */
const LEAST_TRIANGLES = 8;

/** Largest box first. */
export function piecesOf(mesh: Mesh): readonly Mesh[] {
  if (mesh.shells > MOST_SHELLS) return [mesh];
  if (mesh.shells === 1) return [mesh];
  const spans = spansOf(mesh);
  const owner = Array.from({ length: mesh.shells }, (_, i) => i);
  const root = (i: number): number => {
    let at = i;
    while (owner[at] !== at) at = owner[at] as number;
    return at;
  };
  for (let i = 0; i < mesh.shells; i++) for (let j = 0; j < i; j++) if (meet(spans, i, j)) owner[root(i)] = root(j);
  const roots = [...new Set(owner.map((_, i) => root(i)))];
  if (roots.length === 1) return [mesh];
  const pieces = roots.map((each) => partOf(mesh, (triangle) => root(mesh.shell[triangle] as number) === each));
  const parts = pieces.filter(({ t }) => t.length / 3 >= LEAST_TRIANGLES);
  return (parts.length > 0 ? parts : [mesh]).sort((a, b) => diagonal(b) - diagonal(a));
}

/** Directions along which shells may stand apart, evenly over half the sphere, and beside them the file's own axes. */
const DIRECTIONS: readonly Vector[] = [...spiral(48).slice(0, 24), [1, 0, 0], [0, 1, 0], [0, 0, 1]];

/** From where to where each shell reaches along each direction: two numbers for each, shell by shell. */
function spansOf({ v, t, shell, shells }: Mesh): Float64Array {
  const count = DIRECTIONS.length;
  const spans = new Float64Array(2 * count * shells);
  for (let i = 0; i < spans.length; i += 2) spans.set([Infinity, -Infinity], i);
  const seen = new Int32Array(v.length / 3).fill(-1);
  for (let i = 0; i < t.length; i++) {
    const corner = t[i] as number;
    const which = shell[Math.floor(i / 3)] as number;
    if (seen[corner] === which) continue;
    seen[corner] = which;
    const [x, y, z] = [v[3 * corner] as number, v[3 * corner + 1] as number, v[3 * corner + 2] as number];
    for (let k = 0; k < count; k++) {
      const [a, b, c] = DIRECTIONS[k] as Vector;
      const value = a * x + b * y + c * z;
      const at = 2 * (count * which + k);
      if (value < (spans[at] as number)) spans[at] = value;
      if (value > (spans[at + 1] as number)) spans[at + 1] = value;
    }
  }
  return spans;
}

function meet(spans: Float64Array, i: number, j: number): boolean {
  const count = DIRECTIONS.length;
  for (let k = 0; k < count; k++) {
    const [a, b] = [2 * (count * i + k), 2 * (count * j + k)];
    if ((spans[a] as number) > (spans[b + 1] as number) || (spans[b] as number) > (spans[a + 1] as number))
      return false;
  }
  return true;
}

function diagonal(mesh: Mesh): number {
  const box = boxesOf({ ...mesh, shell: new Int32Array(mesh.t.length / 3), shells: 1 });
  return Math.hypot(...[0, 1, 2].map((axis) => (box[axis + 3] as number) - (box[axis] as number)));
}
