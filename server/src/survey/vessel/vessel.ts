/** A vessel: its chamber, its window, its holes. */
import { median, robustDeviation } from "../../sound/median.js";
import { isRound } from "../mesh/bumps.js";
import type { Mesh } from "../mesh/mesh.js";
import { dot, plus, times, type Vector } from "../mesh/vector.js";
import { FINEST, length, type SurveyedHole, type SurveyedVessel } from "../surveyed.js";
import type { WindowFound } from "../tube/window.js";
import { type Chamber, chamberOf } from "./chamber.js";
import { holeAlong, type OpeningFound, openingOf, type Stands } from "./opening.js";
import { FLAT, windowAmong } from "./window.js";

export interface VesselFound {
  readonly body: SurveyedVessel;
  readonly notes: readonly string[];
  readonly questions: readonly string[];
}

/** mm: an ellipsoid fits within this, or only the volume is written. */
const FITS = 0.15;
/** mm: a rim that stands up or lies lower by less is the wall's. */
const SAME_WALL = 0.12;
const OF_ROUGHNESS = 2;

/** Undefined where there is no closed chamber. */
export function surveyVessel(mesh: Mesh): VesselFound | undefined {
  const chamber = chamberOf(mesh);
  if (chamber === undefined || chamber.ellipsoid.axes[2] > 8 * chamber.ellipsoid.axes[0]) return undefined;
  const wall = wallOf(chamber);
  const found = chamber.openings.map((group) => openingOf(mesh, chamber, group, wall.mm));
  const window = windowAmong(mesh, chamber, found, wall.mm);
  const round = found.filter((each) => each !== window?.opening && each.hole !== undefined);
  if (window === undefined && round.length === 0) return undefined;
  const blown = window === undefined ? mouthAmong(round, chamber) : undefined;
  const others = round.filter((each) => each !== blown);
  const { ellipsoid, roughness, volume } = chamber;
  const frame = axesOf(
    chamber,
    window?.up ?? blown?.up ?? [0, 0, 1],
    others.map(({ up }) => up),
  );
  const [, , height] = frame;
  const isRound = roughness <= FITS;
  const doubt = OF_ROUGHNESS * roughness;
  const standing = (each: OpeningFound) => holeAlong(mesh, chamber, each.up, wall.mm, height.vector);
  const mouth = blown && standing(blown);
  return {
    body: {
      kind: "vessel",
      window: window && windowIn(window.found, wall.mm, doubt),
      hole: mouth && mouthIn(mouth, doubt),
      axes: isRound ? (frame.map(({ i }) => length(2 * (ellipsoid.axes[i] as number), doubt)) as never) : undefined,
      volume,
      wall: length(wall.mm, wall.scatter),
      holes: inOrder(
        others.flatMap((each) => {
          const found = standing(each);
          return found === undefined ? [] : [holeIn(found, each.up, frame, doubt)];
        }),
      ),
    },
    notes: [
      `A closed chamber of ${volume.cm3.toFixed(1)} cm³: a vessel. An ellipsoid fits it within ${roughness.toFixed(3)} mm.`,
      ...(isRound ? [] : ["The chamber is not an ellipsoid: its volume is written."]),
    ],
    questions: [
      ...(window === undefined
        ? ["Is it blown across this hole? It has no window; the hole that lies at an end, or the widest, was assumed."]
        : []),
      "In which order are the holes opened? The smaller ones first is assumed.",
    ],
  };
}

/** How nearly a hole lies on one of the body's axes, for its being the mouth. */
const AT_END = 0.999;

/** The hole across which it is blown: one at an end of the body, the longest axis' first; else the widest. */
function mouthAmong(holes: readonly OpeningFound[], { ellipsoid }: Chamber): OpeningFound | undefined {
  const width = ({ hole }: OpeningFound) => hole?.diameter ?? 0;
  const wide = [...holes].sort((a, b) => width(b) - width(a));
  for (const axis of [...ellipsoid.vectors].reverse()) {
    const atEnd = wide.filter(({ up }) => Math.abs(dot(up, axis)) > AT_END);
    if (atEnd.length === 1 && width(atEnd[0] as OpeningFound) >= 0.5 * width(wide[0] as OpeningFound)) return atEnd[0];
  }
  return wide[0];
}

