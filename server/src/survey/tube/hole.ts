/** A hole through the wall, measured by flat sections square to its own direction: the number read is the number drawn. */
import { median, robustDeviation } from "../../sound/median.js";
import { isRound, SIGNIFICANT, unsureLevel, unsureMean, unsureSlope } from "../mesh/bumps.js";
import type { Mesh } from "../mesh/mesh.js";
import { type Opening, openingAt } from "../mesh/opening.js";
import { SURE, type Unsure } from "../mesh/roughness.js";
import { Sections } from "../mesh/sections.js";
import { lineThrough, mean, onOneLine } from "../mesh/statistics.js";
import { between, topOver, turnedToY } from "./near.js";
import type { Patch } from "./patches.js";

export interface HoleFound {
  /** Of its middle. */
  readonly z: number;
  readonly theta: number;
  /** Of the bore under it. */
  readonly radius: number;
  /** At the outside; of the circle of equal area. */
  readonly diameter: number;
  /** Of an oval: along the axis and across it. */
  readonly length: number;
  readonly width: number;
  readonly isRound: boolean;
  /** On the diameter, where it is wider at the bore. */
  readonly undercut: number;
  /** From the bore to the outside along its own direction. */
  readonly chimney: number;
  /** Half the difference between the outside's heights on either side. */
  readonly chimneyScatter: number;
  /** Millimetres along the axis for each outward. */
  readonly lean: number;
  /** How far its sides leave straight lines, bumps apart. */
  readonly kink: number;
  /** Standard deviations by its wall's bumps: of radius and place, and of their change for each millimetre outward. */
  readonly unsure: Unsure;
  readonly unsureSlope: Unsure;
  /** Scatter over its depth, and share of its wall that is missing. */
  readonly scatter: number;
  readonly missing: number;
  /** How far the corners of its flat sides stand out of the circle of equal area. */
  readonly facet: number;
  /** Share of its bounding box that it fills: π/4 where it is round or oval. */
  readonly fill: number;
  /** True where no sections could be read: sizes are those of the opening seen from the axis. */
  readonly isGuess: boolean;
}

/** Sections from the bore to the rim, as shares of the chimney. */
const LEVELS = Array.from({ length: 15 }, (_, k) => 0.05 + (0.9 * k) / 14);
const ROUNDS = 3;
const FEWEST = 3;
/** mm beside the hole, where the outside's height is read. */
const BESIDE = 0.8;
/** mm around it that are examined. */
const AROUND = 6;
/** A smaller undercut is none, mm. */
const LEAST_UNDERCUT = 0.06;

/** @param mesh along z; `radius` of the bore at a place; `wall` its usual wall */
export function measureHole(mesh: Mesh, patch: Patch, radius: (z: number) => number, wall: number): HoleFound {
  const half = (patch.to - patch.from) / 2;
  const near = between(mesh, patch.from - AROUND, patch.to + AROUND);
  let theta = patch.theta;
  let z = (patch.from + patch.to) / 2;
  let found: HoleFound | undefined;
  for (let round = 0; round < ROUNDS; round++) {
    const turned = turnedToY(near, theta);
    const bore = radius(z);
    const { top, apart } = topBeside(turned, z, half, radius, wall);
    const widest = Math.max(bore, radius(z - half - 1), radius(z + half + 1)) + 0.02;
    const levels = levelsOf(new Sections(turned, 1), z, widest, top, bore);
    if (levels.length < FEWEST) return guess(patch, bore, wall);
    const aside = mean(levels.map(({ y }) => y));
    found = holeOf(straightLevels(levels), theta, bore, top, apart / 2);
    z = found.z;
    const turn = Math.atan2(aside, (bore + top) / 2);
    if (Math.abs(turn) < 1e-6) break;
    theta -= turn;
  }
  return found ?? guess(patch, radius(z), wall);
}

/** Height of the outside at the hole, from both sides of it, less what the bore's taper adds there. */
function topBeside(turned: Mesh, z: number, half: number, radius: (z: number) => number, wall: number) {
  const bore = radius(z);
  const tops = [z - half - BESIDE, z + half + BESIDE]
    .map((place) => topOver(turned, 0.0031, place) - (radius(place) - bore))
    .filter((top) => top > bore + 0.2 && top < bore + 6 * wall + 10);
  const [one = bore + wall, other = one] = tops;
  return { top: (one + other) / 2, apart: Math.abs(one - other) };
}

