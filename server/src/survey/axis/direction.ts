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

/** Faces that are asked: the sections that follow find the last digits. */
const MOST_FACES = 30_000;

export function directionOf(all: Faces): Direction {
  const faces = fewOf(all);
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

/** Drawn evenly by area: each then represents the same area of surface. */
function fewOf(faces: Faces): Faces {
  const { normal, area, middle } = faces;
  if (area.length <= MOST_FACES) return faces;
  const step = area.reduce((sum, each) => sum + each, 0) / MOST_FACES;
  const drawn: number[] = [];
  const share: number[] = [];
  let [sum, next] = [0, step / 2];
  for (let i = 0; i < area.length; i++) {
    sum += area[i] as number;
    let times = 0;
    for (; next < sum; next += step) times++;
    if (times === 0) continue;
    drawn.push(i);
    share.push(times * step);
  }
  const few = (from: Float64Array) =>
    Float64Array.from(drawn.flatMap((i) => [0, 1, 2].map((k) => from[3 * i + k] as number)));
  return { normal: few(normal), area: Float64Array.from(share), middle: few(middle) };
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
