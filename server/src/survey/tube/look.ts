/** The openings of one straight bore, and what they make of it: which family, which end is the mouth. */
import { median, robustDeviation } from "../../sound/median.js";
import { t } from "../../words/translation.js";
import type { Mesh } from "../mesh/mesh.js";
import { CannotSurvey } from "../refusal.js";
import { type HoleFound, measureHole } from "./hole.js";
import { degrees } from "./near.js";
import { type Patch, patchesOf } from "./patches.js";
import type { Row, Run, Scan } from "./scan.js";
import { measureWindow, type WindowFound } from "./window.js";

export interface Look {
  readonly family: "duct" | "transverse" | "rim";
  /** Whether the mouth is at the lower end of the axis. */
  readonly isMouthLow: boolean;
  readonly main: Run;
  readonly window: WindowFound | undefined;
  /** Where the opening ends by which the breath leaves a slow chamber upstream of the window; undefined where there is none. */
  readonly exit: number | undefined;
  readonly embouchure: HoleFound | undefined;
  readonly notch: NotchFound | undefined;
  /** Along the axis, the mouth's own opening left out. */
  readonly holes: readonly HoleFound[];
  readonly wall: { readonly mm: number; readonly scatter: number };
  readonly radius: (z: number) => number;
  /** Whether the ends showed which is the mouth, or only the places of the holes. */
  readonly isSure: boolean;
}

export interface NotchFound {
  readonly depth: number;
  readonly width: number;
  readonly theta: number;
}

/** An opening longer than this share of the bore and this many of its widths is not a hole. */
const MOST_OPEN = { share: 0.25, bores: 3 };
/** Bores that a plug's cone may be long, which hides a window from the axis. */
const HIDDEN = 1;
/** mm of gradual retreat that make a ramp. */
const LEAST_RAMP = 1;
/** A ramp longer than this share of the cut-up shows a labium by itself, where the wall upstream is straight. */
const LONG_RAMP = 0.5;
/** A labium is straight across within this share of the cut-up and this many mm. */
const UNEVEN = { share: 0.06, mm: 0.12 };
/** An embouchure lies at least this many usual gaps from the nearest hole, and is this much wider than the usual one. Common practice, no source. */
const APART = 2.2;
const WIDER = 1.2;
/** mm: a shorter bite out of the rim is a flaw. */
const LEAST_NOTCH = 1.5;

export function lookAt(mesh: Mesh, scan: Scan): Look {
  const main = [...scan.runs].sort((a, b) => b.to - b.from - (a.to - a.from))[0];
  if (main === undefined)
    throw new CannotSurvey(t("No bore was found along the axis. Survey the whole instrument, not its core."));
  const rows = scan.rows.slice(main.first, main.last + 1).filter(({ circle }) => circle !== undefined);
  const walls = rows.map(({ outer, circle }) => outer - (circle?.radius ?? Number.NaN));
  const wall = { mm: median(walls), scatter: robustDeviation(walls) };
  const radius = boreRadius(rows);
  const patches = patchesOf(scan, main, (z) => radius(z) + wall.mm, { mm: HIDDEN * radius(main.from), radius });
  for (const { from, to } of patches)
    if (to - from > Math.max(MOST_OPEN.share * (main.to - main.from), MOST_OPEN.bores * 2 * radius((from + to) / 2)))
      throw new CannotSurvey(
        t`The tube has no wall on one side over ${Math.round(to - from)} mm of its length. Repair the mesh, or survey one that is whole.`,
      );
  const ends = patches.filter((patch) => isAtOpenEnd(patch, main));
  const sides = patches.filter((patch) => !isAtOpenEnd(patch, main));
  const windows: SeenWindow[] = [];
  const holes: HoleFound[] = [];
  // A window partly hidden by a cone on the plug appears in several pieces: the largest identifies it.
  for (const patch of [...sides].sort((a, b) => sizeOf(b) - sizeOf(a))) {
    const hole = measureHole(mesh, patch, radius, wall.mm);
    const window = isPlain(hole) ? undefined : windowAt(mesh, patch, radius, wall.mm, main);
    if (window === undefined) holes.push(hole);
    else if (!windows.some((each) => isSameWindow(each, window))) windows.push(window);
  }
  holes.sort((a, b) => a.z - b.z);
  const notch = notchOf(mesh, ends, main, radius, wall.mm);
  const base = { main, wall, radius, window: undefined, exit: undefined, embouchure: undefined, notch: undefined };
  // A two-chamber flute has another opening upstream, by which the breath leaves the slow chamber.
  const [sharpest] = windows.sort((a, b) => b.window.ramp - a.window.ramp);
  const [found] = windows
    .filter(({ isLow }) => isLow === sharpest?.isLow)
    .sort((a, b) => b.window.down - a.window.down);
  if (found !== undefined) {
    const { window, isLow } = found;
    const way = isLow ? 1 : -1;
    const half = Math.asin(Math.min(1, window.width / (2 * radius(way * window.down))));
    const below = ({ z, theta }: HoleFound) => {
      // A gap in a bumpy ramp is none.
      const isOnRamp = Math.abs(degrees(theta - way * window.theta)) < (half * 180) / Math.PI;
      return way * z > window.down + (isOnRamp ? window.ramp : 0);
    };
    const ends = windows.filter((each) => each !== found && each.isLow === isLow).map((each) => each.window.down);
    return {
      ...base,
      family: "duct",
      window,
      exit: ends.length > 0 ? Math.max(...ends) : undefined,
      isMouthLow: isLow,
      holes: holes.filter(below),
      isSure: true,
    };
  }
  return { ...base, ...withoutWindow(holes, notch, main) };
}

