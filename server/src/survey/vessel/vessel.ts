/** A vessel: its chamber, its window, its holes. */
import { framed, type Mesh, partOf } from "../mesh/mesh.js";
import { type Opening, openingAt } from "../mesh/opening.js";
import { directionsOf, profileOf } from "../mesh/profile.js";
import { Sections } from "../mesh/sections.js";
import { median, robustDeviation } from "../mesh/statistics.js";
import { cross, dot, frameAlong, plus, times, unit, type Vector } from "../mesh/vector.js";
import { length, type SurveyedHole, type SurveyedVessel } from "../surveyed.js";
import { measureWindow, type WindowFound } from "../tube/window.js";
import { type Chamber, chamberOf } from "./chamber.js";

export interface VesselFound {
  readonly body: SurveyedVessel;
  readonly notes: readonly string[];
  readonly questions: readonly string[];
}

/** mm: an ellipsoid fits within so much, or only the volume is written. */
const FITS = 0.15;
/** Heights in the wall at which openings are cut, as shares of it. */
const LEVELS = Array.from({ length: 9 }, (_, k) => 0.2 + 0.07 * k);
/** mm around an opening that are looked at, and below its foot. */
const AROUND = 14;
const WINDOW_AROUND = 22;
const BELOW = 4;
/** An opening whose bounding box is filled so far has straight sides: an ellipse fills π/4. */
const STRAIGHT_SIDED = 0.86;
const OF_ROUGHNESS = 2;

