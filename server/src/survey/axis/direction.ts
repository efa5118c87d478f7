/** The direction of a tube: the walls' normals are square to it. */
import type { Faces } from "../mesh/mesh.js";
import { eigen, type Vector } from "../mesh/vector.js";

export interface Direction {
  readonly axis: Vector;
  /** Share of the surface that stands along it. */
  readonly share: number;
}

/** How far from square a normal may be and count, narrowed in rounds. */
const WIDTHS = [0.3, 0.15, 0.08, 0.05, 0.05, 0.05];
const ALONG = 0.06;

export function directionOf(faces: Faces): Direction {
  const total = faces.area.reduce((sum, each) => sum + each, 0);
  const square = (i: number, [x, y, z]: Vector) =>
    (faces.normal[3 * i] as number) * x +
    (faces.normal[3 * i + 1] as number) * y +
    (faces.normal[3 * i + 2] as number) * z;
  const starts = leastSpread(faces, (i) => faces.area[i] as number);
  const found = starts.map(({ vector }) => {
    let axis = vector;
    for (const width of WIDTHS)
      [{ vector: axis }] = leastSpread(faces, (i) => {
        const q = square(i, axis) / width;
        return q * q < 9 ? (faces.area[i] as number) * Math.exp(-q * q) : 0;
      });
    let share = 0;
    for (let i = 0; i < faces.area.length; i++)
      if (Math.abs(square(i, axis)) < ALONG) share += (faces.area[i] as number) / total;
    return { axis, share };
  });
  return found.reduce((best, each) => (each.share > best.share ? each : best));
}

/** Eigenvectors of the normals' spread: the first is the direction they avoid most. */
function leastSpread({ normal, area }: Faces, weightOf: (face: number) => number) {
  let [xx, yy, zz, xy, xz, yz] = [0, 0, 0, 0, 0, 0];
  for (let i = 0; i < area.length; i++) {
    const weight = weightOf(i);
    if (weight === 0) continue;
    const [x, y, z] = [normal[3 * i] as number, normal[3 * i + 1] as number, normal[3 * i + 2] as number];
    xx += weight * x * x;
    yy += weight * y * y;
    zz += weight * z * z;
    xy += weight * x * y;
    xz += weight * x * z;
    yz += weight * y * z;
  }
  return eigen([
    [xx, xy, xz],
    [xy, yy, yz],
    [xz, yz, zz],
  ]);
}