interface SeenWindow {
  readonly window: WindowFound;
  readonly isLow: boolean;
}

function sizeOf({ from, to, halfAngle }: Patch): number {
  return (to - from) * halfAngle;
}

function isSameWindow({ window: a, isLow }: SeenWindow, other: SeenWindow): boolean {
  const { window: b } = other;
  return isLow === other.isLow && a.up < b.down && b.up < a.down && Math.abs(degrees(a.theta - b.theta)) < SAME_SIDE;
}

/** Degrees within which two windows are on one side. */
const SAME_SIDE = 90;

/** A hole with straight sides, square to the bore, whose bounding box is filled as by an ellipse, π/4, is not a window. */
function isPlain({ isGuess, kink, fill, lean, undercut, diameter }: HoleFound): boolean {
  return !isGuess && kink < 0.1 && fill < 0.82 && Math.abs(lean) < 0.2 && Math.abs(undercut) < 0.25 * diameter;
}

/** The same as seen from the other end; the mouth's opening was measured from its own. */
export function lookedAtFromOtherEnd(look: Look, main: Run): Look {
  const turned = (hole: HoleFound): HoleFound => ({ ...hole, z: -hole.z, theta: -hole.theta, lean: -hole.lean });
  const { window, embouchure, notch, holes, radius } = look;
  return {
    ...look,
    main,
    isMouthLow: !look.isMouthLow,
    window,
    embouchure: embouchure && turned(embouchure),
    notch: notch && { ...notch, theta: -notch.theta },
    holes: holes.map(turned).reverse(),
    radius: (z) => radius(-z),
  };
}

function isAtOpenEnd({ isFirst, isLast }: Patch, main: Run): boolean {
  return (isFirst && !main.closedFrom) || (isLast && !main.closedTo);
}

/** By lines through the rows around, which steps and openings do not move. Asked for the same places again and again. */
function boreRadius(rows: readonly Row[]): (z: number) => number {
  const zs = rows.map(({ z }) => z);
  const radii = rows.map(({ circle }) => circle?.radius ?? Number.NaN);
  const all = median(radii);
  const at = (z: number) => {
    const near: number[] = [];
    for (let i = firstAbove(zs, z - AROUND); i < zs.length && (zs[i] as number) < z + AROUND; i++) near.push(i);
    if (near.length < 5) return all;
    const middle = median(near.map((i) => radii[i] as number));
    const used = near.filter((i) => Math.abs((radii[i] as number) - middle) < SAME_BORE);
    const mean = (values: readonly number[]) => values.reduce((sum, each) => sum + each, 0) / values.length;
    const [mz, mr] = [mean(used.map((i) => zs[i] as number)), mean(used.map((i) => radii[i] as number))];
    let [above, below] = [0, 0];
    for (const i of used) {
      above += ((zs[i] as number) - mz) * ((radii[i] as number) - mr);
      below += ((zs[i] as number) - mz) ** 2;
    }
    return mr + (below > 0 ? above / below : 0) * (z - mz);
  };
  const known = new Map<number, number>();
  return (z) => {
    const radius = known.get(z) ?? at(z);
    known.set(z, radius);
    return radius;
  };
}

/** Index of the first of rising values that is above a limit. */
function firstAbove(values: readonly number[], limit: number): number {
  let [from, to] = [0, values.length];
  while (from < to) {
    const middle = (from + to) >> 1;
    if ((values[middle] as number) > limit) to = middle;
    else from = middle + 1;
  }
  return from;
}

/** mm of the axis that a radius is taken from, and how far a row's may be from the middle one. */
const AROUND = 12;
const SAME_BORE = 0.15;

