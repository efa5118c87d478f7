/** The tubes and drills at hand that a design names. */
import { MILLIMETRES_PER_INCH } from "../defaults.js";
import type { Draft } from "../draft/draft.js";
import { valueAt } from "../path.js";
import { printingOf } from "../printed/printing.js";

/** Diameters in mm, narrowest first; undefined where none are named or one of them is not known. */
export function stockOf(draft: Draft, kind: "bores" | "drills"): readonly number[] | undefined {
  const list = valueAt(draft.data, ["stock", kind]);
  if (!Array.isArray(list) || list.length === 0) return undefined;
  const units = valueAt(draft.data, ["stock", "units"]);
  const unit = units === "in" ? MILLIMETRES_PER_INCH : units === "mm" ? 1 : printingOf(draft).unitMillimetres;
  const sizes = list.flatMap((_, i) => {
    const size = draft.numbers.at(["stock", kind, i]);
    return size !== undefined && size > 0 ? [size * unit] : [];
  });
  return sizes.length === list.length ? sizes.sort((a, b) => a - b) : undefined;
}
