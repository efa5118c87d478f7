/** Area, middle and size of an opening in a flat section, whatever its outline. */
import { median, medianOfNumbers } from "../../sound/median.js";
import { cornerOf } from "./circle.js";
import { BROKEN, directionsOf, FREE, profileOf } from "./profile.js";
import type { Section } from "./sections.js";

export interface Opening {
  readonly x: number;
  readonly y: number;
  /** Of the circle of equal area. */
  readonly diameter: number;
  /** Of the ellipse of equal second moments, scaled to the area. */
  readonly alongX: number;
  readonly alongY: number;
  /** How far the corners of its flat sides stand out of that circle; not a number of other outlines. */
  readonly facet: number;
  /** Share of its bounding box that it fills: π/4 for an ellipse, 1 for a rectangle. */
  readonly fill: number;
  /** Distance of its wall from the middle, by direction. */
  readonly radii: Float64Array;
  /** Share of directions that see nothing, and that see nothing sound. */
  readonly free: number;
  readonly missing: number;
}

const RAYS = 360;
const ROUNDS = 4;
/** mm: the profile's point lies in the opening's middle. */
const NEAR = 1e-4;
const MOST_MISSING = 0.4;

/** The opening round a point; directions without a wall are bridged. Undefined where the point is in wood or too much is missing. */
export function openingAt(section: Section, x: number, y: number): Opening | undefined {
  let found: Opening | undefined;
  let [cx, cy] = [x, y];
  for (let round = 0; round < ROUNDS; round++) {
    const profile = profileOf(section, cx, cy, RAYS);
    if (profile.depth >= 1) return undefined;
    const radii = Float64Array.from(profile.inner);
    const usual = medianOfNumbers(radii);
    let [free, missing] = [0, 0];
    for (let k = 0; k < RAYS; k++) {
      if (profile.state[k] === FREE) free++;
      const farthest = (profile.state[k] === BROKEN ? FARTHEST_BROKEN : FARTHEST) * usual;
      if (!((radii[k] as number) < farthest)) radii[k] = Number.NaN;
      if (Number.isNaN(radii[k] as number)) missing++;
    }
    if (missing > MOST_MISSING * RAYS) return undefined;
    bridge(radii);
    found = { ...shapeOf(radii, cx, cy), facet: Number.NaN, radii, free: free / RAYS, missing: missing / RAYS };
    const moved = Math.hypot(found.x - cx, found.y - cy);
    [cx, cy] = [found.x, found.y];
    if (moved < NEAR) {
      const pieces = [...new Set(profile.piece)].filter((piece) => piece >= 0);
      found = { ...found, facet: median(pieces.map((piece) => cornerOf(section, piece, cx, cy))) - found.diameter / 2 };
      break;
    }
  }
  return found;
}

/** A wall this many times farther away than usual is another one, seen through a gap. */
const FARTHEST = 8;
const FARTHEST_BROKEN = 1.6;

function bridge(radii: Float64Array): void {
  const known = radii.slice();
  for (let k = 0; k < RAYS; k++) {
    if (!Number.isNaN(radii[k] as number)) continue;
    let [a, b] = [1, 1];
    while (Number.isNaN(known[(k - a + RAYS) % RAYS] as number)) a++;
    while (Number.isNaN(known[(k + b) % RAYS] as number)) b++;
    radii[k] = ((known[(k - a + RAYS) % RAYS] as number) * b + (known[(k + b) % RAYS] as number) * a) / (a + b);
  }
}

function shapeOf(radii: Float64Array, cx: number, cy: number): Omit<Opening, "facet" | "radii" | "free" | "missing"> {
  const step = (2 * Math.PI) / RAYS;
  let [area, mx, my, xx, yy, low, high, left, right] = [0, 0, 0, 0, 0, 0, 0, 0, 0];
  const { cos, sin } = directionsOf(RAYS);
  for (let k = 0; k < RAYS; k++) {
    const c = cos[k] as number;
    const s = sin[k] as number;
    const r = radii[k] as number;
    area += (r * r) / 2;
    mx += (r ** 3 / 3) * c;
    my += (r ** 3 / 3) * s;
    xx += (r ** 4 / 4) * c * c;
    yy += (r ** 4 / 4) * s * s;
    left = Math.min(left, r * c);
    right = Math.max(right, r * c);
    low = Math.min(low, r * s);
    high = Math.max(high, r * s);
  }
  area *= step;
  mx *= step / area;
  my *= step / area;
  xx = (xx * step) / area - mx * mx;
  yy = (yy * step) / area - my * my;
  const scale = Math.sqrt(area / Math.PI / (4 * Math.sqrt(xx * yy)));
  return {
    x: cx + mx,
    y: cy + my,
    diameter: 2 * Math.sqrt(area / Math.PI),
    alongX: 4 * Math.sqrt(xx) * scale,
    alongY: 4 * Math.sqrt(yy) * scale,
    fill: area / ((right - left) * (high - low)),
  };
}

/** What its wall leaves the ellipse of its sizes by, by direction, mm. */
export function residualsOf({ radii, alongX, alongY }: Opening): Float64Array {
  const { cos, sin } = directionsOf(RAYS);
  const [a, b] = [alongX / 2, alongY / 2];
  return radii.map((r, k) => r - (a * b) / Math.hypot(b * (cos[k] as number), a * (sin[k] as number)));
}
