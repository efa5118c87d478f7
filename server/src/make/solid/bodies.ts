/** The wood of a tube: each part's outer body with tenon and ring, and what stands out from it. */

import { boreRadiusAt } from "../../design/outline/bore.js";
import type { HoleOutline, JointOutline, PartOutline, Profile, TubeOutline } from "../../design/outline/outline.js";
import { radiusOn } from "../../design/outline/tube.js";
import { SOLID_DEFAULTS as USUAL } from "../../instrument/defaults.js";
import type { Point2, Solid } from "./kernel.js";
import type { Oval, Shapes } from "./shapes.js";

/** One part without its bore. Tenon, groove and chamfers are in the profile: nothing is glued on in space. */
export function partBody(part: PartOutline, tube: TubeOutline, leastWall: number, shapes: Shapes): Solid {
  return shapes.filled(partProfile(part, tube, leastWall));
}

export function partProfile(part: PartOutline, tube: TubeOutline, leastWall: number): Profile {
  const { from, to, tenon } = part;
  const c = USUAL.chamfer;
  const inside = tube.outside.filter(([z]) => z > from + c && z < to - c);
  const [first, last] = [radiusOn(tube.outside, from + c), radiusOn(tube.outside, to - c)];
  const end: Profile = [
    [to - c, last],
    [to, last - c],
  ];
  // The shoulder carries the part above: it has no chamfer.
  const start: Profile =
    tenon === undefined
      ? [
          [from, first - c],
          [from + c, first],
        ]
      : [
          ...tenonProfile(tenon, boreRadiusAt(tube.bore, tenon.at - tenon.length), leastWall),
          [from, tenon.outerRadius],
        ];
  return [...start, ...inside, ...end];
}

/** From the tip to the shoulder; the tip is cut at 45°, as the end of the socket is, so that neither has a step to bridge. */
function tenonProfile({ at, length, radius, groove }: JointOutline, bore: number, leastWall: number): Profile {
  const tip = at - length;
  const cut = radius - bore - leastWall / 2;
  const points: Point2[] = [
    [tip, radius - cut],
    [tip + cut, radius],
  ];
  if (groove !== undefined && groove.from > tip + cut) {
    const { from, to, depth } = groove;
    points.push([from, radius], [from + depth, radius - depth], [to - depth, radius - depth], [to, radius]);
  }
  points.push([at, radius]);
  return points;
}

/** The socket's air at a part's end, on top of the bore's. */
export function socketAir(joint: JointOutline, tube: TubeOutline, leastWall: number, shapes: Shapes): Solid {
  const { at, length, socketRadius } = joint;
  const bore = boreRadiusAt(tube.bore, at - length);
  const deep = at - length - USUAL.tenonPlay + (socketRadius - bore - leastWall / 2);
  const inside = bore / 2;
  const c = USUAL.chamfer;
  return shapes.filled([
    [deep - (socketRadius - inside), inside],
    [deep, socketRadius],
    [at - c, socketRadius],
    [at, socketRadius + c],
    [at + 1, socketRadius + c],
  ]);
}

/** Walls of chimneys that stand up above the body, from the axis on. */
export function chimneyWood(hole: HoleOutline, tube: TubeOutline, leastWall: number, shapes: Shapes): readonly Solid[] {
  const rim = hole.boreRadius + hole.chimney;
  const outer = radiusOn(tube.outside, hole.at);
  if (rim <= outer + 1e-9) return [];
  // Never wider than the body, or it has an underside in the air.
  const across = Math.max(Math.min(hole.width / 2 + tube.wall, outer - USUAL.chamfer), hole.width / 2 + leastWall);
  const along = hole.length / 2 + tube.wall;
  const rings: Oval[] = [
    [0, across, along],
    [rim, across, along],
  ];
  return [shapes.around(shapes.loft(rings), hole.angle, hole.at)];
}

/** A flat at the back, as high as the surface, within one part. */
export function baseWood({ from, to }: PartOutline, tube: TubeOutline, shapes: Shapes): readonly Solid[] {
  if (tube.base === undefined) return [];
  const c = USUAL.chamfer;
  const points = [from + c, ...tube.outside.map(([z]) => z).filter((z) => z > from + c && z < to - c), to - c];
  const [first, last] = [radiusOn(tube.outside, from + c), radiusOn(tube.outside, to - c)];
  const side: Point2[] = [
    [0, from],
    [c - first, from],
    ...points.map((z): Point2 => [-radiusOn(tube.outside, z), z]),
    [c - last, to],
    [0, to],
  ];
  return [shapes.prism(side, tube.base)];
}

/** A block at the back with slopes of 45° at both ends. */
export function thumbRestWood(tube: TubeOutline, shapes: Shapes): Solid | undefined {
  const rest = tube.thumbRest;
  if (rest === undefined) return undefined;
  const low = -radiusOn(tube.outside, rest.at) - rest.height;
  const half = rest.length / 2;
  const side: readonly Point2[] = [
    [0, rest.at - half + low],
    [low, rest.at - half],
    [low, rest.at + half],
    [0, rest.at + half - low],
  ];
  return shapes.prism(side, rest.width);
}
