/** What lies upstream of a window: the plug, the windway, the slow chamber of a two-chamber flute. */
import { median } from "../mesh/statistics.js";
import type { Look } from "./look.js";
import { RAYS, type Row, type Run, type Scan } from "./scan.js";
import type { WindowFound } from "./window.js";

/** Length of bore that holds as much air as there is between the closed end and the window, mm: a cone counts by its volume. */
export function plugAbove(rows: readonly Row[], closed: number, up: number, bore: number): number {
  const above = rows.filter(({ z }) => z < up);
  let [volume, place, diameter] = [0, closed, 2 * (above[0]?.circle?.radius ?? 0)];
  for (const { z, circle } of above) {
    const here = 2 * (circle?.radius ?? 0);
    volume += ((diameter * diameter + here * here) / 2) * (z - place);
    [place, diameter] = [z, here];
  }
  volume += diameter * diameter * (up - place);
  return volume / (bore * bore);
}

/** mm: a shorter hollow before the window is none. */
const LEAST_CHAMBER = 15;

export function slowChamber({ rows, runs }: Scan, main: Run, up: number) {
  const run = runs.find((each) => each !== main && each.to < up && each.to - each.from > LEAST_CHAMBER);
  if (run === undefined) return undefined;
  const diameters = rows.slice(run.first, run.last + 1).map(({ circle }) => 2 * (circle?.radius ?? Number.NaN));
  return { length: run.to - run.from, diameter: median(diameters.filter((each) => each > 0)) };
}

/** Heights of windways, mm. Common practice, no source. */
const HEIGHTS = [0.3, 4] as const;
/** mm above the window where its exit is read, and the step in which its entry is sought. */
const INTO = 1.5;
const STEP = 0.5;
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
  const height = heightAt(up - INTO);
  if (!(height > HEIGHTS[0] && height < HEIGHTS[1])) return undefined;
  let z = up - INTO;
  while (z - STEP > scan.low && heightAt(z - STEP) > HEIGHTS[0]) z -= STEP;
  return { length: up - Math.max(z - STEP, scan.low), height };
}
