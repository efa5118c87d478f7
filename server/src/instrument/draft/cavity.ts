/** The cavity of a vessel as drawn, in the file's own units: from its dimensions, its volume, or both. */

import { MILLIMETRES_PER_INCH } from "../defaults.js";
import type { Path } from "../finding.js";
import { own, valueAt } from "../path.js";
import type { Draft, DraftHole } from "./draft.js";
import { holeData } from "./read.js";

/** What one number of the file makes larger or smaller: the cavity as a whole, or one dimension of it. */
export type VesselSize = "volume" | "diameter" | "length";

export type DraftCavity =
  | {
      readonly kind: "round";
      /** Half axes: in the direction of the mouth, across it in the plane of the holes, across that plane. */
      readonly semiAxes: readonly [number, number, number];
      /** Half axes that a change of the size changes. */
      readonly sized: readonly boolean[];
      readonly size: VesselSize;
      /** Why the prediction takes another shape than the one meant; undefined where it does not. */
      readonly standIn: "volume only" | "box" | undefined;
    }
  | { readonly kind: "tube"; readonly length: number; readonly diameter: number; readonly size: VesselSize };

const VESSEL: Path = ["vessel"];

export function mouthIsAtSide({ data }: Pick<Draft, "data">): boolean {
  return valueAt(data, [...VESSEL, "mouthAt"]) === "side";
}

/** Undefined while a dimension is missing or wrong. */
export function cavityOf(draft: Draft): DraftCavity | undefined {
  const { data, numbers } = draft;
  const number = (name: string) => numbers.at([...VESSEL, name]);
  const volume = number("volume");
  const drawn = drawnCavity(draft, number);
  if (volume === undefined) return valueAt(data, [...VESSEL, "volume"]) === undefined ? drawn : undefined;
  const wanted = inFileUnits(volume, draft);
  if (drawn === undefined) {
    if (shapeOf(data) !== undefined && anyDimension(data)) return undefined;
    const radius = Math.cbrt((3 * wanted) / (4 * Math.PI));
    return { kind: "round", semiAxes: [radius, radius, radius], sized: ALL, size: "volume", standIn: "volume only" };
  }
  const factor = Math.cbrt(wanted / drawnVolume(drawn));
  if (drawn.kind === "tube")
    return { ...drawn, length: drawn.length * factor, diameter: drawn.diameter * factor, size: "volume" };
  const [a, b, c] = drawn.semiAxes;
  return { ...drawn, semiAxes: [a * factor, b * factor, c * factor], sized: ALL, size: "volume" };
}

const ALL = [true, true, true] as const;

/** A box is treated as the ellipsoid of its volume and proportions: the cube root of 6/π wider. */
const BOX_FACTOR = Math.cbrt(6 / Math.PI);

function drawnCavity(draft: Draft, number: (name: string) => number | undefined): DraftCavity | undefined {
  const [length, width, height, diameter] = ["length", "width", "height", "diameter"].map(number);
  const shape = shapeOf(draft.data);
  if (shape === "sphere") {
    if (diameter === undefined) return undefined;
    const radius = diameter / 2;
    return { kind: "round", semiAxes: [radius, radius, radius], sized: ALL, size: "diameter", standIn: undefined };
  }
  if (shape === "tube")
    return length === undefined || diameter === undefined
      ? undefined
      : { kind: "tube", length, diameter, size: "length" };
  const across = width ?? height ?? diameter;
  if (length === undefined || across === undefined) return undefined;
  const side = mouthIsAtSide(draft);
  const half = (size: number) => (size / 2) * (shape === "box" ? BOX_FACTOR : 1);
  const [l, w, h] = [half(length), half(across), half(height ?? across)];
  return {
    kind: "round",
    semiAxes: side ? [h, l, w] : [l, w, h],
    sized: side ? [false, true, false] : [true, false, false],
    size: "length",
    standIn: shape === "box" ? "box" : undefined,
  };
}

/** The word written, `cylinder` being a tube; a lone diameter is a sphere's. */
export function shapeOf(data: unknown): "sphere" | "tube" | "ellipsoid" | "box" | undefined {
  const shape = valueAt(data, [...VESSEL, "shape"]);
  if (shape === "cylinder" || shape === "tube") return "tube";
  if (shape === "sphere" || shape === "ellipsoid" || shape === "box") return shape;
  const vessel = own(data, "vessel");
  return own(vessel, "diameter") !== undefined && own(vessel, "length") === undefined ? "sphere" : undefined;
}

function anyDimension(data: unknown): boolean {
  return ["length", "width", "height", "diameter"].some((name) => valueAt(data, [...VESSEL, name]) !== undefined);
}

function drawnVolume(cavity: DraftCavity): number {
  if (cavity.kind === "tube") return (Math.PI / 4) * cavity.diameter ** 2 * cavity.length;
  return ((4 * Math.PI) / 3) * cavity.semiAxes[0] * cavity.semiAxes[1] * cavity.semiAxes[2];
}

