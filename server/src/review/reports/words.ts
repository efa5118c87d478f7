/** What all reports say alike. */
import { signedCents } from "../../design/wording.js";
import type { DimensionChange } from "../../document/dimensionChanges.js";
import { t, told } from "../../words/translation.js";
import type { List } from "../match/correspondence.js";
import type { MeasureChange } from "../measures.js";
import type { NoteChange } from "../notes.js";
import type { StructureChange } from "../structure.js";

export const NOTE_HEADER = [
  told("note"),
  told("holes"),
  told("register"),
  told("old"),
  told("new"),
  told("change"),
  "",
] as const;
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
  const word = state === "same" ? "" : state === "unknown" ? t("not predicted") : t(state);
  const limit = leftTolerance ? t`left ±${tolerance}` : cameIntoTolerance ? t`now within ±${tolerance}` : "";
  return [word, limit, fingeredAnew ? t("fingered differently") : ""].filter(Boolean).join(", ");
}

const THINGS: Readonly<Record<List, string>> = {
  holes: told("hole"),
  bore: told("station"),
  pipes: told("pipe"),
  fingerings: told("fingering"),
  measured: told("measured note"),
};

const REORDERED: Readonly<Record<List, string>> = {
  holes: told("the holes stand in another order"),
  bore: told("the stations stand in another order"),
  pipes: told("the pipes stand in another order"),
  fingerings: told("the fingerings stand in another order"),
  measured: told("the measured notes stand in another order"),
};

/** `added: L4`, `renamed: L1 is now A`, `the holes stand in another order`. */
export function structureText({ kind, list, old, next }: StructureChange, written = (name: string) => name): string {
  const one = t(THINGS[list]);
  const named = (name: string) => (name.startsWith(`${one} `) ? name : `${one} ${written(name)}`);
  switch (kind) {
    case "added":
      return t`${named(next)} added`;
    case "removed":
      return t`${named(old)} removed`;
    case "renamed":
      return t`${named(old)} renamed ${written(next)}`;
    case "reordered":
      return t(REORDERED[list]);
  }
}

/** `31.2 → 33.0 mm`. */
export function measureText({ old, next, decimals, unit }: MeasureChange): string {
  const shown = (value: number | undefined) => value?.toFixed(decimals) ?? "–";
  return `${shown(old)} → ${shown(next)} ${unit}`;
}

/**
 * Dimensions of a thing that was added or removed follow from that: only its place and size are worth a line. A new name is reported
 * with the thing itself.
 */
export function isWorthALine({ path, old, next }: DimensionChange): boolean {
  const [list, , property] = path;
  if ((list === "holes" || list === "bore") && property === "name") return false;
  if (list === "fingerings" || list === "measured") return old !== undefined && next !== undefined;
  if (list !== "holes" && list !== "bore" && list !== "pipes") return true;
  return (old !== undefined && next !== undefined) || ["at", "diameter", "length"].includes(String(property));
}
