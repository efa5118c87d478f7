/** What all reports say alike. */
import { signedCents } from "../../design/wording.js";
import type { DimensionChange } from "../../document/dimensionChanges.js";
import type { List } from "../match/correspondence.js";
import type { MeasureChange } from "../measures.js";
import type { NoteChange } from "../notes.js";
import type { StructureChange } from "../structure.js";

export const NOTE_HEADER = ["note", "holes", "register", "old", "new", "change", ""] as const;
export const NOTE_ALIGN = ["left", "left", "right", "right", "right", "right", "left"] as const;

/** A row of the table of notes: note, holes, register, old, new and change in cents, and what that means. */
export function noteRow(note: NoteChange, tolerance: number): readonly string[] {
  const { old, next, change } = note;
  return [
    either(old?.fingering.target?.name, next?.fingering.target?.name, "?"),
    next?.fingering.pattern ?? old?.fingering.pattern ?? "?",
    either(old && String(old.fingering.register), next && String(next.fingering.register), "?"),
    shownCents(old?.cents),
    shownCents(next?.cents),
    shownCents(change),
    meaning(note, tolerance),
  ];
}

/** What both say alike once, `A → B` where they differ. */
function either(old: string | undefined, next: string | undefined, neither: string): string {
  if (old === undefined || next === undefined || old === next) return next ?? old ?? neither;
  return `${old} → ${next}`;
}

function shownCents(cents: number | undefined): string {
  return cents === undefined ? "–" : signedCents(cents);
}

function meaning({ state, leftTolerance, cameIntoTolerance, fingeredAnew }: NoteChange, tolerance: number): string {
  const word = state === "same" ? "" : state === "unknown" ? "not predicted" : state;
  const limit = leftTolerance ? `left ±${tolerance}` : cameIntoTolerance ? `now within ±${tolerance}` : "";
  return [word, limit, fingeredAnew ? "fingered anew" : ""].filter(Boolean).join(", ");
}

const THINGS: Readonly<Record<List, readonly [one: string, several: string]>> = {
  holes: ["hole", "holes"],
  bore: ["station", "stations"],
  pipes: ["pipe", "pipes"],
  fingerings: ["fingering", "fingerings"],
  measured: ["measured note", "measured notes"],
};

/** `added: L4`, `renamed: L1 is now A`, `the holes stand in another order`. */
export function structureText({ kind, list, old, next }: StructureChange, written = (name: string) => name): string {
  const [one, several] = THINGS[list];
  const named = (name: string) => (name.startsWith(`${one} `) ? name : `${one} ${written(name)}`);
  switch (kind) {
    case "added":
      return `${named(next)} added`;
    case "removed":
      return `${named(old)} removed`;
    case "renamed":
      return `${named(old)} renamed ${written(next)}`;
    case "reordered":
      return `the ${several} stand in another order`;
  }
}

/** `31.2 → 33.0 mm`. */
export function measureText({ old, next, decimals, unit }: MeasureChange): string {
  const shown = (value: number | undefined) => value?.toFixed(decimals) ?? "–";
  return `${shown(old)} → ${shown(next)} ${unit}`;
}

/**
 * Dimensions of a thing that came or went follow from its coming and going: only its place and size are worth a line. A new name
 * is told of the thing itself.
 */
export function isWorthALine({ path, old, next }: DimensionChange): boolean {
  const [list, , property] = path;
  if ((list === "holes" || list === "bore") && property === "name") return false;
  if (list === "fingerings" || list === "measured") return old !== undefined && next !== undefined;
  if (list !== "holes" && list !== "bore" && list !== "pipes") return true;
  return (old !== undefined && next !== undefined) || ["at", "diameter", "length"].includes(String(property));
}
