/** A window, or a notch: an opening with straight edges, one of them sharp. */
import { median, robustDeviation } from "../../sound/median.js";
import type { Mesh } from "../mesh/mesh.js";
import { airAround, Sections } from "../mesh/sections.js";
import { between, topOver, turnedToY } from "./near.js";
import type { Patch } from "./patches.js";
import { roundedTip } from "./roundedTip.js";

export interface WindowFound {
  /** The nearest wall upstream and the foremost edge downstream. */
  readonly up: number;
  readonly down: number;
  readonly width: number;
  readonly theta: number;
  /** Whether its edge is curved across: `down` is then the mean. */
  readonly isCurved: boolean;
  /** How far the edge is from straight across. */
  readonly unevenness: number;
  /** The same of the upstream wall, but for the one place that is farthest from it: bumps hide its corner somewhere. */
  readonly upUnevenness: number;
  /** mm that the downstream side retreats gradually, from the edge outward: the labium's ramp. */
  readonly ramp: number;
  readonly upScatter: number;
  readonly downScatter: number;
  /** mm: how much nearer the windway the labium may end, where its edge is rounded and its ramp leads on. */
  readonly tip: number;
  /** Height of the body beside the window over the axis, which is what its side walls reach. */
  readonly sideTop: number;
}

/** Places across the window, and the width that each represents, as shares of its width. */
const ACROSS = [
  [-0.42, 0.14],
  [-0.3, 0.135],
  [-0.15, 0.15],
  [0.0007, 0.15],
  [0.15, 0.15],
  [0.3, 0.135],
  [0.42, 0.14],
] as const;
/** mm by which the labium's sides must reach before its middle, or lie behind it, for a curved edge. */
const LEAST_CURVE = 0.6;
/** mm between levels from the bore outward. */
const LEVEL = 0.05;
/** mm of the axis examined on either side. */
const AROUND = 30;
/** mm: levels whose edge lies this near the foremost are one plateau, if there are this many of them. */
const PLATEAU = 0.1;
const FEWEST = 5;
/** mm beside the window where the body's height is read. */
const BESIDE = 0.5;

/** @param radius of the bore there, `wall` its wall; `low` lowest level examined */
export function measureWindow(
  mesh: Mesh,
  patch: Patch,
  radius: number,
  wall: number,
  low = 0.8 * radius,
): WindowFound | undefined {
  const near = turnedToY(between(mesh, patch.from - AROUND, patch.to + AROUND), patch.theta);
  const flat = new Sections(near, 1);
  const middle = insideOf(flat, patch, radius, wall);
  const seen = 2 * radius * Math.sin(Math.min(1.4, patch.halfAngle));
  const upright = new Sections(near, 0);
  const cutsOver = (from: number, across: number, inside: number) =>
    ACROSS.map(([share]) => cutAt(upright, from + share * across, inside, { radius, wall, low }));
  const first = cutsOver(0, seen, middle);
  const [upFirst, downFirst] = [median(first.map((cut) => cut.up)), median(first.map((cut) => cut.down))];
  if (!Number.isFinite(downFirst)) return undefined;
  const inside = (Math.max(upFirst, patch.from) + downFirst) / 2;
  const widths: (readonly [number, number])[] = [];
  for (let height = radius + 0.15; height < radius + wall * 0.7; height += LEVEL) {
    const air = airAround(flat.at(height + 0.0017), inside, 0, "y");
    if (air !== undefined && Number.isFinite(air[0]) && Number.isFinite(air[1])) widths.push(air);
  }
  if (widths.length === 0) return undefined;
  const width = median(widths.map(([a, b]) => b - a));
  const aside = median(widths.map(([a, b]) => (a + b) / 2));
  // From the bore less of it is seen than there is: its sides are cut off, and what a cone on the plug hides.
  const cuts = cutsOver(aside, width, (upFirst + downFirst) / 2);
  const [up, straight] = [median(cuts.map((cut) => cut.up)), median(cuts.map((cut) => cut.down))];
  const isCurved = curves(cuts);
  const down = isCurved ? cuts.reduce((sum, cut, i) => sum + cut.down * (ACROSS[i]?.[1] ?? 0), 0) : straight;
  return {
    up,
    down,
    width,
    theta: patch.theta - Math.atan2(aside, radius),
    unevenness: Math.max(...cuts.map((cut) => Math.abs(cut.down - down))),
    isCurved,
    upUnevenness: cuts.map((cut) => Math.abs(cut.up - up)).sort((a, b) => b - a)[1] ?? Number.NaN,
    ramp: median(cuts.map((cut) => cut.ramp)),
    tip: cuts.reduce((sum, cut, i) => sum + cut.tip * (ACROSS[i]?.[1] ?? 0), 0),
    upScatter: robustDeviation(cuts.map((cut) => cut.up)),
    downScatter: robustDeviation(cuts.map((cut) => cut.down)),
    sideTop: Math.max(...[-1, 1].map((side) => topOver(near, aside + side * (width / 2 + BESIDE), inside))),
  };
}

