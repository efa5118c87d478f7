/** Openings of a chamber: holes cut square to the skin under them, with what stands up round them. */
import { median, robustDeviation } from "../../sound/median.js";
import { unsureMean } from "../mesh/bumps.js";
import type { Mesh } from "../mesh/mesh.js";
import { type Opening, openingAt } from "../mesh/opening.js";
import type { Unsure } from "../mesh/roughness.js";
import { Sections } from "../mesh/sections.js";
import { dot, plus, unit, type Vector } from "../mesh/vector.js";
import { topOver } from "../tube/near.js";
import { type Around, around } from "./around.js";
import type { Chamber } from "./chamber.js";

export interface HoleSizes {
  /** Of the circle of equal area. */
  readonly diameter: number;
  /** In the two directions of the frame that it was cut in. */
  readonly alongX: number;
  readonly alongZ: number;
  readonly missing: number;
  readonly facet: number;
  readonly scatter: number;
  /** By its wall's bumps. */
  readonly unsure: Unsure;
}

export interface OpeningFound {
  /** From the chamber's middle. */
  readonly up: Vector;
  /** Undefined where it is not a round or oval hole. */
  readonly hole: HoleSizes | undefined;
  /** How many rays leave by it. */
  readonly size: number;
}

/** Heights in the wall at which openings are cut, as shares of it. */
const LEVELS = Array.from({ length: 9 }, (_, k) => 0.2 + 0.07 * k);
export const HEIGHTS_IN_WALL: readonly number[] = LEVELS;
/** mm around an opening that are examined. */
const AROUND = 14;
/** An opening whose bounding box is filled to this share has straight sides: an ellipse fills π/4. */
const STRAIGHT_SIDED = 0.86;
const ROUNDS = 4;

export function openingOf(mesh: Mesh, chamber: Chamber, group: readonly number[], wall: number): OpeningFound {
  let up = unit(group.reduce<Vector>((sum, i) => plus(sum, chamber.rays[i] as Vector), [0, 0, 0]));
  let hole: HoleSizes | undefined;
  for (let round = 0; round < ROUNDS; round++) {
    const seen = around(mesh, chamber, up, AROUND);
    const levels = levelsIn(seen, wall);
    if (levels === undefined) return { up, hole: undefined, size: group.length };
    hole = sizesOf(levels);
    // In a section across y the first coordinate is z.
    const [along, across] = [median(levels.map((level) => level.x)), median(levels.map((level) => level.y))];
    if (Math.hypot(along, across) < 1e-4) break;
    const { place, x, z, normal } = seen;
    const moved = plus(plus(plus(place, x, across), z, along), normal, wall / 2);
    up = chamber.ellipsoid.under(plus(moved, chamber.middle, -1));
  }
  return { up, hole, size: group.length };
}

function levelsIn({ local }: Around, wall: number): readonly Opening[] | undefined {
  const sections = new Sections(local, 1);
  const levels = LEVELS.flatMap((share) => openingAt(sections.at(wall * share), 0, 0) ?? []);
  const isHole = levels.length >= 4 && median(levels.map(({ fill }) => fill)) <= STRAIGHT_SIDED;
  return isHole ? levels : undefined;
}

function sizesOf(levels: readonly Opening[]): HoleSizes {
  const diameters = levels.map(({ diameter }) => diameter);
  return {
    diameter: median(diameters),
    alongX: median(levels.map(({ alongY }) => alongY)),
    alongZ: median(levels.map(({ alongX }) => alongX)),
    scatter: robustDeviation(diameters),
    unsure: unsureMean(levels),
    missing: median(levels.map(({ missing }) => missing)),
    facet: Math.max(0, median(levels.map(({ facet }) => facet).filter((each) => !Number.isNaN(each))) || 0),
  };
}

export interface Stands {
  readonly sizes: HoleSizes;
  /** From the chamber to its rim, where that is not the body's own surface. */
  readonly chimney: { readonly mm: number; readonly scatter: number } | undefined;
}

/** mm beside a hole where its rim is read. */
const BESIDE = 0.8;

/** A hole that is known, once more, with x toward a direction of the body. */
export function holeAlong(mesh: Mesh, chamber: Chamber, up: Vector, wall: number, toward: Vector): Stands | undefined {
  const seen = around(mesh, chamber, up, AROUND, toward);
  const levels = levelsIn(seen, wall);
  if (levels === undefined) return undefined;
  const sizes = sizesOf(levels);
  const [across, along] = [sizes.alongX / 2 + BESIDE, sizes.alongZ / 2 + BESIDE];
  const sides = [
    [across, 0.0031],
    [-across, 0.0031],
    [0.0031, along],
    [0.0031, -along],
  ] as const;
  const rims = sides.flatMap(([x, z]) => {
    const top = topOver(seen.local, x, z);
    return Number.isFinite(top) ? [{ top, above: top - bareAt(chamber, seen, wall, x, z) }] : [];
  });
  const isOwn = Math.abs(median(rims.map(({ above }) => above))) > SAME_WALL;
  // A rim of its own is flat.
  const tops = rims.map(({ top }) => top);
  return { sizes, chimney: isOwn ? { mm: median(tops), scatter: robustDeviation(tops) } : undefined };
}

/** mm: a rim that stands up or lies lower by less is the wall's. */
const SAME_WALL = 0.12;

/** Height of the plain body beside a place of the skin, along that place's normal. */
function bareAt({ ellipsoid, middle }: Chamber, at: Around, wall: number, across: number, along: number): number {
  const beside = plus(plus(plus(at.place, at.x, across), at.z, along), middle, -1);
  const u = ellipsoid.under(beside);
  const normal = ellipsoid.normal(u);
  const above = dot(plus(beside, u, -ellipsoid.radius(u)), normal);
  return (wall - above) / dot(normal, at.normal);
}
