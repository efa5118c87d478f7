/** What stands apart in a mesh: surfaces between which no plane passes belong to one piece. */
import { boxesOf, type Mesh, partOf } from "../mesh/mesh.js";
import { dot, plus, spiral, times, type Vector } from "../mesh/vector.js";

/** Beyond this many surfaces it is a scan's crumbs. */
const MOST_SHELLS = 500;
/** Pieces with fewer triangles are not parts. */
const LEAST_TRIANGLES = 8;

/** Largest box first. */
export function piecesOf(mesh: Mesh): readonly Mesh[] {
  if (mesh.shells > MOST_SHELLS) return [mesh];
  if (mesh.shells === 1) return [mesh];
  const corners = cornersOf(mesh);
  const spans = corners.map(spansOf);
  const owner = Array.from({ length: mesh.shells }, (_, i) => i);
  const root = (i: number): number => {
    let at = i;
    while (owner[at] !== at) at = owner[at] as number;
    return at;
  };
  for (let i = 0; i < mesh.shells; i++)
    for (let j = 0; j < i; j++) if (root(i) !== root(j) && meet(spans, corners, i, j)) owner[root(i)] = root(j);
  const roots = [...new Set(owner.map((_, i) => root(i)))];
  if (roots.length === 1) return [mesh];
  const pieces = roots.map((each) => partOf(mesh, (triangle) => root(mesh.shell[triangle] as number) === each));
  const parts = pieces.filter(({ t }) => t.length / 3 >= LEAST_TRIANGLES);
  return (parts.length > 0 ? parts : [mesh]).sort((a, b) => diagonal(b) - diagonal(a));
}

/** Directions along which shells may stand apart, evenly over half the sphere, and beside them the file's own axes. */
const DIRECTIONS: readonly Vector[] = [...spiral(48).slice(0, 24), [1, 0, 0], [0, 1, 0], [0, 0, 1]];

/** Of each shell, three numbers a corner. */
function cornersOf({ v, t, shell, shells }: Mesh): readonly Float64Array[] {
  const found = Array.from({ length: shells }, (): number[] => []);
  const seen = new Int32Array(v.length / 3).fill(-1);
  for (let i = 0; i < t.length; i++) {
    const corner = t[i] as number;
    const which = shell[Math.floor(i / 3)] as number;
    if (seen[corner] === which) continue;
    seen[corner] = which;
    found[which]?.push(v[3 * corner] as number, v[3 * corner + 1] as number, v[3 * corner + 2] as number);
  }
  return found.map((each) => Float64Array.from(each));
}

/** From where to where it reaches along each direction. */
function spansOf(corners: Float64Array): Float64Array {
  const spans = new Float64Array(2 * DIRECTIONS.length);
  for (const [k, [a, b, c]] of DIRECTIONS.entries()) {
    let [low, high] = [Infinity, -Infinity];
    for (let i = 0; i < corners.length; i += 3) {
      const value = a * (corners[i] as number) + b * (corners[i + 1] as number) + c * (corners[i + 2] as number);
      if (value < low) low = value;
      if (value > high) high = value;
    }
    spans[2 * k] = low;
    spans[2 * k + 1] = high;
  }
  return spans;
}

function meet(spans: readonly Float64Array[], corners: readonly Float64Array[], i: number, j: number): boolean {
  const [one, other] = [spans[i] as Float64Array, spans[j] as Float64Array];
  let [isWithin, isRound] = [true, true];
  for (let k = 0; k < one.length; k += 2) {
    const [a, b, c, d] = [one[k], one[k + 1], other[k], other[k + 1]] as [number, number, number, number];
    if (a > d || c > b) return false;
    if (a < c || b > d) isWithin = false;
    if (c < a || d > b) isRound = false;
  }
  return isWithin || isRound || !planeBetween(corners[i] as Float64Array, corners[j] as Float64Array);
}

const ROUNDS = 40;

/**
 * Whether a plane separates them, by the point of their difference that is nearest to 0 (Gilbert 1966; from memory). One that is not found in this
 * many iterations leaves less room than parts on a bed have.
 */
function planeBetween(one: Float64Array, other: Float64Array): boolean {
  const farthest = (corners: Float64Array, [x, y, z]: Vector): Vector => {
    let [best, at] = [-Infinity, 0];
    for (let i = 0; i < corners.length; i += 3) {
      const value = x * (corners[i] as number) + y * (corners[i + 1] as number) + z * (corners[i + 2] as number);
      if (value > best) [best, at] = [value, i];
    }
    return [corners[at] as number, corners[at + 1] as number, corners[at + 2] as number];
  };
  let near = plus(farthest(one, [1, 0, 0]), farthest(other, [-1, 0, 0]), -1);
  for (let round = 0; round < ROUNDS; round++) {
    const next = plus(farthest(one, times(near, -1)), farthest(other, near), -1);
    if (dot(near, next) > 0) return true;
    const step = plus(next, near, -1);
    const length = dot(step, step);
    if (!(length > 0)) return false;
    near = plus(near, step, Math.min(1, Math.max(0, -dot(near, step) / length)));
  }
  return false;
}

function diagonal(mesh: Mesh): number {
  const box = boxesOf({ ...mesh, shell: new Int32Array(mesh.t.length / 3), shells: 1 });
  return Math.hypot(...[0, 1, 2].map((axis) => (box[axis + 3] as number) - (box[axis] as number)));
}