interface Level extends Opening {
  readonly height: number;
}

function levelsOf(sections: Sections, z: number, from: number, top: number, bore: number): readonly Level[] {
  let [x, y] = [z, 0];
  const all = LEVELS.flatMap((share) => {
    const height = from + (top - from) * share;
    const opening = openingAt(sections.at(height), x, y);
    if (opening === undefined) return [];
    // The next one's middle is near.
    [x, y] = [opening.x, opening.y];
    return [{ ...opening, height }];
  });
  const whole = all.filter(({ free }) => free < 0.01);
  if (whole.length >= FEWEST) return whole;
  return all.filter(({ free, height }) => free < 0.1 && height < bore + 0.6 * (top - bore));
}

/** mm: levels that leave the others' line by less are on it. */
const ON_LINE = 0.01;

/** Without those where an edge is rounded or broken. */
function straightLevels(levels: readonly Level[]): readonly Level[] {
  const kept = onOneLine(
    levels.map(({ height }) => height),
    [levels.map(({ alongX }) => alongX), levels.map(({ alongY }) => alongY)],
    Math.max(ON_LINE, SIGNIFICANT * 2 * unsureLevel(levels).wave),
  );
  return kept.map((i) => levels[i] as Level);
}

function holeOf(levels: readonly Level[], theta: number, bore: number, top: number, chimneyScatter: number): HoleFound {
  const heights = levels.map(({ height }) => height);
  const line = (key: "diameter" | "alongX" | "alongY" | "x") =>
    lineThrough(
      heights,
      levels.map((level) => level[key]),
    );
  const diameter = line("diameter");
  const chimney = top - bore;
  const undercut = -diameter.slope * chimney;
  const [unsure, slope] = [unsureMean(levels), unsureSlope(levels, heights)];
  const isStraight = Math.abs(undercut) < Math.max(LEAST_UNDERCUT, SIGNIFICANT * 2 * slope.radius * chimney);
  /** At the rim; of straight sides the mean of all levels, which averages most of the wall's bumps. */
  const atTop = (key: "diameter" | "alongX" | "alongY") => {
    const { start, slope } = line(key);
    return isStraight ? mean(levels.map((level) => level[key])) : start + slope * top;
  };
  const [length, width, round] = [atTop("alongX"), atTop("alongY"), atTop("diameter")];
  const scatter = robustDeviation(diameter.residuals);
  return {
    z: mean(levels.map(({ x }) => x)),
    theta,
    radius: bore,
    diameter: round,
    length,
    width,
    isRound: isRound(length, width, round, scatter, unsure),
    undercut: isStraight ? 0 : undercut,
    chimney,
    chimneyScatter,
    lean: line("x").slope,
    kink: Math.max(...diameter.residuals.map(Math.abs)) - SIGNIFICANT * 2 * unsureLevel(levels).radius,
    unsure,
    unsureSlope: slope,
    scatter,
    missing: median(levels.map(({ missing }) => missing)),
    facet: Math.max(0, median(levels.map(({ facet }) => facet).filter((each) => !Number.isNaN(each))) || 0),
    fill: median(levels.map(({ fill }) => fill)),
    isGuess: false,
  };
}

/** By what is seen from the axis. */
function guess(patch: Patch, bore: number, wall: number): HoleFound {
  const length = patch.to - patch.from;
  // Of an ellipse, the mean angle is π/4 of the greatest.
  const width = 2 * bore * Math.sin(Math.min(1.5, (patch.halfAngle * 4) / Math.PI));
  return {
    z: (patch.from + patch.to) / 2,
    theta: patch.theta,
    radius: bore,
    diameter: length,
    length,
    width,
    isRound: true,
    undercut: 0,
    chimney: wall,
    chimneyScatter: 0.3,
    lean: 0,
    kink: 0,
    unsure: SURE,
    unsureSlope: SURE,
    scatter: 0.3,
    missing: 0,
    facet: 0,
    fill: 1,
    isGuess: true,
  };
}
