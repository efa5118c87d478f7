/** The flat rim of half a vessel: a ring that lies in one plane round the chamber. */
import { facesOf, framed, type Mesh } from "../mesh/mesh.js";
import { directionsOf, type Profile, profileOf } from "../mesh/profile.js";
import { sectionAt } from "../mesh/sections.js";
import { cross, dot, plus, times, unit, type Vector } from "../mesh/vector.js";

/** A half as seen from its rim: the rim's plane is z 0, its outline's middle on the axis. */
export interface Rim {
  readonly mesh: Mesh;
  /** Distance of the outside in each of `RIM_RAYS` directions, a little within the wood; not a number where nothing is. */
  readonly outside: Float64Array;
}

export const RIM_RAYS = 360;
/** Planes with most area that are tried. */
const MOST_PLANES = 16;
/** Cells in which normals, and places along them in mm, are alike at first; then how near a plane's faces lie. */
const CELL = { normal: 0.02, place: 0.05 };
const NEAR = { normal: 0.003, place: 0.02 };
/** Share of the directions in which a ring must have wood, and the least of its inner width to its outer. */
const ALL_ROUND = 0.6;
const INSIDE = 0.4;
/** mm by which a lip is narrower than the body. */
const NARROWER = 0.3;
/** mm within the wood at which its outline is read: below a broken edge. */
const WITHIN = 0.4;

/** @param faces which way the wood lies: below the plane (−1) or above it (1). Undefined where there is no such ring. */
export function rimOf(mesh: Mesh, faces: -1 | 1): Rim | undefined {
  const rings = planesOf(mesh).flatMap((plane) => ringOf(mesh, plane, faces) ?? []);
  const [widest] = rings.sort((a, b) => b.width - a.width);
  return widest?.rim;
}

interface Plane {
  readonly normal: Vector;
  readonly place: number;
}

/** Those with most area first. */
function planesOf(mesh: Mesh): readonly Plane[] {
  const { normal, area, middle } = facesOf(mesh);
  const at = (of: Float64Array, i: number): Vector => [
    of[3 * i] as number,
    of[3 * i + 1] as number,
    of[3 * i + 2] as number,
  ];
  const cells = new Map<string, { area: number; normal: Vector; place: number }>();
  for (let i = 0; i < area.length; i++) {
    const n = at(normal, i);
    const place = dot(n, at(middle, i));
    const key = [...n.map((each) => Math.round(each / CELL.normal)), Math.round(place / CELL.place)].join();
    const cell = cells.get(key) ?? { area: 0, normal: [0, 0, 0], place: 0 };
    cell.area += area[i] as number;
    cell.normal = plus(cell.normal, n, area[i]);
    cell.place += place * (area[i] as number);
    cells.set(key, cell);
  }
  const most = [...cells.values()].filter((cell) => cell.area > 0).sort((a, b) => b.area - a.area);
  return most.slice(0, MOST_PLANES).map((cell) => ({ normal: unit(cell.normal), place: cell.place / cell.area }));
}

const X: Vector = [1, 0, 0];
const Y: Vector = [0, 1, 0];

function ringOf(mesh: Mesh, { normal, place }: Plane, faces: -1 | 1) {
  const z = times(normal, -faces);
  // Halves lie on the bed turned over about one of the file's axes, as a rule: both are seen from it alike.
  const across = Math.abs(z[0]) < 0.8 ? X : Y;
  const x = unit(plus(across, z, -dot(across, z)));
  const seen = framed(mesh, [x, cross(z, x), z], times(normal, place));
  const middle = middleOf(seen, faces);
  if (middle === undefined) return undefined;
  const centred = framed(
    seen,
    [
      [1, 0, 0],
      [0, 1, 0],
      [0, 0, 1],
    ],
    [middle[0], middle[1], 0],
  );
  const profile = profileOf(sectionAt(centred, 2, faces * WITHIN), 0, 0, RIM_RAYS);
  if (profile.depth >= 1) return undefined;
  // The body ends there: beyond the plane is at most a lip, which is narrower.
  const beyond = profileOf(sectionAt(centred, 2, -faces * WITHIN), 0, 0, RIM_RAYS).outer;
  const ends = profile.outer.filter((each, k) => !((beyond[k] as number) > each - NARROWER)).length;
  if (ends < ALL_ROUND * RIM_RAYS) return undefined;
  const outline = [...profile.outer].filter((each) => !Number.isNaN(each));
  const inline = [...profile.inner].filter((each) => !Number.isNaN(each));
  const mean = (values: readonly number[]) => values.reduce((sum, each) => sum + each, 0) / values.length;
  if (outline.length < ALL_ROUND * RIM_RAYS || mean(inline) < INSIDE * mean(outline)) return undefined;
  return { rim: { mesh: centred, outside: profile.outer }, width: mean(outline) };
}

/** Of the outline, from what lies in the plane; undefined where wood is on both sides, or none is all round. */
function middleOf(mesh: Mesh, faces: -1 | 1): readonly [number, number] | undefined {
  const { v, t } = mesh;
  const { normal, area, middle } = facesOf(mesh);
  let [sum, x, y] = [0, 0, 0];
  for (let i = 0; i < t.length / 3; i++) {
    if (Math.abs((normal[3 * i + 2] as number) + faces) > NEAR.normal) continue;
    if (Math.abs(middle[3 * i + 2] as number) > NEAR.place) continue;
    sum += area[i] as number;
    x += (area[i] as number) * (middle[3 * i] as number);
    y += (area[i] as number) * (middle[3 * i + 1] as number);
  }
  if (!(sum > 0) || v.length === 0) return undefined;
  let [cx, cy] = [x / sum, y / sum];
  const section = sectionAt(mesh, 2, faces * WITHIN);
  for (let round = 0; round < ROUNDS; round++) {
    const profile = profileOf(section, cx, cy, RIM_RAYS);
    const [dx, dy] = centroidOf(profile);
    if (Number.isNaN(dx)) return undefined;
    [cx, cy] = [cx + dx, cy + dy];
  }
  return [cx, cy];
}

const ROUNDS = 6;

/** Of the area within the outline, from the profile's point. */
function centroidOf({ outer }: Profile): readonly [number, number] {
  const { cos, sin } = directionsOf(RIM_RAYS);
  let [area, x, y] = [0, 0, 0];
  for (let k = 0; k < RIM_RAYS; k++) {
    const r = outer[k] as number;
    if (Number.isNaN(r)) continue;
    area += r * r;
    x += (2 / 3) * r ** 3 * (cos[k] as number);
    y += (2 / 3) * r ** 3 * (sin[k] as number);
  }
  return [x / area, y / area];
}
