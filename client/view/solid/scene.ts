/** The solid as triangles, and what a ray meets in it. Pure: no page. */
import type { SolidPart } from "../../../server/src/protocol/making.js";
import { cross, dot, length, minus, plus, unit, type Vector } from "./vector.js";

export interface Scene {
  /** Nine numbers per triangle, mm. */
  readonly corners: Float32Array;
  /** The part of each triangle. */
  readonly part: Uint8Array;
  readonly names: readonly string[];
  readonly middle: Vector;
  /** Half of its size along each axis, mm. */
  readonly half: Vector;
  /** Of the ball round it, mm. */
  readonly radius: number;
}

export function sceneOf(parts: readonly SolidPart[]): Scene {
  const read = parts.map(({ vertices, triangles }) => ({
    vertices: new Float32Array(bytesOf(vertices).buffer),
    triangles: new Uint32Array(bytesOf(triangles).buffer),
  }));
  const count = read.reduce((sum, { triangles }) => sum + triangles.length / 3, 0);
  const corners = new Float32Array(9 * count);
  const part = new Uint8Array(count);
  const [low, high] = [
    [Infinity, Infinity, Infinity],
    [-Infinity, -Infinity, -Infinity],
  ] as [number[], number[]];
  let at = 0;
  for (const [i, { vertices, triangles }] of read.entries()) {
    part.fill(i, at / 9, at / 9 + triangles.length / 3);
    for (const corner of triangles)
      for (let k = 0; k < 3; k++) {
        const value = vertices[3 * corner + k] ?? 0;
        low[k] = Math.min(low[k] ?? 0, value);
        high[k] = Math.max(high[k] ?? 0, value);
        corners[at++] = value;
      }
  }
  const middle = [0, 1, 2].map((k) => ((low[k] ?? 0) + (high[k] ?? 0)) / 2) as unknown as Vector;
  const half = minus(high as unknown as Vector, middle);
  return { corners, part, names: parts.map(({ name }) => name), middle, half, radius: length(half) };
}

function bytesOf(base64: string): Uint8Array {
  return Uint8Array.from(atob(base64), (sign) => sign.charCodeAt(0));
}

export interface Hit {
  readonly at: Vector;
  /** Outward. */
  readonly normal: Vector;
  readonly part: number;
}

/** Hits closer than this, mm, are where the ray begins. */
const SKIN = 1e-3;

/** The first skin that a ray meets. @param visible which points count */
export function hitOf(
  { corners, part }: Scene,
  from: Vector,
  along: Vector,
  visible: (at: Vector) => boolean = () => true,
): Hit | undefined {
  let [nearest, found] = [Infinity, -1];
  for (let i = 0; i < corners.length; i += 9) {
    const distance = distanceTo(corners, i, from, along);
    if (distance === undefined || distance < SKIN || distance >= nearest || !visible(plus(from, along, distance)))
      continue;
    [nearest, found] = [distance, i];
  }
  if (found < 0) return undefined;
  const [a, b, c] = [corner(corners, found), corner(corners, found + 3), corner(corners, found + 6)];
  const normal = unit(cross(minus(b, a), minus(c, a)));
  return { at: plus(from, along, nearest), normal, part: part[found / 9] ?? 0 };
}

/** How thick the wood is under a point of the skin, straight inward, mm. */
export function thicknessAt(scene: Scene, { at, normal }: Hit): number | undefined {
  const inward: Vector = [-normal[0], -normal[1], -normal[2]];
  const other = hitOf(scene, at, inward);
  return other && length(minus(other.at, at));
}

/** T. Möller, B. Trumbore, Fast, minimum storage ray/triangle intersection, 1997 (from memory). */
function distanceTo(corners: Float32Array, i: number, from: Vector, along: Vector): number | undefined {
  const a = corner(corners, i);
  const [u, v] = [minus(corner(corners, i + 3), a), minus(corner(corners, i + 6), a)];
  const p = cross(along, v);
  const determinant = dot(u, p);
  if (Math.abs(determinant) < 1e-12) return undefined;
  const t = minus(from, a);
  const x = dot(t, p) / determinant;
  if (x < 0 || x > 1) return undefined;
  const q = cross(t, u);
  const y = dot(along, q) / determinant;
  return y < 0 || x + y > 1 ? undefined : dot(v, q) / determinant;
}

function corner(corners: Float32Array, i: number): Vector {
  return [corners[i] ?? 0, corners[i + 1] ?? 0, corners[i + 2] ?? 0];
}
