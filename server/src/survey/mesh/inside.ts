/** How much of a closed surface lies inside others. */
import { boxesOf, type Mesh } from "./mesh.js";
import type { Vector } from "./vector.js";

/** Places on the surface that are tried, evenly by area. */
const SAMPLES = 21;
/** Beyond this many surfaces, none is examined: a scan's crumbs. */
const MOST_SHELLS = 200;

/** Share of a shell's area that lies inside an odd number of larger shells. @param leastFaces shells of fewer are not asked */
export function insideVotes(
  mesh: Mesh,
  which: number,
  volumes: Float64Array,
  counts: Int32Array,
  leastFaces: number,
): number {
  if (mesh.shells > MOST_SHELLS) return 0;
  const isAsked = Array.from(
    { length: mesh.shells },
    (_, i) =>
      i !== which &&
      (counts[i] as number) >= leastFaces &&
      Math.abs(volumes[i] as number) > Math.abs(volumes[which] as number),
  );
  if (!isAsked.some(Boolean)) return 0;
  const boxes = boxesOf(mesh);
  let votes = 0;
  for (const point of pointsOn(mesh, which)) {
    const near = isAsked.map((asked, i) => asked && isInBox(boxes, i, point));
    if (!near.some(Boolean)) continue;
    const crossings = crossingsOf(mesh, point, near);
    let depth = 0;
    for (const each of crossings) depth += each % 2;
    if (depth % 2 === 1) votes++;
  }
  return votes / SAMPLES;
}

function isInBox(boxes: Float64Array, shell: number, point: Vector): boolean {
  return point.every((value, axis) => {
    const [low, high] = [boxes[6 * shell + axis] as number, boxes[6 * shell + 3 + axis] as number];
    return value >= low && value <= high;
  });
}

function pointsOn({ v, t, shell }: Mesh, which: number): readonly (readonly [number, number, number])[] {
  const members: number[] = [];
  for (let i = 0; i < shell.length; i++) if (shell[i] === which) members.push(i);
  const at = (i: number, k: number, axis: number) => v[3 * (t[3 * i + k] as number) + axis] as number;
  const areas = members.map((i) => {
    const [u, w] = [1, 2].map((k) => [0, 1, 2].map((axis) => at(i, k, axis) - at(i, 0, axis))) as [number[], number[]];
    const [a, b, c, d, e, f] = [...u, ...w] as [number, number, number, number, number, number];
    return Math.hypot(b * f - c * e, c * d - a * f, a * e - b * d);
  });
  const total = areas.reduce((sum, each) => sum + each, 0);
  let [index, sum] = [0, areas[0] ?? 0];
  return Array.from({ length: SAMPLES }, (_, s) => {
    while (sum < ((s + 0.5) / SAMPLES) * total && index < members.length - 1) sum += areas[++index] as number;
    const i = members[index] as number;
    // Off the middle, so that no ray runs through a neighbour's corner by symmetry.
    const share = [0.41, 0.33, 0.26];
    return [0, 1, 2].map((axis) => share.reduce((p, q, k) => p + q * at(i, k, axis), 0)) as [number, number, number];
  });
}

/** How often a ray along x meets each of the shells that are asked. */
function crossingsOf({ v, t, shell, shells }: Mesh, [x, y, z]: readonly [number, number, number], isAsked: boolean[]) {
  const crossings = new Int32Array(shells);
  for (let i = 0; i < shell.length; i++) {
    const which = shell[i] as number;
    if (!isAsked[which]) continue;
    const [a, b, c] = [3 * (t[3 * i] as number), 3 * (t[3 * i + 1] as number), 3 * (t[3 * i + 2] as number)];
    const side = (p: number, q: number) =>
      ((v[p + 1] as number) - y) * ((v[q + 2] as number) - z) - ((v[q + 1] as number) - y) * ((v[p + 2] as number) - z);
    const [ab, bc, ca] = [side(a, b), side(b, c), side(c, a)];
    if (ab > 0 !== bc > 0 || bc > 0 !== ca > 0) continue;
    const hit = ((v[a] as number) * bc + (v[b] as number) * ca + (v[c] as number) * ab) / (ab + bc + ca);
    if (hit > x) crossings[which] = (crossings[which] as number) + 1;
  }
  return crossings;
}
