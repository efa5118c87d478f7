/** What a change of key did to the size of an instrument, in words, alike on the command line and in the editor. */
import type { Instrument } from "../../instrument/model.js";
import type { RekeyResult } from "./rekeyResult.js";

/** `print at 89.09 %`, `every dimension 112.20 % of what it was`, `9 dimensions changed, the hollow is 98.50 % as long and wide`. */
export function changeInWords({ by, factor, printScalePercent, moves, after }: RekeyResult): string {
  if (by === "print-scale") return `print at ${printScalePercent} %`;
  const percent = percentInWords(factor);
  if (by === "redraw") return `every dimension ${percent} of what it was`;
  const changed = `${moves.length === 0 ? "no" : moves.length} dimension${moves.length === 1 ? "" : "s"} changed`;
  const { subject, as } = sizeOf(after.instrument);
  const same = percent === percentInWords(1);
  return `${changed}, ${subject} ${same ? `stays as ${as} as it was` : `is ${percent} as ${as}`}`;
}

/** `G4 → A4`, or the key alone where it stays. */
export function keysInWords({ from, to }: Pick<RekeyResult, "from" | "to">, arrow: string): string {
  return from.name === to.name ? from.name : `${from.name} ${arrow} ${to.name}`;
}

export function percentInWords(factor: number): string {
  return `${(100 * factor).toFixed(2)} %`;
}

/** What the factor of a refit is the factor of. */
function sizeOf({ pipes, vessel }: Instrument): { readonly subject: string; readonly as: string } {
  if (pipes !== undefined) return { subject: "the longest pipe", as: "long" };
  if (vessel !== undefined) return { subject: "the hollow", as: "long and wide" };
  return { subject: "the bore", as: "long" };
}
