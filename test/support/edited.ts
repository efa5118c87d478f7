/** Edits of designs by dotted paths, as text. */
import type { Syntax } from "../../server/src/document/designFile.js";
import { applyEdits, insertEntry, setNumber, setText } from "../../server/src/document/edits.js";
import type { Path } from "../../server/src/instrument/finding.js";
import { documentOf, fileOf } from "./designs.js";

export const read = (text: string, syntax: Syntax = "yaml") => documentOf(fileOf(text, syntax));
export const pathOf = (dotted: string): Path =>
  dotted === "" ? [] : dotted.split(".").map((step) => (/^\d+$/.test(step) ? Number(step) : step));

export function withNumber(
  text: string,
  dotted: string,
  value: number,
  { decimals = 2, syntax = "yaml" as Syntax } = {},
): string {
  return applyEdits(text, setNumber(read(text, syntax), pathOf(dotted), value, decimals));
}
export function withText(text: string, dotted: string, value: string, syntax: Syntax = "yaml"): string {
  return applyEdits(text, setText(read(text, syntax), pathOf(dotted), value));
}
export function withEntry(text: string, dotted: string, key: string, value: string, syntax: Syntax = "yaml"): string {
  return applyEdits(text, insertEntry(read(text, syntax), pathOf(dotted), key, value));
}
