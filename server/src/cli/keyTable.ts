/** `borewright rekey FILE --table`: print scales and lengths for every key within an octave, pure ratios beside them. */
import type { Analysis } from "../design/predict/analysis.js";
import { printScaleFactors } from "../design/rekey/keyTable.js";
import { table } from "../escape/table.js";

/** A row a key: what to print at, how long it becomes, and whether a simple ratio lands on the note or between. */
export function keyTable(analysis: Analysis): readonly string[] {
  const { unitMillimetres } = analysis.instrument;
  const inches = unitMillimetres !== 1;
  const rows = printScaleFactors(analysis).map(({ key, percent, lengthMillimetres, pure }) => [
    key.name,
    percent.toFixed(2),
    (lengthMillimetres / unitMillimetres).toFixed(inches ? 1 : 0),
    pure === undefined ? "" : pure.ratio,
    pure === undefined ? "" : (100 * pure.factor).toFixed(2),
    pure === undefined ? "" : landing(pure.cents),
  ]);
  return table(
    ["key", "print %", `length ${inches ? "in" : "mm"}`, "pure ratio", "ratio %", "the ratio lands"],
    ["left", "right", "right", "right", "right", "left"],
    rows,
  );
}

/** Within this many cents a round ratio is as good as the note; the smallest difference listeners hear is about 5. */
const ON_THE_NOTE = 5;

function landing(cents: number): string {
  if (Math.abs(cents) <= ON_THE_NOTE) return "on the note";
  return `between: ${Math.abs(cents).toFixed(0)} cents ${cents < 0 ? "flat" : "sharp"}`;
}
