/** The differences between two versions of a design: every number and every word, by its name, in the maker's unit. */
import { MILLIMETRES_PER_INCH } from "../instrument/defaults.js";
import type { Path } from "../instrument/finding.js";
import type { ResolvedNumber } from "../instrument/formula/resolvedNumber.js";
import { isMap, pathKey } from "../instrument/path.js";
import { placeInWords } from "../instrument/placeInWords.js";
import type { DesignDocument } from "./designFile.js";

export interface Described {
  readonly document: Pick<DesignDocument, "resolution">;
  /** What the file says, as plain maps and lists. */
  readonly data: unknown;
}

export type Value = string | number | boolean | null;

export interface DimensionChange {
  /** In the new design; in the old one where the new one has no such value. */
  readonly path: Path;
  /** `` `diameter` of L1 ``, with the maker's own names in it as they are. */
  readonly name: string;
  /** In the new design's unit; undefined where the design does not say. */
  readonly old: Value | undefined;
  readonly next: Value | undefined;
  /** `mm`, `in`, `cents`, …; empty for words and plain numbers. */
  readonly unit: string;
  /** The formula it follows in the new design, so that the change may be another's. */
  readonly formula: string | undefined;
}

/** Smaller changes are what conversion of units and formulas leaves. */
const RELATIVE_SLACK = 1e-9;

type Identity = (path: Path, side: "old" | "next") => string;

/**
 * In the order of the new design, then what it does not say any more.
 * @param identity one text for a place of either design, alike where the place is the same; by the path itself where it is not given
 */
export function dimensionChanges(
  old: Described,
  next: Described,
  identity: Identity = (path) => pathKey(path),
): readonly DimensionChange[] {
  const [before, after] = [entriesOf(old, "old", identity), entriesOf(next, "next", identity)];
  const toNext = millimetresIn(old) / millimetresIn(next);
  const changes: DimensionChange[] = [];
  for (const [key, entry] of after) {
    const was = before.get(key);
    const oldValue = was && converted(was, toNext);
    if (was === undefined || !alike(oldValue, entry.value))
      changes.push({ ...described(entry, next), old: oldValue, next: entry.value });
  }
  for (const [key, entry] of before)
    if (!after.has(key))
      changes.push({
        ...described(entry, old),
        unit: unitOf(entry, next),
        old: converted(entry, toNext),
        next: undefined,
      });
  return changes;
}

interface Entry {
  readonly path: Path;
  readonly value: Value;
  readonly number: ResolvedNumber | undefined;
}

function entriesOf(
  { document, data }: Described,
  side: "old" | "next",
  identity: Identity,
): ReadonlyMap<string, Entry> {
  const numbers = new Map(document.resolution.numbers.map((number) => [pathKey(number.path), number]));
  const entries = new Map<string, Entry>();
  const walk = (value: unknown, path: Path): void => {
    if (Array.isArray(value)) for (const [i, item] of value.entries()) walk(item, [...path, i]);
    else if (isMap(value)) for (const [key, item] of Object.entries(value)) walk(item, [...path, key]);
    else if (!isFingering(path)) {
      const number = numbers.get(pathKey(path));
      const said = number?.value ?? (value as Value);
      entries.set(identity(path, side), { path, value: said, number });
    }
  };
  walk(data, []);
  return entries;
}

/** How a fingering is drawn is reported with its note: one more hole does not make another fingering, and ● is the same as x. */
function isFingering([list, , property]: Path): boolean {
  return list === "fingerings" && property === "holes";
}

function described({ path, number }: Entry, version: Described) {
  return {
    path,
    name: placeInWords(path, version.data),
    unit: unitOf({ number }, version),
    formula: number?.expression,
  };
}

function converted({ value, number }: Pick<Entry, "value" | "number">, toNext: number): Value {
  return number?.quantity === "length" && typeof value === "number" ? value * toNext : value;
}

function alike(a: Value | undefined, b: Value): boolean {
  // Two infinities have no difference.
  if (Object.is(a, b)) return true;
  if (typeof a !== "number" || typeof b !== "number") return false;
  return Math.abs(a - b) <= RELATIVE_SLACK * Math.max(Math.abs(a), Math.abs(b));
}

function millimetresIn({ document }: Described): number {
  return document.resolution.draft.unit === "in" ? MILLIMETRES_PER_INCH : 1;
}

function unitOf({ number }: Pick<Entry, "number">, { document }: Described): string {
  switch (number?.quantity) {
    case "length":
      return document.resolution.draft.unit;
    case "volume":
      return "cm³";
    case "cents":
      return "cents";
    case "frequency":
      return "Hz";
    case "temperature":
      return "°C";
    case "percent":
      return "%";
    case "speed":
      return "m/s";
    default:
      return "";
  }
}

/** `` `at` of L1: 205.3 → 207.1 mm (+1.8), =top + 40 ``: name, change, and the formula it follows. */
export function changeLine(change: DimensionChange): string {
  const { name, formula } = change;
  return `${name}: ${changeOf(change)}${formula === undefined ? "" : `, =${formula}`}`;
}

/** `205.3 → 207.1 mm (+1.8)`, `equal → just`, `– → 7 mm`. */
export function changeOf({ old, next, unit }: DimensionChange): string {
  const shown = `${valueText(old)} → ${valueText(next)}${unit === "" ? "" : ` ${unit}`}`;
  if (typeof old !== "number" || typeof next !== "number") return shown;
  const by = tidy(next - old);
  return `${shown} (${by < 0 ? `−${valueText(-by)}` : `+${valueText(by)}`})`;
}

/** A value as a maker writes it; what conversion of units leaves behind the fourth decimal is not shown. */
export function valueText(value: Value | undefined): string {
  if (value === undefined) return "–";
  return typeof value === "number" ? String(tidy(value)).replace("-", "−") : String(value);
}

function tidy(value: number): number {
  return Number(value.toFixed(4));
}