/** Straight out from the inner skin, at places spread over it. */
function wallOf({ tree, middle, rays, reach, ellipsoid, tolerance }: Chamber) {
  const walls: number[] = [];
  for (let i = 0; i < rays.length; i += 61) {
    const ray = rays[i] as Vector;
    const distance = reach[i] as number;
    if (!(Math.abs(distance - ellipsoid.radius(ray)) < tolerance)) continue;
    const normal = ellipsoid.normal(ray);
    const hit = tree.first(plus(plus(middle, ray, distance), normal, 1e-4), normal);
    if (hit !== undefined && !hit.isIntoWood) walls.push(hit.distance);
  }
  return { mm: median(walls), scatter: robustDeviation(walls) };
}

function windowIn({ width, up, down, upScatter, downScatter, sideTop }: WindowFound, wall: number, doubt: number) {
  const sure = Math.max(doubt, upScatter + downScatter);
  const chimney = sideTop - FLAT;
  return {
    width: length(width, sure),
    cutUp: length(down - up, sure),
    chimney: Math.abs(chimney - wall) > SAME_WALL + doubt ? length(chimney, doubt) : undefined,
    stopper: undefined,
  };
}

function mouthIn({ sizes, chimney }: Stands, doubt: number) {
  const sure = Math.max(doubt, 2 * sizes.scatter);
  const isRound = isCircle(sizes);
  return {
    length: length(isRound ? sizes.diameter : sizes.alongX, sure),
    width: length(isRound ? sizes.diameter : sizes.alongZ, sure),
    chimney: chimney && length(chimney.mm, Math.max(doubt, chimney.scatter)),
  };
}

function isCircle({ alongX, alongZ, diameter, scatter, unsure }: Stands["sizes"]): boolean {
  return isRound(alongX, alongZ, diameter, scatter, unsure);
}

interface BodyAxis {
  readonly vector: Vector;
  /** Which of the ellipsoid's. */
  readonly i: number;
  /** Half of it, mm. */
  readonly radius: number;
}

/** Length toward the mouth, width in the plane of the holes, height across it. */
function axesOf(
  { ellipsoid }: Chamber,
  mouth: Vector,
  holes: readonly Vector[],
): readonly [BodyAxis, BodyAxis, BodyAxis] {
  const all = ellipsoid.vectors.map((vector, i) => ({ vector, i, radius: ellipsoid.axes[i] as number }));
  const toMouth = (axis: BodyAxis) => Math.abs(dot(axis.vector, mouth));
  const toHoles = (axis: BodyAxis) => holes.reduce((sum, hole) => sum + Math.abs(dot(axis.vector, hole)), 0);
  const [first, ...others] = all.sort((a, b) => toMouth(b) - toMouth(a)) as [BodyAxis, BodyAxis, BodyAxis];
  const [second, third] = others.sort((a, b) => toHoles(b) - toHoles(a)) as [BodyAxis, BodyAxis];
  return [{ ...first, vector: times(first.vector, Math.sign(dot(first.vector, mouth)) || 1) }, second, third];
}

/** Ovals are as long as they reach across the plane of the holes. */
function holeIn(
  { sizes, chimney }: Stands,
  up: Vector,
  [along, across]: readonly [BodyAxis, BodyAxis, BodyAxis],
  doubt: number,
): SurveyedHole {
  const angle = (Math.atan2(dot(up, across.vector), dot(up, along.vector)) * 180) / Math.PI;
  const { diameter, alongX, alongZ, scatter, facet, missing, unsure } = sizes;
  const isRound = isCircle(sizes);
  const sure = Math.max(doubt, 2 * scatter, isRound ? 2 * facet : 0, missing * diameter);
  return {
    at: undefined,
    diameter: length(isRound ? diameter : alongZ, sure),
    length: isRound ? undefined : length(alongX, sure),
    angle: {
      degrees: angle,
      plusMinus: (Math.atan(Math.max(doubt, unsure.wave, FINEST) / along.radius) * 180) / Math.PI,
    },
    undercut: undefined,
    raised: undefined,
    chimney: chimney && length(chimney.mm, Math.max(doubt, chimney.scatter)),
    remark: undefined,
  };
}

/** The smaller ones first: on a vessel each opened hole raises the pitch by its size. */
function inOrder(holes: readonly SurveyedHole[]): readonly SurveyedHole[] {
  const area = ({ diameter, length: long }: SurveyedHole) => diameter.mm * (long ?? diameter).mm;
  return [...holes].sort((a, b) => area(a) - area(b));
}
