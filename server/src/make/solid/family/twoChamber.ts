/** A two-chamber head: slow chamber, plug, a flat nest with the channel in it, and the block that is tied over it. */

import { labiumLine, type ProfilePoint, slowChamberLine, tiedBlockLine } from "../../../design/outline/headProfile.js";
import type { TubeOutline, TwoChamberOutline } from "../../../design/outline/outline.js";
import { SOLID_DEFAULTS as USUAL } from "../../../instrument/defaults.js";
import type { Point2, Solid } from "../kernel.js";
import { stopperSolid } from "../openings.js";
import { BEYOND, type Head, type Part } from "../parts.js";
import type { Shapes } from "../shapes.js";

/** How far the ledge stands in that stops the plug, mm. Common practice, no source. */
const LEDGE = 0.6;

export function twoChamberHead(mouth: TwoChamberOutline, tube: TubeOutline, shapes: Shapes): Head {
  const { chamber, window, nest, plug } = mouth;
  const radius = plug.radius + USUAL.blockFit;
  const top = Math.max(radius + tube.wall, nest.height) + 2 * BEYOND;
  const away = shapes.box([-nest.width / 2, nest.width / 2], [nest.height, top], [nest.from, window.from]);
  return {
    wood: [nestWood(mouth, shapes)],
    air: [
      slowChamber(mouth, tube, radius, shapes),
      channel(mouth, shapes),
      exitHole(mouth, shapes),
      away,
      windowAir(mouth, radius, top, shapes),
    ],
    parts: [tiedBlock(mouth, shapes), plugPart(mouth, tube, shapes)],
    airFrom: chamber.to,
    openings: 3,
    advice: ["Its labium ends in one printed line: no supports at the window, the slowest and thinnest layers there."],
  };
}

/** From the mouth hole through the chamber to the plug's place, past which the bore begins. */
function slowChamber(mouth: TwoChamberOutline, tube: TubeOutline, radius: number, shapes: Shapes): Solid {
  const [a, m] = [mouth.chamber.diameter / 2, mouth.mouthHole / 2];
  const { to } = mouth.chamber;
  const ledge = Math.min(a, radius) - LEDGE;
  return shapes.filled([
    [tube.from - BEYOND, m + BEYOND],
    [tube.from, m + BEYOND],
    [tube.from + BEYOND, m],
    ...slowChamberLine(mouth),
    [to - LEDGE - (a - ledge), a],
    [to - LEDGE, ledge],
    [to - (LEDGE - Math.max(0, radius - ledge - LEDGE)), ledge],
    [to, radius],
    [to + BEYOND, radius],
  ]);
}

function channel({ windway, nest }: TwoChamberOutline, shapes: Shapes): Solid {
  const { from, to, floor, chamfer: c, width } = windway;
  const high = nest.height + BEYOND;
  const side: readonly Point2[] = [
    [floor, from],
    [high, from],
    [high, to + c / 2],
    [floor - c, to + c / 2],
    [floor - c, to],
    [floor, to - c],
  ];
  return shapes.prism(side, width);
}

/** Straight up from the chamber's end into the channel. */
function exitHole({ chamber, exitLength, windway }: TwoChamberOutline, shapes: Shapes): Solid {
  const half = Math.min(windway.width / 2 - BEYOND / 2, chamber.diameter / 2 - BEYOND);
  return shapes.box([-half, half], [0, windway.floor + USUAL.chamfer], [chamber.to - exitLength, chamber.to]);
}

/** Flat like the channel: edge, ramp and relief straight across. */
function windowAir({ window, labium }: TwoChamberOutline, radius: number, top: number, shapes: Shapes): Solid {
  // Below the bore's wall at the window's corners, or a ledge of wood is left behind the relief.
  const under = Math.sqrt(Math.max(0, radius ** 2 - (window.width / 2) ** 2)) - USUAL.chamfer;
  const edge = labiumLine(labium, under, top);
  const side: readonly Point2[] = [[0, window.from], [top, window.from], ...acrossZ(edge).reverse(), [0, edge[0][0]]];
  return shapes.prism(side, window.width);
}

function nestWood({ nest }: TwoChamberOutline, shapes: Shapes): Solid {
  const { from, to, height, width } = nest;
  const side: readonly Point2[] = [
    [0, from - height],
    [height, from],
    [height, to],
    [0, to + height],
  ];
  return shapes.prism(side, width);
}

/** A prism's sides are told by height and place along the axis. */
function acrossZ(line: readonly ProfilePoint[]): Point2[] {
  return line.map(([z, height]) => [height, z]);
}

function tiedBlock(mouth: TwoChamberOutline, shapes: Shapes): Part {
  const { block, nest, window } = mouth;
  const { length, width, height } = block;
  const high = nest.height + height;
  const middle = window.from - length + length / 2;
  const [half, deep] = [USUAL.cordGroove / 2, Math.min(USUAL.cordDepth, height / 3)];
  const line = acrossZ(tiedBlockLine(mouth));
  const side: readonly Point2[] = [
    ...line.slice(0, 2),
    [high, middle - half - deep],
    [high - deep, middle - half],
    [high - deep, middle + half],
    [high, middle + half + deep],
    ...line.slice(2),
  ];
  return {
    name: "block",
    solid: shapes.prism(side, width),
    up: "+y",
    stands: "lying on the flat side that covers the channel",
    advice: [
      "Its flat side covers the channel: sand it flat, tie it on through the groove, its front flush with the window.",
    ],
    genus: 0,
    path: ["mouth", "block"],
    isSmall: true,
  };
}

function plugPart({ plug }: TwoChamberOutline, tube: TubeOutline, shapes: Shapes): Part {
  return {
    name: "plug",
    solid: stopperSolid(plug, tube, { grooves: 0, chamfer: 0 }, shapes),
    up: "-z",
    stands: "upright, the face that closes the sounding bore on the bed",
    advice: ["Push it up from the foot against its ledge and glue it airtight: its face closes the sounding bore."],
    genus: 0,
    path: ["mouth", "window"],
    isSmall: true,
  };
}
