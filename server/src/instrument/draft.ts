/**
 * The shape of the instrument as drawn: numbers worked out, in the file's own units, nothing yet scaled or converted.
 * What the geometry rules look at. A number that is missing or wrong is undefined and has its finding already.
 */
import { DEFAULTS, MILLIMETRES_PER_INCH } from "./defaults.js";
import { familyNamed, traitsOf } from "./families/index.js";
import type { Family } from "./family.js";
import type { Path } from "./finding.js";
import type { Numbers } from "./numbers.js";
import { isMap, own, valueAt } from "./path.js";

export interface DraftStation {
  readonly path: Path;
  readonly at: number | undefined;
  readonly diameter: number | undefined;
}

export interface DraftHole {
  readonly path: Path;
  /** As written, or `hole 3`. */
  readonly label: string;
  /** As written. */
  readonly name: string | undefined;
  readonly at: number | undefined;
  /** Where the hole opens outside; of an oval hole its width, across the bore. */
  readonly diameter: number | undefined;
  /** Along the bore, outside: the diameter of a round hole. */
  readonly length: number | undefined;
  /** How much wider it is at the bore. */
  readonly undercut: number | undefined;
  /** How far its chimney stands up from the body. */
  readonly raised: number | undefined;
  /** From the bore to the outside: its own, or the wall and what it is raised. */
  readonly chimney: number | undefined;
  /** Degrees; 0 the front. */
  readonly angle: number | undefined;
}

export type DraftMouth =
  | { readonly kind: "ideal" }
  | { readonly kind: "correction"; readonly length: number }
  | {
      readonly kind: "window";
      readonly width: number;
      readonly cutUp: number;
      readonly chimney: number;
      /** From the window's upstream end. */
      readonly stopper: number;
      readonly extra: number;
    }
  | {
      readonly kind: "embouchure";
      readonly length: number;
      readonly width: number;
      readonly chimney: number;
      readonly cover: number;
      readonly stopper: number;
      readonly extra: number;
    }
  | {
      readonly kind: "notch";
      readonly width: number;
      /** From the lip to the blowing edge. */
      readonly cutUp: number;
      /** Of the wall at the edge. */
      readonly chimney: number;
      readonly extra: number;
    }
  | { readonly kind: "rim"; readonly cover: number; readonly extra: number };

export interface Draft {
  readonly data: unknown;
  readonly numbers: Numbers;
  readonly family: Family | undefined;
  readonly unit: "mm" | "in";
  /** Undefined where there is no list of stations to speak of. */
  readonly bore: readonly DraftStation[] | undefined;
  /** Empty where the design has none. */
  readonly holes: readonly DraftHole[];
  readonly wall: number | undefined;
  readonly foot: "open" | "stopped";
  readonly mouth: DraftMouth | undefined;
}

/** Longest lists looked at, as in the schema: the rules compare each with each. */
const MOST_STATIONS = 1000;
const MOST_HOLES = 100;

export function draftOf(data: unknown, numbers: Numbers): Draft {
  const wall = numbers.at(["wall"]);
  const bore = own(data, "bore");
  const stations =
    Array.isArray(bore) && bore.length <= MOST_STATIONS ? bore.map((_, i) => stationOf(numbers, i)) : undefined;
  const draft = {
    data,
    numbers,
    family: familyNamed(own(data, "family")),
    unit: own(data, "units") === "in" ? ("in" as const) : ("mm" as const),
    bore: stations,
    holes: holesOf(data, numbers, wall),
    wall,
    foot: own(data, "foot") === "stopped" ? ("stopped" as const) : DEFAULTS.foot,
  };
  return { ...draft, mouth: mouthOf(draft) };
}

function stationOf(numbers: Numbers, i: number): DraftStation {
  const path = ["bore", i];
  return { path, at: numbers.at([...path, "at"]), diameter: numbers.at([...path, "diameter"]) };
}

/** The list of holes as plain data; empty where there is none, or one that cannot be meant. */
export function holeData(data: unknown): readonly unknown[] {
  const holes = own(data, "holes");
  return Array.isArray(holes) && holes.length <= MOST_HOLES ? holes : [];
}

/** False where something stands for the holes that is no list of them: what the tube is then nobody knows. */
export function holesAreKnown(data: unknown): boolean {
  const holes = own(data, "holes");
  return holes === undefined || (Array.isArray(holes) && holes.length <= MOST_HOLES);
}

function holesOf(data: unknown, numbers: Numbers, wall: number | undefined): readonly DraftHole[] {
  return holeData(data).map((hole, i) => {
    const path = ["holes", i];
    const name = own(hole, "name");
    const named = typeof name === "string" && name.trim() !== "" ? name : undefined;
    const or = (property: string, standIn: number | undefined) =>
      own(hole, property) === undefined ? standIn : numbers.at([...path, property]);
    const diameter = numbers.at([...path, "diameter"]);
    const raised = or("raised", 0);
    return {
      path,
      name: named,
      label: named ?? `hole ${i + 1}`,
      at: numbers.at([...path, "at"]),
      diameter,
      length: or("length", diameter),
      undercut: or("undercut", 0),
      raised,
      chimney: or("chimney", wall === undefined || raised === undefined ? undefined : wall + raised),
      angle: angleOf(hole, numbers, path),
    };
  });
}

function angleOf(hole: unknown, numbers: Numbers, path: Path): number | undefined {
  if (own(hole, "angle") !== undefined) return numbers.at([...path, "angle"]);
  return own(hole, "side") === "back" ? 180 : 0;
}

/** What calibration adds to the mouth. */
const EXTRA: Path = ["mouth", "extra"];

