/** Parts of a tube as the description has them: profiles of bore and body, and what is put on and taken away. Numbers without a name: common practice, no source. */
import { boreProfile, boreRadiusAt } from "../../../server/src/design/outline/bore.js";
import type { HoleOutline, PartOutline, TubeOutline } from "../../../server/src/design/outline/outline.js";
import { radiusOn } from "../../../server/src/design/outline/tube.js";
import { headOf } from "./heads.js";
import { filled, type Line, nothing, ovals, type Point, prism, roundVolume, turned, wood } from "./lines.js";
import { CHAMFER, FAR, openingAir, type Volumes } from "./openings.js";

export function tubeVolumes(tube: TubeOutline, leastWall: number, fine: number): Volumes {
  const head = headOf(tube);
  const bore = boreAir(tube, head.airFrom);
  const holes = tube.holes.map((hole) => ({ hole, air: holeAir(hole, tube) }));
  const jumps = radiiOf(tube);
  const volumes = new Map<string, number>();
  for (const [i, part] of tube.parts.entries()) {
    const within = holes.filter(({ hole }) => hole.at >= part.from && hole.at < part.to);
    const line = wood(
      [
        body(part, tube, leastWall),
        ...(i === 0 ? head.wood : []),
        ...within.map(({ hole }) => chimney(hole, tube, leastWall)),
        base(part, tube),
        thumbRest(part, tube),
      ],
      [bore, ...(i === 0 ? head.air : []), ...within.map(({ air }) => air), socket(part, tube, leastWall)],
    );
    volumes.set(part.name, roundVolume(line, jumps, fine));
  }
  for (const [name, volume] of head.parts) volumes.set(name, volume);
  return volumes;
}

/** Walls along the axis, and the farthest that anything stands out. */
function radiiOf({ bore, outside, joints, mouth, holes, wall, thumbRest }: TubeOutline): readonly number[] {
  const outer = Math.max(...outside.map(([, radius]) => radius));
  const standsOut = [
    outer + (thumbRest?.height ?? 0),
    ...holes.map((hole) => hole.boreRadius + hole.chimney),
    mouth?.kind === "two-chamber" ? mouth.nest.height + mouth.block.height : 0,
    mouth !== undefined && "boreRadius" in mouth ? mouth.boreRadius + mouth.chimney : 0,
    mouth?.kind === "duct" ? boreRadiusAt(bore, 0) + mouth.window.chimney : 0,
  ];
  return [
    ...bore.map(({ diameter }) => diameter / 2),
    ...outside.map(([, radius]) => radius),
    ...joints.flatMap(({ radius, socketRadius, outerRadius, groove }) => [
      radius,
      radius - (groove?.depth ?? 0),
      socketRadius,
      outerRadius,
    ]),
    ...(mouth?.kind === "duct" ? [mouth.windway.floor, mouth.labium.low, mouth.labium.high] : []),
    ...(mouth?.kind === "two-chamber" ? [mouth.chamber.diameter / 2, mouth.mouthHole / 2] : []),
    // Corners of what stands out lie aside of its middle.
    Math.hypot(Math.max(...standsOut), outer + wall),
  ].filter((radius) => radius > 0);
}

function body({ from, to, tenon }: PartOutline, tube: TubeOutline, leastWall: number): Line {
  const c = CHAMFER;
  const [first, last] = [radiusOn(tube.outside, from + c), radiusOn(tube.outside, to - c)];
  const inside = tube.outside.filter(([z]) => z > from + c && z < to - c);
  const lower: readonly Point[] = [
    [to - c, last],
    [to, last - c],
  ];
  if (tenon === undefined) return filled([[from, first - c], [from + c, first], ...inside, ...lower]);
  const tip = tenon.at - tenon.length;
  const cut = tenon.radius - boreRadiusAt(tube.bore, tip) - leastWall / 2;
  const { groove } = tenon;
  const long = filled([
    [tip, tenon.radius - cut],
    [tip + cut, tenon.radius],
    [tenon.at, tenon.radius],
  ]);
  const hasGroove = groove !== undefined && groove.from > tip + cut;
  const ring = hasGroove
    ? turned([
        [groove.from, tenon.radius],
        [groove.from + groove.depth, tenon.radius - groove.depth],
        [groove.to - groove.depth, tenon.radius - groove.depth],
        [groove.to, tenon.radius],
      ])
    : nothing;
  return wood([wood([long], [ring]), filled([[from, tenon.outerRadius], ...inside, ...lower])]);
}

function boreAir(tube: TubeOutline, from: number): Line {
  const foot = tube.bore.at(-1)?.at ?? tube.to;
  const profile = boreProfile(tube.bore, from, foot);
  return filled(tube.foot === "open" ? [...profile, [foot + FAR, profile.at(-1)?.[1] ?? 0]] : profile);
}

/** Taken out round the tenon, its bottom a cone like the tenon's tip. */
function socket({ socket: joint }: PartOutline, tube: TubeOutline, leastWall: number): Line {
  if (joint === undefined) return nothing;
  const { at, length, socketRadius } = joint;
  const tip = at - length;
  const bore = boreRadiusAt(tube.bore, tip);
  const end = tip - 0.3 + (socketRadius - bore - leastWall / 2);
  return filled([
    [end - (socketRadius - bore / 2), bore / 2],
    [end, socketRadius],
    [at - CHAMFER, socketRadius],
    [at, socketRadius + CHAMFER],
    [at + 1, socketRadius + CHAMFER],
  ]);
}

function holeAir(hole: HoleOutline, tube: TubeOutline): Line {
  return openingAir(hole, hole.boreRadius, radiusOn(tube.outside, hole.at), hole.angle, hole.at);
}

/** A raised hole's wall is the body's, never wider than the body. */
function chimney(hole: HoleOutline, tube: TubeOutline, leastWall: number): Line {
  const rim = hole.boreRadius + hole.chimney;
  const outer = radiusOn(tube.outside, hole.at);
  if (rim <= outer + 1e-9) return nothing;
  const across = Math.max(Math.min(hole.width / 2 + tube.wall, outer - CHAMFER), hole.width / 2 + leastWall);
  const along = hole.length / 2 + tube.wall;
  return ovals(
    [
      [0, across, along],
      [rim, across, along],
    ],
    hole.angle,
    hole.at,
  );
}

/** A flat at the back: the body's profile from the side, as wide as the flat. */
function base({ from, to }: PartOutline, tube: TubeOutline): Line {
  if (tube.base === undefined) return nothing;
  const c = CHAMFER;
  const back = (z: number): Point => [-radiusOn(tube.outside, z), z];
  const inside = tube.outside.map(([z]) => z).filter((z) => z > from + c && z < to - c);
  const [start, end] = [back(from + c), back(to - c)];
  return prism(
    [[0, from], [start[0] + c, from], start, ...inside.map(back), end, [end[0] + c, to], [0, to]],
    tube.base,
  );
}

function thumbRest({ from, to }: PartOutline, { thumbRest: rest, outside }: TubeOutline): Line {
  if (rest === undefined || rest.at < from || rest.at >= to) return nothing;
  const deep = radiusOn(outside, rest.at) + rest.height;
  const half = rest.length / 2;
  return prism(
    [
      [0, rest.at - half - deep],
      [-deep, rest.at - half],
      [-deep, rest.at + half],
      [0, rest.at + half + deep],
    ],
    rest.width,
  );
}
