/** The one line a print scale changes. */
import type { DesignDocument, Syntax } from "../../document/designFile.js";
import { insertEntry, setNumber, setText } from "../../document/edits.js";
import type { TextEdit } from "../../document/textEdit.js";
import { nodeAt } from "../../document/tree.js";

/** Slicers take hundredths of a percent; one is 0.17 cent. Common practice, no source. */
const DECIMALS = 2;

/** A print scale in percent as written. */
export function printScalePercent(scale: number): number {
  return Number((100 * scale).toFixed(DECIMALS));
}

/** Edits that multiply the print scale by `factor`, writing `print.scale` where there is none. */
export function printScaleEdits(document: DesignDocument, syntax: Syntax, factor: number): readonly TextEdit[] {
  const percent = printScalePercent(document.resolution.instrument.printScale * factor);
  const present = nodeAt(document.root, ["print", "scale"]);
  if (present?.kind === "scalar") {
    const isExpression = typeof present.value === "string" && present.value.trimStart().startsWith("=");
    if (isExpression) return setText(document, ["print", "scale"], `${percent} %`);
    return setNumber(document, ["print", "scale"], percent, DECIMALS);
  }
  const value = syntax === "json" ? `"${percent} %"` : `${percent} %`;
  if (nodeAt(document.root, ["print"])?.kind === "map") return insertEntry(document, ["print"], "scale", value);
  return insertEntry(document, [], "print", syntax === "json" ? `{ "scale": ${value} }` : `{ scale: ${value} }`);
}