/** The kind of mouth goes by what is described; the family decides only where the description is silent. */
function mouthOf(draft: Omit<Draft, "mouth">): DraftMouth | undefined {
  const { data, numbers } = draft;
  const traits = traitsOf(draft);
  const mouth = own(data, "mouth");
  if (mouth === "ideal") return { kind: "ideal" };
  const usualCover = traits?.rimCover ?? DEFAULTS.rimCover;
  if (mouth === undefined && traits?.mouthIsAssumed) return { kind: "rim", cover: usualCover, extra: 0 };
  if (!isMap(mouth)) return undefined;
  if (own(mouth, "correction") !== undefined) {
    const length = numbers.at(["mouth", "correction"]);
    return length === undefined ? undefined : { kind: "correction", length };
  }
  if (own(mouth, "window") !== undefined) return windowOf(draft);
  if (own(mouth, "hole") !== undefined) return embouchureOf(draft);
  if (traits?.body !== "pipes" && own(mouth, "notch") !== undefined) return notchOf(draft);
  const isOver = traits === undefined ? own(mouth, "cover") !== undefined : traits.rimCover !== undefined;
  if (!isOver) return undefined;
  const cover = numberOr(draft, ["mouth", "cover"], usualCover);
  const extra = numberOr(draft, EXTRA, 0);
  return cover === undefined || extra === undefined ? undefined : { kind: "rim", cover, extra };
}

function windowOf(draft: Omit<Draft, "mouth">): DraftMouth | undefined {
  const width = draft.numbers.at(["mouth", "window", "width"]);
  const cutUp = draft.numbers.at(["mouth", "window", "cutUp"]);
  const chimney = numberOr(draft, ["mouth", "window", "chimney"], draft.wall);
  const stopper = hasStopper(draft) ? numberOr(draft, ["mouth", "window", "stopper"], 0) : 0;
  const extra = numberOr(draft, EXTRA, 0);
  if (width === undefined || cutUp === undefined || chimney === undefined) return undefined;
  if (stopper === undefined || extra === undefined) return undefined;
  return { kind: "window", width, cutUp, chimney, stopper, extra };
}

function notchOf(draft: Omit<Draft, "mouth">): DraftMouth | undefined {
  const { numbers, unit } = draft;
  const ofFile = (millimetres: number) => millimetres / (unit === "in" ? MILLIMETRES_PER_INCH : 1);
  const width = numbers.at(["mouth", "notch", "width"]);
  const depth = numbers.at(["mouth", "notch", "depth"]);
  const usualGap = depth === undefined ? undefined : Math.max(0, ofFile(DEFAULTS.lipToEdge) - depth);
  const gap = numberOr(draft, ["mouth", "notch", "gap"], usualGap);
  const chimney = numberOr(draft, ["mouth", "notch", "edge"], ofFile(DEFAULTS.notchEdge));
  const extra = numberOr(draft, EXTRA, 0);
  if (width === undefined || depth === undefined || gap === undefined) return undefined;
  if (chimney === undefined || extra === undefined) return undefined;
  return { kind: "notch", width, cutUp: depth + gap, chimney, extra };
}

function embouchureOf(draft: Omit<Draft, "mouth">): DraftMouth | undefined {
  const diameter = draft.numbers.at(["mouth", "hole", "diameter"]);
  const length = draft.numbers.at(["mouth", "hole", "length"]) ?? diameter;
  const width = numberOr(draft, ["mouth", "hole", "width"], length);
  const chimney = numberOr(draft, ["mouth", "hole", "chimney"], draft.wall);
  const cover = numberOr(draft, ["mouth", "cover"], DEFAULTS.transverseCover);
  const bore = boreDiameterAt(draft.bore, 0);
  const usualStopper = bore === undefined ? undefined : bore * DEFAULTS.stopperInBores;
  const stopper = hasStopper(draft) ? numberOr(draft, ["mouth", "stopper"], usualStopper) : 0;
  const extra = numberOr(draft, EXTRA, 0);
  if (length === undefined || width === undefined || chimney === undefined) return undefined;
  if (cover === undefined || stopper === undefined || extra === undefined) return undefined;
  return { kind: "embouchure", length, width, chimney, cover, stopper, extra };
}

function hasStopper(draft: Omit<Draft, "mouth">): boolean {
  return traitsOf(draft)?.hasStopper ?? true;
}

/** The number at `path`; the stand-in only where nothing is written there, so that a bad number is not papered over. */
function numberOr(draft: Omit<Draft, "mouth">, path: Path, standIn: number | undefined): number | undefined {
  return valueAt(draft.data, path) === undefined ? standIn : draft.numbers.at(path);
}

/** Inner diameter at `at`, or undefined while a station's number is missing. Beyond the outline the nearest station's. */
export function boreDiameterAt(bore: Draft["bore"], at: number): number | undefined {
  let before: { at: number; diameter: number } | undefined;
  for (const station of bore ?? []) {
    if (station.at === undefined || station.diameter === undefined) return undefined;
    if (station.at > at) {
      if (before === undefined) return station.diameter;
      const share = (at - before.at) / (station.at - before.at);
      return before.diameter + share * (station.diameter - before.diameter);
    }
    before = { at: station.at, diameter: station.diameter };
  }
  return before?.diameter;
}

/** As drawn or as printed. */
type MouthOpening =
  | { readonly kind: "window"; readonly cutUp: number }
  | { readonly kind: "embouchure"; readonly length: number }
  | { readonly kind: "ideal" | "correction" | "notch" | "rim" };

/** Half the mouth opening's length along the axis: how far below 0 the tube is taken up by it. */
export function mouthHalfLength(mouth: MouthOpening | undefined): number {
  if (mouth?.kind === "window") return mouth.cutUp / 2;
  return mouth?.kind === "embouchure" ? mouth.length / 2 : 0;
}
