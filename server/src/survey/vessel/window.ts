/** A vessel's window: the opening with straight sides and a ramp. */
import { framed, type Mesh } from "../mesh/mesh.js";
import { openingAt } from "../mesh/opening.js";
import { directionsOf, profileOf } from "../mesh/profile.js";
import { Sections } from "../mesh/sections.js";
import { dot, times, type Vector } from "../mesh/vector.js";
import { measureWindow, type WindowFound } from "../tube/window.js";
import { around } from "./around.js";
import type { Chamber } from "./chamber.js";
import { HEIGHTS_IN_WALL, type OpeningFound } from "./opening.js";

/** mm around it that are examined. */
const WINDOW_AROUND = 22;

export interface WindowAmong {
  readonly opening: OpeningFound;
  readonly found: WindowFound;
  readonly up: Vector;
}

/** Far from the axis of a tube that is taken in place of the skin there: nearly flat. */
export const FLAT = 50;

export function windowAmong(
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
  for (const share of [0.1, ...HEIGHTS_IN_WALL]) {
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
