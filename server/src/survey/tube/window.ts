/** A window, or a notch: an opening with straight edges, one of them sharp. */
import type { Mesh } from "../mesh/mesh.js";
import { airAround, Sections } from "../mesh/sections.js";
import { median, robustDeviation } from "../mesh/statistics.js";
import { between, topOver, turnedToY } from "./near.js";
import type { Patch } from "./patches.js";

export interface WindowFound {
  /** The nearest wall upstream and the foremost edge downstream. */
  readonly up: number;
  readonly down: number;
  readonly width: number;
  readonly theta: number;
  /** How far the edge is from straight across. */
  readonly unevenness: number;
  /** mm that the downstream side retreats gradually, from the edge outward: the labium's ramp. */
  readonly ramp: number;
  readonly upScatter: number;
  readonly downScatter: number;
  /** Height of the body beside the window over the axis, which is what its side walls reach. */
  readonly sideTop: number;
}

/** Places across the window, as shares of its width. */
const ACROSS = [-0.42, -0.3, -0.15, 0.0007, 0.15, 0.3, 0.42];
/** mm between levels from the bore outward. */
const LEVEL = 0.05;
/** mm of the axis looked at on either side. */
const AROUND = 30;
/** mm: levels whose edge lies so near the foremost are one plateau, if there are so many of them. */
const PLATEAU = 0.1;
const FEWEST = 5;
/** mm beside the window where the body's height is read. */
const BESIDE = 0.5;

/** @param radius of the bore there, `wall` its wall; `low` lowest level looked at */
export function measureWindow(
  mesh: Mesh,
  patch: Patch,
  radius: number,
  wall: number,
  low = 0.8 * radius,
): WindowFound | undefined {
  const near = turnedToY(between(mesh, patch.from - AROUND, patch.to + AROUND), patch.theta);
  const middle = (patch.from + patch.to) / 2;
  const seen = 2 * radius * Math.sin(Math.min(1.4, patch.halfAngle));
  const upright = new Sections(near, 0);
  const cuts = ACROSS.map((share) => cutAt(upright, share * seen, middle, { radius, wall, low }));
  const up = median(cuts.map((cut) => cut.up));
  const down = median(cuts.map((cut) => cut.down));
  if (!Number.isFinite(down)) return undefined;
  const inside = (Math.max(up, patch.from) + down) / 2;
  const flat = new Sections(near, 1);
  const widths: (readonly [number, number])[] = [];
  for (let height = radius + 0.15; height < radius + wall * 0.7; height += LEVEL) {
    const air = airAround(flat.at(height + 0.0017), inside, 0, "y");
    if (air !== undefined && Number.isFinite(air[0]) && Number.isFinite(air[1])) widths.push(air);
  }
  if (widths.length === 0) return undefined;
  const width = median(widths.map(([a, b]) => b - a));
  const aside = median(widths.map(([a, b]) => (a + b) / 2));
  return {
    up,
    down,
    width,
    theta: patch.theta - Math.atan2(aside, radius),
    unevenness: Math.max(...cuts.map((cut) => Math.abs(cut.down - down))),
    ramp: median(cuts.map((cut) => cut.ramp)),
    upScatter: robustDeviation(cuts.map((cut) => cut.up)),
    downScatter: robustDeviation(cuts.map((cut) => cut.down)),
    sideTop: Math.max(...[-1, 1].map((side) => topOver(near, aside + side * (width / 2 + BESIDE), inside))),
  };
}

interface Cut {
  readonly up: number;
  readonly down: number;
  readonly ramp: number;
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
  return { up: plateau(ups, Math.max(...ups)), down: plateau(downs, Math.min(...downs)), ramp };
}

/** An extreme is biased by noise, the middle of a plateau is not. */
function plateau(values: readonly number[], extreme: number): number {
  const near = values.filter((value) => Math.abs(value - extreme) < PLATEAU);
  return near.length >= FEWEST ? median(near) : extreme;
}