function windowAt(mesh: Mesh, patch: Patch, radius: (z: number) => number, wall: number, main: Run) {
  const r = radius((patch.from + patch.to) / 2);
  const low = measureWindow(mesh, patch, r, wall);
  const high = measureWindow(turnedRound(mesh), turnedPatch(patch), r, wall);
  const isNear = (isLow: boolean) =>
    isLow ? main.closedFrom && patch.from - main.from < 1.5 * r : main.closedTo && main.to - patch.to < 1.5 * r;
  const candidates = [
    { window: low, isLow: true },
    { window: high, isLow: false },
  ].flatMap(({ window, isLow }) => (window !== undefined && isWindow(window, r) ? [{ window, isLow }] : []));
  return candidates.sort(
    (a, b) => Number(isNear(b.isLow)) - Number(isNear(a.isLow)) || b.window.ramp - a.window.ramp,
  )[0];
}

function isWindow(found: WindowFound, radius: number): boolean {
  const { up, down, width, unevenness, upUnevenness, ramp, upScatter } = found;
  const cutUp = down - up;
  const straight = UNEVEN.share * cutUp + UNEVEN.mm;
  // A plain ramp cut into a round tube has a curved edge, and a scan leaves little of a thin one.
  const hasEdge = unevenness < straight || (upUnevenness < straight && ramp > LONG_RAMP * cutUp);
  return hasEdge && ramp > LEAST_RAMP && width > 0.5 * cutUp && cutUp < 2 * radius && upScatter < 0.2;
}

/** About x: z and y change their sign. */
export function turnedRound(mesh: Mesh): Mesh {
  const v = mesh.v.slice();
  for (let i = 0; i < v.length; i += 3) {
    v[i + 1] = -(v[i + 1] as number);
    v[i + 2] = -(v[i + 2] as number);
  }
  return { ...mesh, v };
}

function turnedPatch(patch: Patch): Patch {
  const { theta, from, to, isFirst, isLast } = patch;
  return { ...patch, theta: -theta, from: -to, to: -from, isFirst: isLast, isLast: isFirst };
}

type Found = Pick<Look, "family" | "isMouthLow" | "embouchure" | "notch" | "holes" | "isSure">;

function withoutWindow(
  holes: readonly HoleFound[],
  notch: (NotchFound & { isLow: boolean }) | undefined,
  main: Run,
): Found {
  const none = { embouchure: undefined, notch: undefined, isSure: true };
  const sideBlown = (embouchure: HoleFound, isMouthLow: boolean): Found => ({
    ...none,
    family: "transverse",
    embouchure,
    isMouthLow,
    holes: holes.filter((hole) => hole !== embouchure),
  });
  const good = holes.filter(({ isGuess }) => !isGuess);
  const [first, last] = [good[0], good.at(-1)];
  if (main.closedFrom !== main.closedTo && first !== undefined && last !== undefined)
    return sideBlown(main.closedFrom ? first : last, main.closedFrom);
  if (notch !== undefined) return { ...none, family: "rim", notch, isMouthLow: notch.isLow, holes };
  if (first === undefined || last === undefined || good.length < 3)
    return { ...none, family: "rim", isMouthLow: !main.closedFrom, holes, isSure: main.closedFrom !== main.closedTo };
  const gaps = good.slice(1).map(({ z }, i) => z - (good[i]?.z ?? z));
  const [usualGap, usual] = [median(gaps), median(good.map(({ diameter }) => diameter))];
  const isApart = (hole: HoleFound, gap: number) => gap > APART * usualGap && hole.diameter > WIDER * usual;
  if (isApart(first, gaps[0] as number)) return sideBlown(first, true);
  if (isApart(last, gaps.at(-1) as number)) return sideBlown(last, false);
  const middle = good.reduce((sum, { z }) => sum + z, 0) / good.length;
  return { ...none, family: "rim", isMouthLow: middle > (main.from + main.to) / 2, holes, isSure: false };
}

function notchOf(mesh: Mesh, ends: readonly Patch[], main: Run, radius: (z: number) => number, wall: number) {
  for (const patch of ends) {
    if (patch.to - patch.from < LEAST_NOTCH) continue;
    const isLow = patch.isFirst;
    const [seen, place] = isLow ? [mesh, patch] : [turnedRound(mesh), turnedPatch(patch)];
    const rim = isLow ? main.from : -main.to;
    const window = measureWindow(seen, place, radius((patch.from + patch.to) / 2), wall);
    if (window === undefined || !(window.down - rim > LEAST_NOTCH)) continue;
    const theta = isLow ? window.theta : -window.theta;
    return { depth: window.down - rim, width: window.width, theta, isLow };
  }
  return undefined;
}
