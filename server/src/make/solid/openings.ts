/** The air of a tube: its bore, and its holes. */

import { boreProfile } from "../../design/outline/bore.js";
import type { HoleOutline, OpeningOutline, StopperOutline, TubeOutline } from "../../design/outline/outline.js";
import { radiusOn } from "../../design/outline/tube.js";
import { SOLID_DEFAULTS as USUAL } from "../../instrument/defaults.js";
import type { Point2, Solid } from "./kernel.js";
import { BEYOND } from "./parts.js";
import type { Oval, Shapes } from "./shapes.js";

/** @param from where it begins; past the wood where the end is open */
export function boreAir(tube: TubeOutline, from: number, shapes: Shapes): Solid {
  const foot = tube.bore.at(-1)?.at ?? tube.to;
  const profile = boreProfile(tube.bore, from, foot);
  const last = profile.at(-1)?.[1] ?? 0;
  return shapes.filled(tube.foot === "open" ? [...profile, [foot + BEYOND, last]] : profile);
}

/** How wide the seat of a finger is around a hole whose rim lies below the body's surface. Common practice, no source. */
const SEAT = 2.5;

/** A hole along its own axis, +y, in a bore of a radius: a cone to the rim, a cylinder beyond. */
export function openingAir(
  { width, length, chimney, undercut = 0 }: OpeningOutline & { readonly undercut?: number },
  boreRadius: number,
  outer: number,
  shapes: Shapes,
): Solid {
  const rim = boreRadius + chimney;
  const top = Math.max(rim, outer) + BEYOND;
  const [across, along] = [width / 2, length / 2];
  const seat: Oval[] =
    rim < outer - 1e-9
      ? [
          [rim, across + SEAT, along + SEAT],
          [top, across + SEAT + (top - rim), along + SEAT + (top - rim)],
        ]
      : [[top, across, along]];
  const slope = undercut / 2 / chimney;
  // A straight one is drilled from the axis: its far end must not nick the wall opposite, nor leave a saddle of wood.
  const low = undercut === 0 ? 0 : coneEnd(boreRadius, (width + undercut) / 2);
  const wider = slope * (rim - low);
  return shapes.loft([[low, across + wider, along + wider], [rim, across, along], ...seat]);
}

/** Below the bore's wall at the cone's sides, and no farther: the cone widens on its way. */
function coneEnd(boreRadius: number, half: number): number {
  return Math.max(0, Math.sqrt(Math.max(0, boreRadius ** 2 - half ** 2)) - BEYOND / 2);
}

export function holeAir(hole: HoleOutline, tube: TubeOutline, shapes: Shapes): Solid {
  const air = openingAir(hole, hole.boreRadius, radiusOn(tube.outside, hole.at), shapes);
  return shapes.around(air, hole.angle, hole.at);
}

/** What is pushed into the bore, following its shape; its faces keep their edges, its seal has grooves for cord. */
export function stopperSolid(
  { from, to, radius }: StopperOutline,
  tube: Pick<TubeOutline, "bore">,
  { grooves, chamfer }: { readonly grooves: number; readonly chamfer: number },
  shapes: Shapes,
): Solid {
  const profile = boreProfile(tube.bore, from, to);
  const gap = (profile.at(-1)?.[1] ?? radius) - radius;
  const surface = (z: number) => radiusOn(profile, z) - gap;
  const points: Point2[] = [
    [from, surface(from) - USUAL.chamfer],
    [from + USUAL.chamfer, surface(from + USUAL.chamfer)],
  ];
  const d = USUAL.threadDepth + 0.3;
  const pitch = (to - from) / (grooves + 1);
  for (let i = 1; i <= grooves; i++) {
    const z = from + i * pitch;
    const [a, b] = [z - pitch / 3, z + pitch / 3];
    points.push([a, surface(a)], [a + d, surface(a) - d], [b - d, surface(b) - d], [b, surface(b)]);
  }
  points.push([to - chamfer, surface(to - chamfer)], [to, surface(to) - chamfer]);
  return shapes.filled(points);
}
