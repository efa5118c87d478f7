/** Examples of the schema made to fit the design: fingerings with a sign for each of its holes, limits round the present value. */
import type { DesignDocument } from "../../document/designFile.js";
import { numberAt } from "../../document/designNumbers.js";
import type { Path } from "../../instrument/finding.js";
import { schemaAt } from "../schema.js";

export function adapted(document: DesignDocument, path: Path, example: unknown): unknown {
  if (schemaAt(path)?.["x-format"] === "fingering") return pattern(document, example);
  if (path.at(-1) === "limits") return limits(document, path) ?? example;
  if (path.at(-2) === "limits") return around(document, path) ?? example;
  if (Array.isArray(example)) return example.map((item, i) => adapted(document, [...path, i], item));
  if (typeof example !== "object" || example === null) return example;
  const entries = Object.entries(example).map(([name, value]) => [name, adapted(document, [...path, name], value)]);
  return Object.fromEntries(entries);
}

/** All closed, where the example has another number of holes. */
function pattern({ resolution }: DesignDocument, example: unknown): unknown {
  const count = resolution.instrument.holes.length;
  return count === 0 || (typeof example === "string" && example.length === count) ? example : "●".repeat(count);
}

function limits(document: DesignDocument, path: Path): Record<string, unknown> | undefined {
  const all = Object.keys(schemaAt(path)?.properties ?? {}).flatMap((name) => {
    const own = around(document, [...path, name]);
    return own === undefined ? [] : [[name, own] as const];
  });
  return all.length === 0 ? undefined : Object.fromEntries(all);
}

/** How far on either side, as a share of the value: a starting point, not advice. */
const SHARES = new Map([
  ["at", 0.03],
  ["diameter", 0.15],
]);
/** Digits of a length as drawn, in millimetres and in inches. */
const DIGITS = { mm: 1, inches: 3 };
/** No closer than this many of the last digit. */
const LEAST = 10;

/** Least and greatest, the present value between them. */
function around(document: DesignDocument, path: Path): readonly [number, number] | undefined {
  const name = String(path.at(-1));
  const share = SHARES.get(name);
  const value = numberAt(document, [...path.slice(0, -2), name])?.value;
  if (share === undefined || value === undefined || !Number.isFinite(value)) return undefined;
  const digits = document.resolution.instrument.unitMillimetres === 1 ? DIGITS.mm : DIGITS.inches;
  const spread = Math.max(Math.abs(value) * share, LEAST / 10 ** digits);
  return [Number((value - spread).toFixed(digits)), Number((value + spread).toFixed(digits))];
}
