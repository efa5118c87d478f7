/** A design's data as a draft. */

import { t } from "../../words/translation.js";
import { DEFAULTS } from "../defaults.js";
import { familyNamed } from "../families/index.js";
import type { Path } from "../finding.js";
import type { Numbers } from "../numbers.js";
import { own } from "../path.js";
import type { Draft, DraftHole, DraftStation } from "./draft.js";
import { mouthOf } from "./mouth.js";

/** Longest lists that are read, as in the schema: the rules compare each entry with each other. */
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

/** The list of holes as plain data; empty where there is none, or one too long to be meant. */
export function holeData(data: unknown): readonly unknown[] {
  const holes = own(data, "holes");
  return Array.isArray(holes) && holes.length <= MOST_HOLES ? holes : [];
}

/** False where `holes` is not a list: what the tube is then cannot be known. */
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
      label: named ?? t`hole ${i + 1}`,
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
