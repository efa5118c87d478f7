/** The thinnest wall of a mesh: from points of its skin straight inward to the next skin that looks back. */
import type { Outline } from "../../server/src/design/outline/outline.js";
import type { Soup } from "./mesh.js";

type Vector = readonly [number, number, number];

export interface ThinWall {
  readonly mm: number;
  readonly at: Vector;
}

/** Rays cast, at most; skins that meet at more than this angle, by its cosine, are an edge and no wall: chamfers, a labium. */
const RAYS = 1500;
const FACING = 0.85;
/** Triangles flatter than this, mm², have no direction to trust. */
const LEAST_AREA = 1e-3;
/** @param skip points that are thin on purpose @param rays how many points are looked from, at most */
export function thinnestWall(soup: Soup, skip: (at: Vector) => boolean, rays = RAYS): ThinWall | undefined {
  const count = soup.length / 9;
  const step = Math.max(1, Math.floor(count / rays));
  let thinnest: ThinWall | undefined;
  for (let i = 0; i < count; i += step) {
    const corners = [0, 1, 2].map((k) => corner(soup, i, k)) as [Vector, Vector, Vector];
    const across = cross(minus(corners[1], corners[0]), minus(corners[2], corners[0]));
    const area = length(across);
    if (area < LEAST_AREA) continue;
    const normal = times(across, 1 / area);
    const middle = times(plus(plus(corners[0], corners[1]), corners[2]), 1 / 3);
    if (skip(middle)) continue;
    const mm = inward(soup, i, middle, normal);
    if (mm !== undefined && mm < (thinnest?.mm ?? Number.POSITIVE_INFINITY)) thinnest = { mm, at: middle };
  }
  return thinnest;
}

/** Distance to the next skin, if that looks back. */
function inward(soup: Soup, own: number, from: Vector, normal: Vector): number | undefined {
  const along = times(normal, -1);
  let [nearest, facing] = [Number.POSITIVE_INFINITY, 0];
  for (let i = 0; i < soup.length / 9; i++) {
    if (i === own) continue;
    const [a, b, c] = [corner(soup, i, 0), corner(soup, i, 1), corner(soup, i, 2)];
    // T. Möller, B. Trumbore, Fast, minimum storage ray/triangle intersection, 1997 (from memory).
    const [u, v] = [minus(b, a), minus(c, a)];
    const p = cross(along, v);
    const determinant = dot(u, p);
    if (Math.abs(determinant) < 1e-12) continue;
    const t = minus(from, a);
    const x = dot(t, p) / determinant;
    if (x < 0 || x > 1) continue;
    const q = cross(t, u);
    const y = dot(along, q) / determinant;
    if (y < 0 || x + y > 1) continue;
    const distance = dot(v, q) / determinant;
    if (distance < 1e-4 || distance >= nearest) continue;
    const other = cross(u, v);
    nearest = distance;
    facing = dot(other, along) / (length(other) || 1);
  }
  return facing > FACING ? nearest : undefined;
}

function corner(soup: Soup, triangle: number, k: number): Vector {
  const at = 9 * triangle + 3 * k;
  return [soup[at] ?? 0, soup[at + 1] ?? 0, soup[at + 2] ?? 0];
}
const minus = (a: Vector, b: Vector): Vector => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const plus = (a: Vector, b: Vector): Vector => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
const times = (a: Vector, s: number): Vector => [a[0] * s, a[1] * s, a[2] * s];
const dot = (a: Vector, b: Vector): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const cross = (a: Vector, b: Vector): Vector => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const length = (a: Vector): number => Math.hypot(...a);

/** The labium goes from its edge, half a millimetre, to the wall: a tube's first part stands with its mouth up. */
export function isLabium({ body }: Outline, part: number, at: readonly number[]): boolean {
  if (body.kind !== "tube" || part > 0 || body.mouth?.kind !== "duct") return false;
  const { labium } = body.mouth;
  const below = (body.parts[0]?.to ?? body.to) - (at[2] ?? 0) - labium.at;
  return below > -0.01 && below < body.wall / Math.tan((labium.ramp * Math.PI) / 180);
}
