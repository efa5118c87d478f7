/** Mouths of tubes as the description has them. Numbers without a name: common practice, no source. */
import { boreRadiusAt } from "../../../server/src/design/outline/bore.js";
import type {
  DuctOutline,
  EmbouchureOutline,
  RimOutline,
  TubeOutline,
  TwoChamberOutline,
} from "../../../server/src/design/outline/outline.js";
import { radiusOn } from "../../../server/src/design/outline/tube.js";
import {
  boxVolume,
  common,
  filled,
  type Line,
  ovals,
  type Point,
  prism,
  roundVolume,
  slab,
  turned,
  wood,
} from "./lines.js";
import { CHAMFER, FAR, openingAir, stopper, stopperRadii } from "./openings.js";

export interface Head {
  readonly wood: readonly Line[];
  readonly air: readonly Line[];
  /** Volumes of parts beside the tube. */
  readonly parts: readonly (readonly [name: string, volume: number])[];
  readonly airFrom: number;
}

export function headOf(tube: TubeOutline): Head {
  const { mouth } = tube;
  switch (mouth?.kind) {
    case "duct":
      return duct(mouth, tube);
    case "two-chamber":
      return twoChamber(mouth, tube);
    case "embouchure":
      return embouchure(mouth, tube);
    case "rim":
      return rim(mouth, tube);
    default:
      throw new Error("no mouth that can be made");
  }
}

/** Rise per mm along, for a slope of this many degrees. */
const slope = (degrees: number) => Math.tan((degrees * Math.PI) / 180);

function duct({ window, windway, labium, block, beak }: DuctOutline, tube: TubeOutline): Head {
  const radius = boreRadiusAt(tube.bore, 0);
  const outer = radius + tube.wall;
  const { from, to, floor, exitHeight, entryHeight, chamfer: c } = windway;
  const isShelf = window.stopper > 0;
  // The plan of the windway: straight sides from entry to exit.
  const [w, e] = [windway.width / 2, windway.entryWidth / 2];
  const way = slab([
    [-e, from - FAR],
    [-e, from],
    [-w, to],
    [-w, to + c],
    [w, to + c],
    [w, to],
    [e, from],
    [e, from - FAR],
  ]);
  // A shelf's floor has its chamfer in the wood; over the block, that one's own edge is broken.
  const low = isShelf ? floor : 0;
  const room: readonly Point[] = [
    [from - FAR, low],
    [from - FAR, floor + entryHeight],
    [from, floor + entryHeight],
    [to, floor + exitHeight],
    [to, low],
  ];
  const rise = (entryHeight - exitHeight) / (to - from);
  const roof = floor + exitHeight + c * rise;
  const lip = turned([
    [to - c, roof],
    [to, roof + c],
    [to, roof - 0.05],
  ]);
  const floorEdge = turned([
    [to - c, floor],
    [to, floor - c],
    [to, floor + 0.05],
    [to - c, floor + 0.05],
  ]);
  const windwayAir = common(wood([turned(room), lip, ...(isShelf ? [floorEdge] : [])]), way);
  // The window through the wall, with the labium left: ramp above the edge, relief below.
  const side: readonly Point[] = [
    [window.from, radius - 2],
    [window.from, FAR],
    [window.to + (FAR - labium.high) / slope(labium.ramp), FAR],
    [window.to, labium.high],
    [window.to, labium.low],
    [window.to + (labium.low - radius + 2) / slope(labium.relief), radius - 2],
  ];
  const half = window.width / 2;
  const windowAir = common(
    turned(side),
    slab([
      [-half, -FAR],
      [half, -FAR],
      [half, FAR * 9],
      [-half, FAR * 9],
    ]),
  );
  const top = floor - beak.lip;
  const below = top + outer + 1;
  const run = Math.min(below / slope(beak.angle), 0.8 * (to - from));
  const cut = prism(
    [
      [top, from - 9],
      [top, from],
      [top - below, from + run],
      [top - below, from - 9],
    ],
    2 * FAR,
  );
  const beakAir = beak.angle >= 90 ? [] : [cut];
  const rim = radius + window.chimney;
  const ear: readonly Point[] = [
    [0, window.from - rim],
    [rim, window.from],
    [rim, window.to],
    [0, window.to + rim],
  ];
  const place = half + 1.2;
  const body = stopper(block, tube.bore, { grooves: 0, chamfer: isShelf ? 0 : c });
  return {
    wood: rim > outer + 1e-9 ? [prism(ear, 2.4, place), prism(ear, 2.4, -place)] : [],
    air: [windwayAir, windowAir, ...beakAir],
    parts: [["block", roundVolume(wood([body], beakAir), stopperRadii(block))]],
    airFrom: from - 1,
  };
}

