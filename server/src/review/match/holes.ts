/** Which hole is which, and which station of the bore: by name, then by place along the tube. */
import { MILLIMETRES_PER_INCH } from "../../instrument/defaults.js";
import type { Draft } from "../../instrument/draft/draft.js";
import { own, valueAt } from "../../instrument/path.js";
import type { Version } from "../version.js";
import { pairByPlace } from "./byPlace.js";
import { type Both, completed, type Pair, pairByKeys } from "./pairs.js";

/**
 * A thing that has moved farther than this share of the tube counts as another one. Neighbouring finger holes lie about a fifteenth of
 * the tube apart (common practice, no source).
 */
const FARTHEST = 0.1;
/** What half a turn round the tube counts, and a diameter e times as large: places along the tube tell most. */
const HALF_TURN = 0.05;
const DIAMETER_RATIO = 0.05;

interface Placed {
  readonly index: number;
  readonly name: string | undefined;
  /** Share of the tube's length. */
  readonly place: number | undefined;
  /** Degrees. */
  readonly angle: number;
  /** mm */
  readonly diameter: number | undefined;
}

export function pairHoles(old: Version, next: Version): readonly Pair[] {
  return paired(holesOf(old), holesOf(next));
}

export function pairStations(old: Version, next: Version): readonly Pair[] {
  return paired(stationsOf(old), stationsOf(next));
}

function paired(old: readonly Placed[], next: readonly Placed[]): readonly Pair[] {
  const named = pairByKeys(
    old.map(({ name }) => [name]),
    next.map(({ name }) => [name]),
  );
  const left = (all: readonly Placed[], side: keyof Both) =>
    all.filter(({ index }) => !named.some((pair) => pair[side] === index)).toSorted(alongTheTube);
  const [oldLeft, nextLeft] = [left(old, "old"), left(next, "next")];
  const placed = pairByPlace(
    oldLeft.length,
    nextLeft.length,
    (i, j) => distance(oldLeft[i] as Placed, nextLeft[j] as Placed),
    FARTHEST,
  ).map((pair) => ({
    old: (oldLeft[pair.old] as Placed).index,
    next: (nextLeft[pair.next] as Placed).index,
  }));
  return completed([...named, ...placed], old.length, next.length);
}

/** Holes of a vessel have no place along it and stay in the order of the file. */
function alongTheTube(a: Placed, b: Placed): number {
  return (a.place ?? 0) - (b.place ?? 0) || a.index - b.index;
}

function distance(a: Placed, b: Placed): number {
  const along = a.place === undefined || b.place === undefined ? 0 : Math.abs(a.place - b.place);
  const turned = Math.abs(((((a.angle - b.angle) % 360) + 540) % 360) - 180) / 180;
  const larger = a.diameter === undefined || b.diameter === undefined ? 0 : Math.abs(Math.log(a.diameter / b.diameter));
  return along + HALF_TURN * turned + DIAMETER_RATIO * (Number.isFinite(larger) ? larger : 1);
}

function holesOf({ document }: Version): readonly Placed[] {
  const { draft } = document.resolution;
  const length = tubeLength(draft);
  return draft.holes.map(({ name, at, angle, diameter }, index) => ({
    index,
    name,
    place: shareOf(at, length),
    angle: angle ?? 0,
    diameter: millimetres(diameter, draft),
  }));
}

function stationsOf({ document, data }: Version): readonly Placed[] {
  const { draft } = document.resolution;
  const length = tubeLength(draft);
  return (draft.bore ?? []).map(({ at, diameter }, index) => {
    const name = own(valueAt(data, ["bore", index]), "name");
    return {
      index,
      name: typeof name === "string" ? name : undefined,
      place: shareOf(at, length),
      angle: 0,
      diameter: millimetres(diameter, draft),
    };
  });
}

function millimetres(size: number | undefined, { unit }: Draft): number | undefined {
  return size === undefined ? undefined : size * (unit === "in" ? MILLIMETRES_PER_INCH : 1);
}

function shareOf(at: number | undefined, length: number): number | undefined {
  return at === undefined || !(length > 0) ? undefined : at / length;
}

/** From the mouth to the foot, in the file's unit; 0 where it is not known. */
function tubeLength({ bore }: Draft): number {
  return Math.max(0, ...(bore ?? []).map(({ at }) => at ?? 0));
}
