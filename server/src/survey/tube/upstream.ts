/** What lies upstream of a window: the plug, the windway, the slow chamber of a two-chamber flute. */
import { median } from "../../sound/median.js";
import type { Mesh } from "../mesh/mesh.js";
import { FREE, IN_WOOD, type Profile, WALL } from "../mesh/profile.js";
import { isStopperOf, type Loose } from "../parts/loose.js";
import type { Look } from "./look.js";
import { between, topOver, turnedToY } from "./near.js";
import { RAYS, type Row, type Run, type Scan } from "./scan.js";
import type { WindowFound } from "./window.js";

/** Share of a section from which on it is air, not the gap round a plug; and mm within which what is met is the bore's wall. */
const OPEN = 0.08;
const AT_WALL = 0.35;
/** Sections across what lies before the window: a face is flat or a cone. */
const CUTS = 60;

/**
 * Length of bore that holds as much air as there is between what closes it and the window, mm. A cone on the plug counts by its volume,
 * even where its tip reaches past the window.
 * @param closed where the axis leaves the wood
 */
export function plugAbove(scanned: Scan, closed: number, up: number, bore: number): number {
  const share = (z: number) => airShare(scanned.at(z).profile, bore / 2);
  const step = scanned.step;
  let from = Math.min(closed, up);
  // From where the axis leaves the wood, upstream to where there is no air beside it, either.
  while (from - step > scanned.low && share(from - step / 2) > OPEN) from -= step;
  let before = from - step;
  for (let i = 0; i < HALVINGS && closed > from; i++) {
    const middle = (before + from) / 2;
    if (share(middle) > OPEN) from = middle;
    else before = middle;
  }
  const cut = (up - from) / CUTS;
  return Array.from({ length: CUTS }, (_, i) => cut * share(from + (i + 0.5) * cut)).reduce(
    (sum, each) => sum + each,
    0,
  );
}

/** Of the bore's section, by the directions' median: windways and gaps take up few. */
function airShare({ rays, state, inner, gap, gapAt }: Profile, radius: number): number {
  const shares = new Float64Array(rays);
  for (let k = 0; k < rays; k++) {
    if (state[k] === WALL) shares[k] = Math.min(1, ((inner[k] as number) / radius) ** 2);
    else if (state[k] === FREE) shares[k] = 1;
    else if (state[k] === IN_WOOD) {
      const from = gapAt[k] as number;
      const to = from + (gap[k] as number);
      if ((gap[k] as number) > 0 && Math.abs(to - radius) < AT_WALL)
        shares[k] = (to * to - from * from) / (radius * radius);
    }
  }
  return median(shares);
}

/** A plug or a block that lies beside the tube, as it is usually set: where its face comes to lie above the window, mm. */
export function plugBeside({ exit }: Look, up: number, bore: number, loose: readonly Loose[], low: number) {
  const from = exit ?? low;
  const [plug, ...more] = loose.filter((each) => isStopperOf(each, bore) && up - from - each.length > -SUNK);
  if (plug === undefined || more.length > 0) return undefined;
  const stopper = Math.max(0, up - from - plug.length);
  if (stopper > DEEPEST * bore) return undefined;
  const [what, where] =
    exit === undefined ? ["block", "with the upper end"] : ["plug", "with the end of the slow chamber's exit"];
  return {
    stopper,
    note: `The ${what} that lies beside it, ${plug.length.toFixed(1)} mm long, is assumed to be pushed in flush ${where}: its face lies ${stopper.toFixed(2)} mm above the window.`,
  };
}

/** mm by which a plug may stand out into the window, cut to fit; and how many bores above the window one may end. Common practice, no source. */
const SUNK = 0.5;
const DEEPEST = 2;

/** mm: a shorter chamber before the window is none. */
const LEAST_CHAMBER = 15;
/** Where the chamber begins narrower than this share of its usual width, that is the hole one blows into; it ends where the chamber is wider than that. */
const NARROW = 0.75;
const WIDER = 1.01;
const HALVINGS = 20;

/** @param exit where its exit ends, if one was seen: without a plug the bore goes on there */
export function slowChamber({ rows, runs, at }: Scan, main: Run, up: number, exit: number | undefined) {
  const before = runs.find((each) => each !== main && each.to < up && each.to - each.from > LEAST_CHAMBER);
  const run = before ?? (main.closedFrom || exit === undefined ? undefined : { ...main, to: exit });
  if (run === undefined) return undefined;
  const width = (row: Row | undefined) => 2 * (row?.circle?.radius ?? Number.NaN);
  const inside = rows.filter(({ z }) => z > run.from && z < run.to);
  const diameter = median(inside.map(width).filter((each) => each > 0));
  const wide = inside.findIndex((row) => width(row) > NARROW * diameter);
  const entry = Math.min(...inside.slice(0, wide).map(width));
  let [from, within] = [run.from, run.from];
  if (entry < NARROW * diameter) {
    const last = inside.slice(0, wide).findLastIndex((row) => width(row) < WIDER * entry);
    [from, within] = [inside[last]?.z ?? run.from, inside[last + 1]?.z ?? run.from];
    for (let i = 0; i < HALVINGS; i++) {
      const middle = (from + within) / 2;
      if (width(at(middle)) < WIDER * entry) from = middle;
      else within = middle;
    }
  }
  const length = run.to - from;
  return length > LEAST_CHAMBER ? { length, diameter, to: run.to } : undefined;
}

/** The channel of a two-chamber flute whose cover is not on it, from the chamber's exit to the window. */
export function openChannel(mesh: Mesh, exit: number, { up, theta, width }: WindowFound) {
  const seen = turnedToY(between(mesh, exit - 1, up + 1), theta);
  const middle = (exit + up) / 2;
  const height = topOver(seen, width / 2 + ASIDE, middle) - topOver(seen, 0.0031, middle);
  return height > HEIGHTS[0] && height < HEIGHTS[1] ? { length: up - exit, height } : undefined;
}

/** mm beside the channel, on what its cover lies on. */
const ASIDE = 0.8;

/** Heights of windways, mm. Common practice, no source. */
const HEIGHTS = [0.3, 4] as const;
/** mm above the window where its exit is read, and the step in which its entry is sought. */
const INTO = 1.5;
const STEP = 0.5;
/** mm that its entry may lie off for that. */
export const ENTRY = STEP / 2;
/** Rays on either side of its middle. */
const BESIDE = 3;

/** Undefined where no channel leads to the window. */
export function windwayAt(scan: Scan, { radius }: Look, { up, down, theta }: WindowFound) {
  const bore = radius(down + 5);
  const middle = Math.round(((scan.sense * theta) / (2 * Math.PI)) * RAYS);
  const heightAt = (z: number) => {
    const { profile } = scan.at(z);
    const heights: number[] = [];
    for (let k = -BESIDE; k <= BESIDE; k++) {
      const ray = (((middle + k) % RAYS) + RAYS) % RAYS;
      const open = (profile.inner[ray] as number) - bore;
      const gap = (profile.gapAt[ray] as number) > 0.7 * bore ? (profile.gap[ray] as number) : 0;
      heights.push(gap > 0 ? gap : Math.max(open, 0));
    }
    return median(heights);
  };
  // It narrows toward its exit, which is chamfered.
  const height = 2 * heightAt(up - INTO) - heightAt(up - 2 * INTO);
  if (!(height > HEIGHTS[0] && height < HEIGHTS[1])) return undefined;
  let z = up - INTO;
  while (z - STEP > scan.low && heightAt(z - STEP) > HEIGHTS[0]) z -= STEP;
  return { length: up - Math.max(z - STEP, scan.low), height };
}