function twoChamber(mouth: TwoChamberOutline, tube: TubeOutline): Head {
  const { chamber, window, windway, labium, nest, plug, block, exitLength, mouthHole } = mouth;
  const radius = boreRadiusAt(tube.bore, 0);
  const [a, m, start] = [chamber.diameter / 2, mouthHole / 2, tube.from];
  // From mouth hole through a cone of 45° to the chamber, and by a cone to the ledge that stops the plug.
  const ledge = Math.min(a, radius) - 0.6;
  const slow = wood([
    filled([
      [start - 1, m + 1],
      [start, m + 1],
      [start + 1, m],
      [chamber.from, m],
    ]),
    filled([
      [chamber.from, m],
      [chamber.from + a - m, a],
      [chamber.to - 0.6 - (a - ledge), a],
      [chamber.to - 0.6, ledge],
    ]),
    filled([
      [chamber.to - 0.6, ledge],
      [chamber.to - 0.6 + Math.max(0, radius - ledge - 0.6), ledge],
      [chamber.to, radius],
      [chamber.to + 1, radius],
    ]),
  ]);
  const c = windway.chamfer;
  const above = nest.height + FAR;
  const channel = wood([
    prism(
      [
        [windway.floor, windway.from],
        [above, windway.from],
        [above, windway.to],
        [windway.floor, windway.to],
      ],
      windway.width,
    ),
    prism(
      [
        [windway.floor, windway.to - c],
        [windway.floor - c, windway.to],
        [windway.floor, windway.to],
      ],
      windway.width,
    ),
  ]);
  const exit = Math.min(windway.width / 2 - 0.5, a - 1);
  const up: readonly Point[] = [
    [0, chamber.to - exitLength],
    [windway.floor + CHAMFER, chamber.to - exitLength],
    [windway.floor + CHAMFER, chamber.to],
    [0, chamber.to],
  ];
  const under = Math.sqrt(Math.max(0, radius ** 2 - (window.width / 2) ** 2)) - CHAMFER;
  const run = (labium.low - under) / slope(labium.relief);
  const cut: readonly Point[] = [
    [0, window.from],
    [above, window.from],
    [above, window.to + (above - labium.high) / slope(labium.ramp)],
    [labium.high, window.to],
    [labium.low, window.to],
    [under, window.to + run],
    [0, window.to + run],
  ];
  const flat = (y: number, to: number): readonly Point[] => [
    [y, nest.from],
    [to, nest.from],
    [to, window.from],
    [y, window.from],
  ];
  const sole: readonly Point[] = [
    [0, nest.from - nest.height],
    [nest.height, nest.from],
    [nest.height, nest.to],
    [0, nest.to + nest.height],
  ];
  return {
    wood: [prism(sole, nest.width)],
    air: [slow, channel, prism(up, 2 * exit), prism(cut, window.width), prism(flat(nest.height, above), nest.width)],
    parts: [
      ["block", tied(block, nest.height, window.from)],
      ["plug", roundVolume(stopper(plug, tube.bore, { grooves: 0, chamfer: 0 }), stopperRadii(plug))],
    ],
    airFrom: chamber.to,
  };
}

/** A bar with slopes at both ends and a groove of trapezoid section for the cord across its back. */
function tied({ length, width, height }: TwoChamberOutline["block"], low: number, to: number): number {
  const from = to - length;
  const [middle, deep, third] = [from + length / 2, Math.min(2, height / 3), height / 3];
  const bar: readonly Point[] = [
    [low, from],
    [low + height, from + height / 2],
    [low + height, to - third],
    [low + third, to],
    [low, to],
  ];
  const high = low + height;
  const groove: readonly Point[] = [
    [high + 1, middle - 4 - deep],
    [high, middle - 3 - deep],
    [high - deep, middle - 3],
    [high - deep, middle + 3],
    [high, middle + 3 + deep],
    [high + 1, middle + 4 + deep],
  ];
  const line = wood([prism(bar, width)], [prism(groove, width)]);
  return boxVolume(line, [-width / 2, width / 2], [low, high], height / 200);
}

function embouchure(mouth: EmbouchureOutline, tube: TubeOutline): Head {
  const { width, length, chimney, boreRadius, stopper: plug } = mouth;
  const outer = radiusOn(tube.outside, 0);
  const rimHeight = boreRadius + chimney;
  const across = Math.max(Math.min(width / 2 + 7, outer - 2), width / 2 + 1);
  const along = length / 2 + 9;
  const plate = ovals([
    [0, across + Math.min(2, outer - across), along + rimHeight],
    [rimHeight, across, along],
  ]);
  return {
    wood: rimHeight > outer + 1e-9 ? [plate] : [],
    air: [openingAir(mouth, boreRadius, outer)],
    parts:
      plug === undefined
        ? []
        : [["stopper", roundVolume(stopper(plug, tube.bore, { grooves: 2, chamfer: 0 }), stopperRadii(plug))]],
    airFrom: plug === undefined ? mouth.closedAt : tube.from - 1,
  };
}

function rim({ notch }: RimOutline, tube: TubeOutline): Head {
  const airFrom = tube.from - 1;
  if (notch === undefined) return { wood: [], air: [], parts: [], airFrom };
  const at = tube.from + notch.depth;
  const radius = boreRadiusAt(tube.bore, at);
  const edge = radius + notch.edge;
  const cut = turned([
    [tube.from - FAR, radius - 2],
    [tube.from - FAR, FAR],
    [at + (FAR - edge) / slope(notch.ramp), FAR],
    [at, edge],
    [at, radius - 2],
  ]);
  const half = notch.width / 2;
  const air = common(
    cut,
    slab([
      [-half, -FAR],
      [half, -FAR],
      [half, 9 * FAR],
      [-half, 9 * FAR],
    ]),
  );
  return { wood: [], air: [air], parts: [], airFrom };
}
