/** The parts as they are put together, for whoever looks at the instrument. */
import type { MadePart } from "./build.js";
import type { Mesh } from "./kernel.js";

/** The part's mesh in the outline's axes: its placing on the bed taken back. mm. */
export function inPlace({ mesh: { vertices, triangles }, placing }: Pick<MadePart, "mesh" | "placing">): Mesh {
  const { x, y, z, move = [0, 0, 0] } = placing;
  const back = new Float32Array(vertices.length);
  for (let i = 0; i < vertices.length; i += 3) {
    const p = [0, 1, 2].map((k) => (vertices[i + k] ?? 0) - (move[k] ?? 0));
    // The placing only turns: what takes it back is its transpose.
    for (const [k, axis] of [x, y, z].entries())
      back[i + k] = axis.reduce((sum, value, j) => sum + value * (p[j] ?? 0), 0);
  }
  return { vertices: back, triangles };
}
