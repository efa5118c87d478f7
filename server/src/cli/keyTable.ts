/** `borewright rekey FILE --table`: print scales and lengths for every key within an octave, pure ratios beside them. */
import type { Analysis } from "../design/predict/analysis.js";
import { printScaleFactors } from "../design/rekey/keyTable.js";
import { ON_THE_NOTE } from "../design/rekey/playsAs.js";
import type { AnalysisSettings } from "../design/settings.js";
import { spaced, table } from "../escape/table.js";
import type { Resolution } from "../instrument/model.js";
import type { ReadFile } from "./files.js";
import { analyseFile } from "./pitch.js";

/** The table of every instrument of a file. @throws UnusableInput where one of them cannot be predicted, saying why */
export function keyTables(read: ReadFile, settings: AnalysisSettings): readonly string[] {
  const analyses = analyseFile(read, settings);
  return spaced(
    read.design.documents.flatMap(({ resolution }, i) => {
      const analysis = analyses[i];
      return analysis === undefined ? [] : [keyTable(resolution, analysis)];
    }),
  );
}

/** One row per key: what to print at, how long it becomes, and whether a simple ratio lands on the note or between. */
function keyTable(resolution: Resolution, analysis: Analysis): readonly string[] {
  const { unitMillimetres } = analysis.instrument;
  const inches = unitMillimetres !== 1;
  const rows = printScaleFactors(resolution, analysis).map(({ key, percent, lengthMillimetres, pure }) => [
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

function landing(cents: number): string {
  if (Math.abs(cents) <= ON_THE_NOTE) return "on the note";
  return `between: ${Math.abs(cents).toFixed(0)} cents ${cents < 0 ? "flat" : "sharp"}`;
}
