/** The mesh round one opening, seen with the opening's direction as y. */
import { framed, type Mesh, partOf } from "../mesh/mesh.js";

/** Triangles that reach into a stretch of the axis. */
export function between(mesh: Mesh, from: number, to: number): Mesh {
  const { v, t } = mesh;
  return partOf(mesh, (i) => {
    const z = (k: number) => v[3 * (t[3 * i + k] as number) + 2] as number;
    const [a, b, c] = [z(0), z(1), z(2)];
    return Math.max(a, b, c) >= from && Math.min(a, b, c) <= to;
  });
}

/** Turned about z, so that the direction `theta` becomes y. */
export function turnedToY(mesh: Mesh, theta: number): Mesh {
  const [c, s] = [Math.cos(Math.PI / 2 - theta), Math.sin(Math.PI / 2 - theta)];
  return framed(
    mesh,
    [
      [c, -s, 0],
      [s, c, 0],
      [0, 0, 1],
    ],
    [0, 0, 0],
  );
}

/** Height of the uppermost surface over a place of the plane y = 0; −∞ where there is none. */
export function topOver({ v, t }: Mesh, x: number, z: number): number {
  let top = -Infinity;
  for (let i = 0; i < t.length; i += 3) {
    const [a, b, c] = [3 * (t[i] as number), 3 * (t[i + 1] as number), 3 * (t[i + 2] as number)];
    const side = (p: number, q: number) =>
      ((v[p] as number) - x) * ((v[q + 2] as number) - z) - ((v[q] as number) - x) * ((v[p + 2] as number) - z);
    const [ab, bc, ca] = [side(a, b), side(b, c), side(c, a)];
    if (ab > 0 !== bc > 0 || bc > 0 !== ca > 0) continue;
    const sum = ab + bc + ca;
    if (Math.abs(sum) < 1e-12) continue;
    const y = ((v[a + 1] as number) * bc + (v[b + 1] as number) * ca + (v[c + 1] as number) * ab) / sum;
    if (y > top) top = y;
  }
  return top;
}

/** Of radians, from −180 to 180. */
export function degrees(radians: number): number {
  return (((((radians * 180) / Math.PI + 180) % 360) + 360) % 360) - 180;
}