/** Heights over the bore, in walls, where a place between the window's edges is looked for. */
const OVER_BORE = [0.05, 0.2, 0.35, 0.7] as const;

/** A place on the axis between its edges. What is seen open from the bore may be the ramp alone, where a cone on the plug hides the rest. */
function insideOf(flat: Sections, { from, to }: Patch, radius: number, wall: number): number {
  const middle = (from + to) / 2;
  const airs = OVER_BORE.flatMap((over) => {
    const section = flat.at(radius + over * wall + 0.0017);
    const air = airAround(section, middle, 0.0007, "x") ?? airAround(section, from, 0.0007, "x");
    return air === undefined ? [] : [air];
  });
  // The windway may be open to its upper end.
  const up = Math.max(...airs.map(([each]) => each).filter(Number.isFinite));
  const down = Math.min(...airs.map(([, each]) => each).filter(Number.isFinite));
  return up < down && Number.isFinite(down - up) ? (up + down) / 2 : middle;
}

/** A ramp that is plane meets a round bore in a curve. */
function curves(cuts: readonly Cut[]): boolean {
  const middle = cuts[cuts.length >> 1]?.down ?? Number.NaN;
  const sides = [...cuts.slice(0, 2), ...cuts.slice(-2)].map(({ down }) => down - middle);
  return Math.min(...sides) > LEAST_CURVE || Math.max(...sides) < -LEAST_CURVE;
}

interface Cut {
  readonly up: number;
  readonly down: number;
  readonly ramp: number;
  readonly tip: number;
}

/** Along the axis at one place across: at each level the air's ends. */
function cutAt(
  sections: Sections,
  x: number,
  middle: number,
  { radius, wall, low }: { readonly radius: number; readonly wall: number; readonly low: number },
): Cut {
  const section = sections.at(x);
  const ups: number[] = [];
  const downs: number[] = [];
  let ramp = 0;
  for (let height = low + 0.0017; height < radius + 1.3 * wall; height += LEVEL) {
    if (Math.hypot(x, height) < 0.97 * radius) continue;
    const air = airAround(section, height, middle, "y");
    if (air === undefined) continue;
    const before = downs.at(-1);
    const retreat = before === undefined ? 0 : air[1] - before;
    // A slope between nearly square and a very flat one; a windway's end jumps.
    if (retreat > 0.4 * LEVEL && retreat < 12 * LEVEL) ramp += retreat;
    ups.push(air[0]);
    downs.push(air[1]);
  }
  return {
    up: nearestWall(ups),
    down: plateau(downs, Math.min(...downs)),
    ramp,
    tip: roundedTip(downs),
  };
}

/** The nearest wall upstream that some levels agree about: a bump in its corner is no wall, nor is a cone on the plug. */
function nearestWall(ups: readonly number[]): number {
  const nearest = [...ups].filter(Number.isFinite).sort((a, b) => b - a);
  const wall = nearest.find((each, i) => each - (nearest[i + FEWEST - 1] ?? Number.NEGATIVE_INFINITY) < PLATEAU);
  return plateau(ups, wall ?? Math.max(...ups));
}

/** An extreme is biased by noise, the middle of a plateau is not. */
function plateau(values: readonly number[], extreme: number): number {
  const near = values.filter((value) => Math.abs(value - extreme) < PLATEAU);
  return near.length >= FEWEST ? median(near) : extreme;
}