/** Undefined where there is no closed hollow. */
export function surveyVessel(mesh: Mesh): VesselFound | undefined {
  const chamber = chamberOf(mesh);
  if (chamber === undefined || chamber.ellipsoid.axes[2] > 8 * chamber.ellipsoid.axes[0]) return undefined;
  const wall = wallOf(chamber);
  const found = chamber.openings.map((group) => openingOf(mesh, chamber, group, wall.mm));
  const window = windowAmong(mesh, chamber, found, wall.mm);
  const holes = found
    .filter((each) => each !== window?.opening)
    .flatMap(({ hole, up }) => (hole === undefined ? [] : [{ ...hole, up }]));
  if (window === undefined && holes.length === 0) return undefined;
  const { ellipsoid, roughness, volume } = chamber;
  const frame = axesOf(
    chamber,
    window?.up ?? holes[0]?.up ?? [0, 0, 1],
    holes.map(({ up }) => up),
  );
  const isRound = roughness <= FITS;
  const doubt = OF_ROUGHNESS * roughness;
  return {
    body: {
      kind: "vessel",
      window: window && windowIn(window.found, doubt),
      axes: isRound ? (frame.map(({ i }) => length(2 * (ellipsoid.axes[i] as number), doubt)) as never) : undefined,
      volume,
      wall: length(wall.mm, wall.scatter),
      holes: inOrder(holes.map((hole) => holeIn(hole, frame, doubt))),
    },
    notes: [
      `A closed hollow of ${volume.toFixed(1)} cm³: a vessel. An ellipsoid fits it within ${roughness.toFixed(3)} mm.`,
      ...(isRound ? [] : ["The hollow is no ellipsoid: its volume is written."]),
    ],
    questions: [
      ...(window === undefined ? ["How is it blown? No window was found in it."] : []),
      "In which order are the holes opened? The smaller ones first is taken.",
    ],
  };
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

interface OpeningFound {
  /** From the chamber's middle. */
  readonly up: Vector;
  /** Undefined where it is no round or oval hole. */
  readonly hole: (Pick<Opening, "diameter" | "missing" | "facet"> & { readonly scatter: number }) | undefined;
  readonly size: number;
}

/** The mesh round a place of the skin: y out of the hollow, 0 on the skin. */
function around(mesh: Mesh, { middle, ellipsoid }: Chamber, up: Vector, reach: number) {
  const place = plus(middle, up, ellipsoid.radius(up));
  const normal = ellipsoid.normal(up);
  const [x] = frameAlong(normal);
  const { v, t } = mesh;
  const isNear = new Uint8Array(v.length / 3);
  const isAbove = new Uint8Array(v.length / 3);
  const [px, py, pz] = place;
  const [nx, ny, nz] = normal;
  for (let i = 0; i < isNear.length; i++) {
    const [a, b, c] = [(v[3 * i] as number) - px, (v[3 * i + 1] as number) - py, (v[3 * i + 2] as number) - pz];
    const up = a * nx + b * ny + c * nz;
    isNear[i] = a * a + b * b + c * c - up * up < reach * reach ? 1 : 0;
    isAbove[i] = up > -BELOW ? 1 : 0;
  }
  const any = (of: Uint8Array, i: number) =>
    (of[t[3 * i] as number] as number) +
      (of[t[3 * i + 1] as number] as number) +
      (of[t[3 * i + 2] as number] as number) >
    0;
  const near = partOf(mesh, (i) => any(isNear, i) && any(isAbove, i));
  const local = framed(near, [x, normal, cross(x, normal)], place);
  return { local, x, z: cross(x, normal), normal, place };
}

function openingOf(mesh: Mesh, chamber: Chamber, group: readonly number[], wall: number): OpeningFound {
  let up = unit(group.reduce<Vector>((sum, i) => plus(sum, chamber.rays[i] as Vector), [0, 0, 0]));
  let hole: OpeningFound["hole"];
  for (let round = 0; round < 4; round++) {
    const { local, x, z, normal, place } = around(mesh, chamber, up, AROUND);
    const sections = new Sections(local, 1);
    const levels = LEVELS.flatMap((share) => openingAt(sections.at(wall * share), 0, 0) ?? []);
    if (levels.length < 4 || median(levels.map(({ fill }) => fill)) > STRAIGHT_SIDED)
      return { up, hole: undefined, size: group.length };
    const diameters = levels.map(({ diameter }) => diameter);
    hole = {
      diameter: median(diameters),
      scatter: robustDeviation(diameters),
      missing: median(levels.map(({ missing }) => missing)),
      facet: Math.max(0, median(levels.map(({ facet }) => facet).filter((each) => !Number.isNaN(each))) || 0),
    };
    // In a section across y the first coordinate is z.
    const [along, across] = [median(levels.map((level) => level.x)), median(levels.map((level) => level.y))];
    if (Math.hypot(along, across) < 1e-4) break;
    const moved = plus(plus(plus(place, x, across), z, along), normal, wall / 2);
    up = chamber.ellipsoid.under(plus(moved, chamber.middle, -1));
  }
  return { up, hole, size: group.length };
}

interface WindowAmong {
  readonly opening: OpeningFound;
  readonly found: WindowFound;
  readonly up: Vector;
}

/** Far from the axis of a tube that is taken in place of the skin there: nearly flat. */
const FLAT = 50;

/** The opening with straight sides and a ramp. */
function windowAmong(
  mesh: Mesh,
  chamber: Chamber,
  openings: readonly OpeningFound[],
  wall: number,
): WindowAmong | undefined {
  const likely = [...openings].sort(
    (a, b) => Number(a.hole !== undefined) - Number(b.hole !== undefined) || b.size - a.size,
  );
  for (const opening of likely) {
    if (opening.hole !== undefined && opening.hole.scatter < 0.1) break;
    // A mouth stands square to one of the body's axes, as a rule: its own middle is moved by the ramp.
    const axis = chamber.ellipsoid.vectors.find((vector) => Math.abs(dot(vector, opening.up)) > 0.95);
    const up = axis === undefined ? opening.up : times(axis, Math.sign(dot(axis, opening.up)));
    const { local } = around(mesh, chamber, up, WINDOW_AROUND);
    const rough = [0, 90, 180, 270].flatMap((quarter) => {
      const angle = straightSides(local, wall) + quarter;
      const found = windowAt(local, angle, wall);
      return found === undefined ? [] : [{ angle, found }];
    });
    const [best] = rough.sort((a, b) => score(b.found) - score(a.found));
    if (best === undefined) continue;
    const finer = [-1, -0.5, -0.25, 0, 0.25, 0.5, 1].flatMap((by) => windowAt(local, best.angle + by, wall) ?? []);
    const [found = best.found] = finer.sort((a, b) => score(b) - score(a));
    return { opening, found, up };
  }
  return undefined;
}

function score({ ramp, unevenness, upScatter }: WindowFound): number {
  return ramp / (0.02 + unevenness + upScatter);
}

/** Degrees by which the opening's sides are turned from the local axes: the least rectangle round it, at the level it fills best. */
function straightSides(local: Mesh, wall: number): number {
  const sections = new Sections(local, 1);
  let best = { angle: 0, fill: 0 };
  for (const share of [0.1, ...LEVELS]) {
    const opening = openingAt(sections.at(wall * share), 0, 0);
    if (opening === undefined) continue;
    const { inner, rays } = profileOf(sections.at(wall * share), opening.x, opening.y, 360);
    const { cos, sin } = directionsOf(rays);
    const points = [...inner].flatMap((r, k) =>
      r < 3 * opening.diameter ? [[r * (cos[k] as number), r * (sin[k] as number)] as const] : [],
    );
    const area = (Math.PI * opening.diameter ** 2) / 4;
    for (let angle = 0; angle < 90; angle++) {
      const [c, s] = [Math.cos((angle * Math.PI) / 180), Math.sin((angle * Math.PI) / 180)];
      const [a, b] = [points.map(([p, q]) => c * p + s * q), points.map(([p, q]) => c * q - s * p)];
      const fill = area / ((Math.max(...a) - Math.min(...a)) * (Math.max(...b) - Math.min(...b)));
      if (fill > best.fill) best = { angle, fill };
    }
  }
  return best.angle;
}

/** mm: what a vessel's window may measure. Common practice, no source. */
const SIZES = { width: [2, 40], cutUp: [1, 20] } as const;
const UNEVEN = 0.15;
const LEAST_RAMP = 0.8;

/** @param angle degrees about y: the breath then runs along z */
function windowAt(local: Mesh, angle: number, wall: number): WindowFound | undefined {
  const [c, s] = [Math.cos((angle * Math.PI) / 180), Math.sin((angle * Math.PI) / 180)];
  const turned = framed(
    local,
    [
      [c, 0, -s],
      [0, 1, 0],
      [s, 0, c],
    ],
    [0, -FLAT, 0],
  );
  const patch = {
    theta: Math.PI / 2,
    from: -1,
    to: 1,
    halfAngle: Math.asin(2.5 / FLAT),
    isFirst: false,
    isLast: false,
  };
  const found = measureWindow(turned, patch, FLAT, wall, FLAT - 1.5);
  if (found === undefined) return undefined;
  const { width, up, down, unevenness, ramp, upScatter } = found;
  const isIn = (value: number, [least, most]: readonly [number, number]) => value > least && value < most;
  const isWindow =
    isIn(width, SIZES.width) &&
    isIn(down - up, SIZES.cutUp) &&
    unevenness < UNEVEN &&
    ramp > LEAST_RAMP &&
    upScatter < 0.1;
  return isWindow ? found : undefined;
}

function windowIn({ width, up, down, upScatter, downScatter }: WindowFound, doubt: number) {
  const sure = Math.max(doubt, upScatter + downScatter);
  return { width: length(width, sure), cutUp: length(down - up, sure), chimney: undefined, stopper: undefined };
}

interface BodyAxis {
  readonly vector: Vector;
  /** Which of the ellipsoid's. */
  readonly i: number;
}

/** Length toward the mouth, width in the plane of the holes, height across it. */
function axesOf(
  { ellipsoid }: Chamber,
  mouth: Vector,
  holes: readonly Vector[],
): readonly [BodyAxis, BodyAxis, BodyAxis] {
  const all = ellipsoid.vectors.map((vector, i) => ({ vector, i }));
  const toMouth = (axis: BodyAxis) => Math.abs(dot(axis.vector, mouth));
  const toHoles = (axis: BodyAxis) => holes.reduce((sum, hole) => sum + Math.abs(dot(axis.vector, hole)), 0);
  const [first, ...others] = all.sort((a, b) => toMouth(b) - toMouth(a)) as [BodyAxis, BodyAxis, BodyAxis];
  const [second, third] = others.sort((a, b) => toHoles(b) - toHoles(a)) as [BodyAxis, BodyAxis];
  return [{ ...first, vector: times(first.vector, Math.sign(dot(first.vector, mouth)) || 1) }, second, third];
}

type Hole = NonNullable<OpeningFound["hole"]> & { readonly up: Vector };

function holeIn(hole: Hole, [along, across]: readonly [BodyAxis, BodyAxis, BodyAxis], doubt: number): SurveyedHole {
  const angle = (Math.atan2(dot(hole.up, across.vector), dot(hole.up, along.vector)) * 180) / Math.PI;
  return {
    at: undefined,
    diameter: length(hole.diameter, Math.max(doubt, 2 * hole.scatter, 2 * hole.facet, hole.missing * hole.diameter)),
    length: undefined,
    angle,
    undercut: undefined,
    raised: undefined,
    chimney: undefined,
    remark: undefined,
  };
}

/** The smaller ones first: on a vessel each opened hole raises the pitch by its size. */
function inOrder(holes: readonly SurveyedHole[]): readonly SurveyedHole[] {
  return [...holes].sort((a, b) => a.diameter.mm - b.diameter.mm);
}
