/** A closed chamber: rays from its middle in all directions, the ellipsoid they show, and where they get out. */
import { median } from "../../sound/median.js";
import { extent, type Mesh } from "../mesh/mesh.js";
import { dot, plus, spiral, times, type Vector } from "../mesh/vector.js";
import { FINEST } from "../surveyed.js";
import { type Ellipsoid, ellipsoidThrough } from "./ellipsoid.js";
import { Tree } from "./tree.js";

export interface Chamber {
  readonly tree: Tree;
  readonly middle: Vector;
  readonly ellipsoid: Ellipsoid;
  /** Median distance of the skin from it, and from where on it is an opening, mm. */
  readonly roughness: number;
  readonly tolerance: number;
  /** cm³, openings closed by the ellipsoid's skin, and how surely. */
  readonly volume: { readonly cm3: number; readonly plusMinus: number };
  readonly rays: readonly Vector[];
  /** Distance of the skin in each; not a number where there is none. */
  readonly reach: readonly number[];
  /** Rays of each opening. */
  readonly openings: readonly (readonly number[])[];
}

const RAYS = 16_000;
/** Enough for where the middle is. */
const ROUGH_RAYS = 2_000;
const FEW = 40;
/** Places tried for the middle, along each axis. */
const GRID = 9;
/** Share of the few rays that must meet wood from the middle of a chamber. */
const CLOSED = 0.8;
const FEWEST_RAYS = 6;
/** Share of an opening's rays that meet nothing, at least: the seam between two halves is a slit that ends in wood. */
const OUTSIDE = 0.2;

/** Undefined where no place in the mesh is closed round. */
export function chamberOf(mesh: Mesh): Chamber | undefined {
  const tree = new Tree(mesh);
  let middle = innermost(mesh, tree);
  if (middle === undefined) return undefined;
  const look = (rays: readonly Vector[], from: Vector) =>
    rays.map((ray) => {
      const hit = tree.first(from, ray);
      return hit?.isIntoWood ? hit.distance : Number.NaN;
    });
  const rough = spiral(ROUGH_RAYS);
  for (let round = 0; round < ROUNDS; round++) {
    const fit = trimmedFit(rough, look(rough, middle));
    if (fit === undefined) return undefined;
    middle = plus(middle, fit.ellipsoid.centre);
    if (Math.hypot(...fit.ellipsoid.centre) < NEAR) break;
  }
  const rays = spiral(RAYS);
  for (let round = 0; ; round++) {
    const from = middle;
    const reach = look(rays, from);
    const fit = trimmedFit(rays, reach);
    if (fit === undefined) return undefined;
    middle = plus(middle, fit.ellipsoid.centre);
    if (Math.hypot(...fit.ellipsoid.centre) > NEAR && round < ROUNDS) continue;
    return { tree, middle: from, rays, reach, ...fit, ...measured(rays, reach, fit) };
  }
}

/** mm: the rays start this near the ellipsoid's middle. */
const NEAR = 0.01;
const ROUNDS = 3;

/** The place of the largest ball. */
function innermost(mesh: Mesh, tree: Tree): Vector | undefined {
  const [low, high] = extent(mesh);
  const few = spiral(FEW);
  let best: { readonly place: Vector; readonly least: number } | undefined;
  const at = (axis: 0 | 1 | 2, k: number) => low[axis] + ((high[axis] - low[axis]) * (k + 0.513)) / GRID;
  for (let i = 0; i < GRID; i++)
    for (let j = 0; j < GRID; j++)
      for (let k = 0; k < GRID; k++) {
        const place: Vector = [at(0, i), at(1, j), at(2, k)];
        let [hits, least] = [0, Infinity];
        for (const ray of few) {
          const hit = tree.first(place, ray);
          if (hit === undefined) continue;
          // Within wood, a ray leaves it.
          if (!hit.isIntoWood || hit.distance < (best?.least ?? 0)) {
            hits = 0;
            break;
          }
          hits++;
          least = Math.min(least, hit.distance);
        }
        if (hits >= CLOSED * FEW) best = { place, least };
      }
  return best?.place;
}

interface Fit {
  readonly ellipsoid: Ellipsoid;
  readonly roughness: number;
}

/** Openings and what stands in are left out, round by round. */
function trimmedFit(rays: readonly Vector[], reach: readonly number[]): Fit | undefined {
  const all = rays.map((_, i) => i).filter((i) => (reach[i] as number) > 0);
  const usual = median(all.map((i) => reach[i] as number));
  let used = all.filter((i) => (reach[i] as number) < 2.5 * usual);
  let fit: Fit | undefined;
  for (let round = 0; round < 8; round++) {
    const ellipsoid = ellipsoidThrough(used.map((i) => times(rays[i] as Vector, reach[i] as number)));
    if (ellipsoid === undefined || used.length < rays.length / 2) return undefined;
    const off = (i: number) => Math.abs((reach[i] as number) - ellipsoid.radius(rays[i] as Vector));
    const roughness = median(used.map(off));
    fit = { ellipsoid, roughness };
    const most = Math.max(4 * roughness, (round < 3 ? 0.02 : 0.002) * usual);
    used = all.filter((i) => off(i) < most);
  }
  return fit;
}

function measured(rays: readonly Vector[], reach: readonly number[], { ellipsoid, roughness }: Fit) {
  const tolerance = Math.max(0.25, 8 * roughness);
  const isOpen = (i: number) => !((reach[i] as number) < ellipsoid.radius(rays[i] as Vector) + tolerance);
  let [cubes, open] = [0, 0];
  for (const [i, ray] of rays.entries()) {
    if (isOpen(i)) open++;
    cubes += (isOpen(i) ? ellipsoid.radius(ray) : (reach[i] as number)) ** 3;
  }
  const cm3 = ((4 * Math.PI) / (3 * rays.length)) * cubes * 1e-3;
  // Bumps cancel all round; over openings the ellipsoid replaces the skin.
  const skin = FINEST + (roughness * open) / rays.length;
  const volume = { cm3, plusMinus: (3 * cm3 * skin) / Math.cbrt(cubes / rays.length) };
  const leadsOut = (group: readonly number[]) =>
    group.filter((i) => Number.isNaN(reach[i] as number)).length > OUTSIDE * group.length;
  return { tolerance, volume, openings: clusters(rays, rays.map((_, i) => i).filter(isOpen)).filter(leadsOut) };
}

function clusters(rays: readonly Vector[], open: readonly number[]): readonly (readonly number[])[] {
  const reach = Math.cos(2.1 * Math.sqrt((4 * Math.PI) / rays.length));
  const left = new Set(open);
  const found: number[][] = [];
  for (const seed of open) {
    if (!left.delete(seed)) continue;
    const group = [seed];
    for (let k = 0; k < group.length; k++)
      for (const other of left)
        if (dot(rays[group[k] as number] as Vector, rays[other] as Vector) > reach) {
          left.delete(other);
          group.push(other);
        }
    if (group.length >= FEWEST_RAYS) found.push(group);
  }
  return found;
}