const MILLIMETRES_PER_CENTIMETRE = 10;

/** Cubic centimetres in cubic units of length of the file. */
export function inFileUnits(volume: number, { unit }: Pick<Draft, "unit">): number {
  return volume * (MILLIMETRES_PER_CENTIMETRE / (unit === "in" ? MILLIMETRES_PER_INCH : 1)) ** 3;
}

/** Direction of a hole round the vessel, degrees from the mouth: as drawn, or spread so that all openings are equally far apart along the wall. */
export function holeDirection(draft: Draft, index: number): number | undefined {
  const { data, numbers, holes } = draft;
  if (own(holeData(data)[index], "angle") !== undefined) return numbers.at(["holes", index, "angle"]);
  const share = (index + 1) / (holes.length + 1);
  const cavity = cavityOf(draft);
  return cavity?.kind === "round" ? directionAt(cavity.semiAxes, share) : 360 * share;
}

/** Steps in degrees by which the length along an oval is summed. */
const WAY_STEP = 1;

/** Direction at `share` of the way round an oval of these half axes, degrees from its first half axis. */
function directionAt([a, b]: readonly [number, number, number], share: number): number {
  if (a === b) return 360 * share;
  const ways = waysRound(a, b);
  const wanted = share * (ways.at(-1) ?? 0);
  const after = ways.findIndex((way) => way >= wanted);
  const [from, to] = [ways[after - 1] ?? 0, ways[after] ?? 0];
  return WAY_STEP * (after - 1 + (wanted - from) / (to - from));
}

/** The way from the first half axis to each step, the last once round. */
function waysRound(a: number, b: number): readonly number[] {
  if (last.a === a && last.b === b) return last.ways;
  const ways = [0];
  let [x, y] = [a, 0];
  for (let degrees = WAY_STEP; degrees <= 360; degrees += WAY_STEP) {
    const next = pointOn([a, b], degrees);
    ways.push((ways.at(-1) ?? 0) + Math.hypot(next[0] - x, next[1] - y));
    [x, y] = next;
  }
  last = { a, b, ways };
  return ways;
}

/** All holes of a design ask in turn. */
let last: { readonly a: number; readonly b: number; readonly ways: readonly number[] } = { a: 0, b: 0, ways: [] };

/** Degrees of a hole over the plane from which elevations count; 0 where nothing is said. */
export function holeElevation({ data, numbers }: Draft, index: number): number | undefined {
  return own(holeData(data)[index], "elevation") === undefined ? 0 : numbers.at(["holes", index, "elevation"]);
}

/** Where a direction meets an ellipsoid of these half axes, and its outward normal there: along the mouth, across it, and over their plane. */
export function placeOn(
  [a, b, c]: readonly [number, number, number],
  direction: number,
  elevation: number,
): { readonly point: readonly [number, number, number]; readonly normal: readonly [number, number, number] } {
  const [turn, rise] = [(direction * Math.PI) / 180, (elevation * Math.PI) / 180];
  const [u, v, w] = [Math.cos(rise) * Math.cos(turn), Math.cos(rise) * Math.sin(turn), Math.sin(rise)];
  const distance = 1 / Math.hypot(u / a, v / b, w / c);
  const [x, y, z] = [distance * u, distance * v, distance * w];
  const steep = Math.hypot(x / (a * a), y / (b * b), z / (c * c));
  return { point: [x, y, z], normal: [x / (a * a * steep), y / (b * b * steep), z / (c * c * steep)] };
}

/** Straight from one point to another. */
export function apart(one: readonly [number, number, number], other: readonly [number, number, number]): number {
  return Math.hypot(one[0] - other[0], one[1] - other[1], one[2] - other[2]);
}

/** Where a direction, degrees from the mouth, meets an oval of these half axes. */
function pointOn([a, b]: readonly [number, number, ...number[]], direction: number): readonly [number, number] {
  const angle = (direction * Math.PI) / 180;
  const distance = 1 / Math.hypot(Math.cos(angle) / a, Math.sin(angle) / b);
  return [distance * Math.cos(angle), distance * Math.sin(angle)];
}

/** Distance of a hole from the mouth's centre along a tube: as drawn, or spread evenly down to the far end. */
export function holeStation(draft: Draft, hole: DraftHole, index: number, toEnd: number): number | undefined {
  if (own(holeData(draft.data)[index], "at") !== undefined) return hole.at;
  return (toEnd * (index + 1)) / (draft.holes.length + 1);
}

/** Whether the file leaves a hole's position to us. */
export function placeIsAssumed({ data }: Pick<Draft, "data">, index: number): boolean {
  const hole = holeData(data)[index];
  return own(hole, shapeOf(data) === "tube" ? "at" : "angle") === undefined;
}
