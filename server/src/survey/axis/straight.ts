/** A bore's axis to the last digit, from the middles of many sections, and how far they leave a straight line. */
import { median, medianOfNumbers } from "../../sound/median.js";
import { circleOf } from "../mesh/circle.js";
import { framed, type Mesh } from "../mesh/mesh.js";
import { profileOf } from "../mesh/profile.js";
import { Sections } from "../mesh/sections.js";
import { lineThrough } from "../mesh/statistics.js";
import { cross, dot, plus, type Rows, times, unit, type Vector } from "../mesh/vector.js";

export interface Axis {
  /** A frame whose z is the axis, and a place on it. */
  readonly rows: Rows;
  readonly origin: Vector;
  /** What nine of ten middles keep within. */
  readonly bend: number;
  /** Sections that showed a circle, of those cut. */
  readonly round: number;
  readonly of: number;
  /** Median radius of the bore, and of the wall round it, and the mesh's length along the axis. */
  readonly radius: number;
  readonly wall: number;
  readonly length: number;
}

export const SECTIONS = 120;
/** A further bore, parallel to a known one: only its place is searched for. */
export const FEW_SECTIONS = 40;
const ROUNDS = 3;
const RAYS = 180;
const LEAST_SHARE = 0.5;
const FEWEST = 6;
/** Tilt at which it is straight enough: half a micrometre over an instrument. A tilted cut's middle lies on the axis to first order. */
const STRAIGHT = 1e-6;

/** @param rows a frame whose z is nearly the axis; `origin` on it, nearly; `cuts` how many sections are examined */
export function straighten(mesh: Mesh, rows: Rows, origin: Vector, cuts = SECTIONS): Axis | undefined {
  let [r, o] = [rows, origin];
  let axis: Axis | undefined;
  for (let round = 0; round < ROUNDS; round++) {
    const sections = new Sections(framed(mesh, r, o), 2);
    const middles = middlesOf(sections, cuts);
    if (middles.length < FEWEST) return undefined;
    const [x, y] = [trimmedLine(middles, "x"), trimmedLine(middles, "y")];
    const off = middles.map(({ z, ...at }) => Math.hypot(at.x - x.start - x.slope * z, at.y - y.start - y.slope * z));
    const z = unit(plus(plus(r[2], r[0], x.slope), r[1], y.slope));
    o = plus(plus(o, r[0], x.start), r[1], y.start);
    const across = unit(plus(r[0], z, -dot(r[0], z)));
    r = [across, cross(z, across), z];
    axis = {
      rows: r,
      origin: o,
      bend: off.sort((a, b) => a - b)[Math.floor(0.9 * off.length)] as number,
      round: middles.length,
      of: cuts - 1,
      radius: median(middles.map(({ radius }) => radius)),
      wall: median(middles.map(({ wall }) => wall)),
      length: sections.high - sections.low,
    };
    if (Math.hypot(x.slope, y.slope) < STRAIGHT) break;
  }
  return axis;
}

interface Middle {
  readonly z: number;
  readonly x: number;
  readonly y: number;
  readonly radius: number;
  readonly wall: number;
}

function middlesOf(sections: Sections, cuts: number): readonly Middle[] {
  const found: Middle[] = [];
  for (let i = 1; i < cuts; i++) {
    const z = sections.low + ((sections.high - sections.low) * (i + 0.137)) / cuts;
    const section = sections.at(z);
    const profile = profileOf(section, 0, 0, RAYS);
    if (profile.depth >= 1) continue;
    const circle = circleOf(section, profile);
    if (circle === undefined || circle.share < LEAST_SHARE) continue;
    const wall = medianOfNumbers(profile.outer) - circle.radius;
    found.push({ z, x: circle.x, y: circle.y, radius: circle.radius, wall });
  }
  return found;
}

/** Least squares through what does not leave it by more than four times the middle deviation. */
function trimmedLine(middles: readonly Middle[], key: "x" | "y") {
  let used = middles;
  let line = lineThrough([], []);
  for (let round = 0; round < 6; round++) {
    line = lineThrough(
      used.map(({ z }) => z),
      used.map((each) => each[key]),
    );
    const off = (each: Middle) => Math.abs(each[key] - line.start - line.slope * each.z);
    const most = Math.max(4 * median(middles.map(off)), 1e-4);
    used = middles.filter((each) => off(each) <= most);
  }
  return line;
}

/** The same axis from the other end. */
export function turnedRound({ rows: [x, y, z], ...axis }: Axis): Axis {
  return { ...axis, rows: [x, times(y, -1), times(z, -1)] };
}
