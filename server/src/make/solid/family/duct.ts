/** A duct head: windway over a block that is a part of its own, window, labium. All of it turned about the axis like the bore. */

import { tangent } from "../../../design/outline/angle.js";
import { labiumLine } from "../../../design/outline/headProfile.js";
import type { DuctOutline, TubeOutline } from "../../../design/outline/outline.js";
import { SOLID_DEFAULTS as USUAL } from "../../../instrument/defaults.js";
import type { Point2, Solid } from "../kernel.js";
import { stopperSolid } from "../openings.js";
import { BEYOND, type Head } from "../parts.js";
import type { Shapes } from "../shapes.js";

export function ductHead(mouth: DuctOutline, tube: TubeOutline, shapes: Shapes): Head {
  const { window, windway, block } = mouth;
  const { kernel } = shapes;
  const radius = boreRadius(mouth);
  const outer = radius + tube.wall;
  const far = Math.max(outer, radius + window.chimney) + BEYOND;
  // The windway's floor is the block, so its air reaches into the bore; over a stopped end it is a floor of wood.
  const isShelf = window.stopper > 0;
  const cut = shapes.turned(windwayOutline(mouth, isShelf), windowOutline(mouth, radius, far));
  const air = kernel.common(cut, shapes.slab(plan(mouth, outer), 0, far + BEYOND));
  const beak = beakAir(mouth, outer, shapes);
  const body = stopperSolid(block, tube, { grooves: 0, chamfer: isShelf ? 0 : windway.chamfer }, shapes);
  return {
    wood: earWood(mouth, radius, outer, shapes),
    air: [air, ...beak],
    parts: [
      {
        name: "block",
        solid: kernel.minus(body, beak),
        up: "+z",
        stands: "upright on its beak end, the windway's exit up",
        advice: ["Its upper side is the windway's floor: sand it smooth, push it in flush with the window, glue it."],
        genus: 0,
        path: ["mouth", "window"],
        touchesMouth: true,
        isSmall: true,
      },
    ],
    airFrom: windway.from - BEYOND,
    openings: isShelf ? 3 : 2,
    advice: ["Its labium ends in one printed line: no supports at the window, the slowest and thinnest layers there."],
  };
}

function boreRadius({ block }: DuctOutline): number {
  return block.radius + USUAL.blockFit;
}

/** In [z, radius]: widening toward the entry, chamfered at the exit. */
function windwayOutline({ windway }: DuctOutline, isShelf: boolean): readonly Point2[] {
  const { from, to, floor, exitHeight, entryHeight, chamfer: c } = windway;
  const low = isShelf ? floor : floor - BEYOND;
  const roof = (z: number) => floor + entryHeight + ((z - from) / (to - from)) * (exitHeight - entryHeight);
  return [
    [from - BEYOND, low],
    [from - BEYOND, floor + entryHeight],
    [from, floor + entryHeight],
    [to - c, roof(to - c)],
    [to, roof(to - c) + c],
    [to + c / 2, roof(to - c) + c],
    ...(isShelf
      ? ([
          [to + c / 2, floor - c],
          [to, floor - c],
          [to - c, low],
        ] as const)
      : ([[to + c / 2, low]] as const)),
  ];
}

/** In [z, radius]: from inside the bore up to the outside, its lower end the labium's relief, edge and ramp. */
function windowOutline({ window, labium }: DuctOutline, radius: number, far: number): readonly Point2[] {
  const inside = radius - 2 * BEYOND;
  return [[window.from, inside], [window.from, far], ...[...labiumLine(labium, inside, far)].reverse()];
}

/** In [x, z]: the window's planes run along the ramp; the windway flares toward its entry. */
function plan({ window, windway, labium }: DuctOutline, outer: number): readonly Point2[] {
  const [w, e, v] = [windway.width / 2, windway.entryWidth / 2, window.width / 2];
  const end = window.to + (outer + 4 * BEYOND) / tangent(labium.ramp);
  const right: readonly Point2[] = [
    [e, windway.from - 2 * BEYOND],
    [e, windway.from],
    [w, windway.to],
    [v, windway.to],
    [v, end],
  ];
  const left = right.map(([x, z]): Point2 => [-x, z]).reverse();
  return [...right, ...left];
}

/** The mouthpiece's underside cut off at an angle, a lip left above it. */
function beakAir({ beak, windway }: DuctOutline, outer: number, shapes: Shapes): readonly Solid[] {
  if (beak.angle >= 90) return [];
  const top = windway.floor - beak.lip;
  const low = -outer - BEYOND;
  const run = Math.min((top - low) / tangent(beak.angle), LONGEST_BEAK * (windway.to - windway.from));
  const side: readonly Point2[] = [
    [top, windway.from - BEYOND],
    [top, windway.from],
    [low, windway.from + run],
    [low, windway.from - BEYOND],
  ];
  return [shapes.prism(side, 2 * outer + 4 * BEYOND)];
}

/** Share of the windway's length: the block must still close the bore below. */
const LONGEST_BEAK = 0.8;

/** Thickness of a window's raised side walls, mm. Common practice, no source. */
const EAR = 2.4;

/** Side walls of a window that is deeper than the wall, sloping down to the body. */
function earWood({ window }: DuctOutline, radius: number, outer: number, shapes: Shapes): readonly Solid[] {
  const rim = radius + window.chimney;
  if (rim <= outer + 1e-9) return [];
  const slope = rim;
  const side: readonly Point2[] = [
    [0, window.from - slope],
    [rim, window.from],
    [rim, window.to],
    [0, window.to + slope],
  ];
  const place = (window.width + EAR) / 2;
  const { kernel } = shapes;
  return [-place, place].map((x) =>
    kernel.placed(shapes.prism(side, EAR), { x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1], move: [x, 0, 0] }),
  );
}
