/** Binary STL: an 80-byte heading, a count, and 50 bytes a triangle, little-endian (the format's common description; from memory). */
import type { Mesh } from "../solid/kernel.js";

/** Must not begin with `solid`, which readers take for the text form. */
const HEADING = "borewright, millimetres";
const HEADING_BYTES = 80;
const TRIANGLE_BYTES = 50;

export function stl({ vertices, triangles }: Mesh): Uint8Array {
  const count = triangles.length / 3;
  const bytes = new Uint8Array(HEADING_BYTES + 4 + TRIANGLE_BYTES * count);
  const view = new DataView(bytes.buffer);
  bytes.set(new TextEncoder().encode(HEADING));
  view.setUint32(HEADING_BYTES, count, true);
  const corner = (k: number) => [0, 1, 2].map((axis) => vertices[3 * (triangles[k] ?? 0) + axis] ?? 0) as Corner;
  for (let i = 0; i < count; i++) {
    const [a, b, c] = [corner(3 * i), corner(3 * i + 1), corner(3 * i + 2)];
    const numbers = [...normal(a, b, c), ...a, ...b, ...c];
    const start = HEADING_BYTES + 4 + TRIANGLE_BYTES * i;
    for (const [k, number] of numbers.entries()) view.setFloat32(start + 4 * k, number, true);
  }
  return bytes;
}

type Corner = [number, number, number];

function normal([ax, ay, az]: Corner, [bx, by, bz]: Corner, [cx, cy, cz]: Corner): Corner {
  const [ux, uy, uz, vx, vy, vz] = [bx - ax, by - ay, bz - az, cx - ax, cy - ay, cz - az];
  const across: Corner = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx];
  const length = Math.hypot(...across);
  return length === 0 ? [0, 0, 0] : (across.map((each) => each / length) as Corner);
}
