/** What a cut through a vessel's mouth shows, along the breath and square to the plane of the holes: areas in [z, y], the breath from +y. mm as drawn. */
import type { VesselOutline } from "../../design/outline/outline.js";
import { type Point, spoutTop, vesselMouthSides } from "../../design/outline/vesselMouth.js";
import type { SectionPoint } from "./section.js";

type Duct = Extract<VesselOutline["mouth"], { kind: "duct" }>;

/** The shell with its labium and the windway's floor, and the roof over it. */
export function vesselSection(vessel: VesselOutline): readonly (readonly SectionPoint[])[] {
  const areas = vessel.mouth.kind === "duct" ? ductSection(vessel.mouth, vessel) : blownOver(vessel);
  return areas.map((area) => area.map(([y, z]): SectionPoint => [z, y]));
}

/** How far a spout reaches to the player, from the middle: `front` of it; and above the pole's height. */
export function spoutOf({ mouth, semiAxes: [, b, c], wall }: VesselOutline): {
  readonly front: number;
  readonly top: number;
} {
  if (mouth.kind !== "duct") return { front: b + wall, top: c + Math.max(wall, mouth.chimney) };
  const { window, windway } = mouth;
  const front = Math.max(b + wall, window.length / 2 + windway.to - windway.from);
  return { front, top: Math.max(c + window.chimney, spoutTop(mouth)) };
}

function ductSection(mouth: Duct, vessel: VesselOutline): readonly (readonly Point[])[] {
  const { floor, exitHeight, entryHeight, chamfer: k } = mouth.windway;
  const [, b, c] = vessel.semiAxes;
  const inner = oval(b, c);
  const outer = oval(b + vessel.wall, c + vessel.wall);
  const sides = vesselMouthSides(mouth, vessel);
  const { entry, exit, roof, under, padEnd, padFoot } = sides;
  const [reliefEnd, low, high] = sides.labium() as readonly [Point, Point, Point];
  const pad = crossing([padEnd, padFoot], outer);
  const below = crossing(
    [
      [entry, floor],
      [entry, under],
      [exit, under - (entry - exit)],
    ],
    outer,
  );
  const start = crossing([low, reliefEnd], inner);
  const exitInside: Point = [exit, c * Math.sqrt(Math.max(0, 1 - (exit / b) ** 2))];
  const shell: readonly Point[] = [
    low,
    high,
    padEnd,
    ...pad.before,
    ...outer.around(pad.at, below.at),
    ...[...below.before].reverse(),
    [entry, floor],
    [exit + k, floor],
    [exit, floor - k],
    ...inner.around(start.at, exitInside).reverse(),
  ];
  const roofArea: readonly Point[] = [
    [exit, roof],
    ...outer.above(exit, entry, roof),
    [entry, roof],
    [entry, floor + entryHeight],
    [exit + k, floor + exitHeight],
    [exit, floor + exitHeight + k],
  ];
  return [shell, roofArea];
}

function blownOver({ mouth, semiAxes: [, b, c], wall }: VesselOutline): readonly (readonly Point[])[] {
  const half = mouth.kind === "embouchure" ? mouth.length / 2 : 0;
  const [inner, outer] = [oval(b, c), oval(b + wall, c + wall)];
  const at = (within: Oval, y: number): Point => [y, within.height(y)];
  return [
    [...outer.around(at(outer, -half), at(outer, half)), ...inner.around(at(inner, -half), at(inner, half)).reverse()],
  ];
}

/** Points that stand for a whole round. */
const POINTS = 96;

interface Oval {
  /** Of its upper half at y; 0 beside it. */
  height(y: number): number;
  holds(point: Point): boolean;
  /** From one of its points to another, by way of the lower pole: −y first. */
  around(from: Point, to: Point): Point[];
  /** Its points over a stretch of y that lie higher than `least`. */
  above(from: number, to: number, least: number): readonly Point[];
}

function oval(across: number, along: number): Oval {
  // Turned from the upper pole toward +y.
  const turnOf = ([y, z]: Point) => Math.atan2(y / across, z / along);
  const height = (y: number) => along * Math.sqrt(Math.max(0, 1 - (y / across) ** 2));
  return {
    height,
    holds: ([y, z]) => (y / across) ** 2 + (z / along) ** 2 < 1,
    around: (from, to) => {
      const [first, last] = [turnOf(from), turnOf(to) - 2 * Math.PI];
      const steps = Math.max(1, Math.ceil(((first - last) / (2 * Math.PI)) * POINTS));
      return Array.from({ length: steps + 1 }, (_, i): Point => {
        const turn = first + ((last - first) * i) / steps;
        return [across * Math.sin(turn), along * Math.cos(turn)];
      });
    },
    above: (from, to, least) =>
      Array.from({ length: POINTS + 1 }, (_, i): Point => {
        const y = from + ((to - from) * i) / POINTS;
        return [y, height(y)];
      }).filter(([, z]) => z > least),
  };
}

/** Where a line of points first enters an oval, and its points before that; its end where it never does. */
function crossing(line: readonly Point[], within: Oval): { readonly at: Point; readonly before: readonly Point[] } {
  const before: Point[] = [];
  for (const [i, to] of line.entries()) {
    const from = line[i - 1];
    if (from !== undefined && within.holds(to)) {
      let [low, high] = [0, 1];
      const on = (share: number): Point => [from[0] + share * (to[0] - from[0]), from[1] + share * (to[1] - from[1])];
      for (let k = 0; k < 40; k++) {
        const middle = (low + high) / 2;
        if (within.holds(on(middle))) high = middle;
        else low = middle;
      }
      return { at: on(high), before: before.slice(1) };
    }
    if (within.holds(to)) return { at: to, before: [] };
    before.push(to);
  }
  return { at: line.at(-1) ?? [0, 0], before: before.slice(1, -1) };
}
