/** A tube of any mouth, part by part: wood less one union of all air. */
import type { HoleOutline, PartOutline, TubeOutline } from "../../../design/outline/outline.js";
import { baseWood, chimneyWood, partBody, socketAir, thumbRestWood } from "../bodies.js";
import { boreAir, holeAir } from "../openings.js";
import { BEYOND, type Head, type Part } from "../parts.js";
import type { Shapes } from "../shapes.js";
import { ductHead } from "./duct.js";
import { embouchureHead } from "./embouchure.js";
import { rimHead } from "./rim.js";
import { twoChamberHead } from "./twoChamber.js";

export function tubeParts(tube: TubeOutline, leastWall: number, shapes: Shapes): readonly Part[] {
  const { kernel } = shapes;
  const head = headOf(tube, shapes);
  const air = kernel.union([
    boreAir(tube, head.airFrom, shapes),
    ...head.air,
    ...tube.holes.map((hole) => holeAir(hole, tube, shapes)),
  ]);
  const made = tube.parts.map((part, i): Part => {
    const isFirst = i === 0;
    const holes = tube.holes.filter((hole) => isIn(part, hole.at));
    const rest = thumbRestWood(tube, shapes);
    const wood = kernel.union([
      partBody(part, tube, leastWall, shapes),
      ...(isFirst ? head.wood : []),
      ...holes.flatMap((hole) => chimneyWood(hole, tube, leastWall, shapes)),
      ...baseWood(part, tube, shapes),
      ...(rest !== undefined && isIn(part, tube.thumbRest?.at ?? Number.NaN) ? [rest] : []),
    ]);
    const socket = part.socket === undefined ? [] : [socketAir(part.socket, tube, leastWall, shapes)];
    const openings = (isFirst ? head.openings : 1) + (isStopped(tube, part) ? 0 : 1) + holes.length;
    return {
      name: part.name,
      solid: kernel.minus(wood, [air, ...socket]),
      up: "-z",
      stands: "upright, the end toward the mouth up",
      advice: [...(isFirst ? head.advice : []), ...jointAdvice(part)],
      genus: openings - 1,
      path: pathOf(part, holes),
      ...(isFirst ? { touchesMouth: true } : {}),
    };
  });
  return [...made, ...head.parts];
}

function headOf(tube: TubeOutline, shapes: Shapes): Head {
  const { mouth } = tube;
  switch (mouth?.kind) {
    case "duct":
      return ductHead(mouth, tube, shapes);
    case "two-chamber":
      return twoChamberHead(mouth, tube, shapes);
    case "embouchure":
      return embouchureHead(mouth, tube, shapes);
    case "rim":
      return rimHead(mouth, tube, shapes);
    default:
      return { wood: [], air: [], parts: [], airFrom: tube.from - BEYOND, openings: 1, advice: [] };
  }
}

export function isIn({ from, to }: PartOutline, at: number): boolean {
  return at >= from && at < to;
}

function isStopped(tube: TubeOutline, part: PartOutline): boolean {
  return tube.foot === "stopped" && part.to === tube.to;
}

function jointAdvice({ tenon }: PartOutline): readonly string[] {
  if (tenon === undefined) return [];
  const seal = {
    thread: "Lap the tenon's groove with waxed thread until it turns in firmly and does not leak.",
    cork: "Glue cork round the tenon, sand it to fit, grease it.",
    plain: "Glue the tenon airtight.",
  };
  return [seal[tenon.finish]];
}

/** Where to look if the part is not what it should be. */
function pathOf({ tenon, socket }: PartOutline, holes: readonly HoleOutline[]): Part["path"] {
  return holes[0]?.path ?? tenon?.path ?? socket?.path ?? ["bore"];
}
