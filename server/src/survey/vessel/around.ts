/** The neighbourhood of a place on a vessel's skin, in a frame of its own. */
import { framed, type Mesh, partOf } from "../mesh/mesh.js";
import { cross, dot, frameAlong, plus, unit, type Vector } from "../mesh/vector.js";
import type { Chamber } from "./chamber.js";

export interface Around {
  /** y out of the chamber, 0 on the skin. */
  readonly local: Mesh;
  /** The frame's directions and its origin in the mesh's own. */
  readonly x: Vector;
  readonly z: Vector;
  readonly normal: Vector;
  readonly place: Vector;
}

/** mm below the skin that are examined. */
const BELOW = 4;

/** @param up from the chamber's middle toward the place; `reach` mm around it; `toward` what x points to, as nearly as it can */
export function around(mesh: Mesh, { middle, ellipsoid }: Chamber, up: Vector, reach: number, toward?: Vector): Around {
  const place = plus(middle, up, ellipsoid.radius(up));
  const normal = ellipsoid.normal(up);
  const x = toward === undefined ? frameAlong(normal)[0] : unit(plus(toward, normal, -dot(toward, normal)));
  const { v, t } = mesh;
  const isNear = new Uint8Array(v.length / 3);
  const isAbove = new Uint8Array(v.length / 3);
  const [px, py, pz] = place;
  const [nx, ny, nz] = normal;
  for (let i = 0; i < isNear.length; i++) {
    const [a, b, c] = [(v[3 * i] as number) - px, (v[3 * i + 1] as number) - py, (v[3 * i + 2] as number) - pz];
    const up = a * nx + b * ny + c * nz;
    isNear[i] = a * a + b * b + c * c - up * up < reach * reach ? 1 : 0;
    isAbove[i] = up > -BELOW ? 1 : 0;
  }
  const any = (of: Uint8Array, i: number) =>
    (of[t[3 * i] as number] as number) +
      (of[t[3 * i + 1] as number] as number) +
      (of[t[3 * i + 2] as number] as number) >
    0;
  const near = partOf(mesh, (i) => any(isNear, i) && any(isAbove, i));
  const local = framed(near, [x, normal, cross(x, normal)], place);
  return { local, x, z: cross(x, normal), normal, place };
}
