/** Writes what was fitted into the design. */
import type { DesignDocument } from "../../document/designFile.js";
import { insertEntry, setNumber } from "../../document/edits.js";
import type { TextEdit } from "../../document/textEdit.js";
import { nodeAt } from "../../document/tree.js";
import type { Calibration, FittedValue } from "./calibrate.js";

/** Edits of nothing but the fitted values; none where the design has them already. */
export function calibrationEdits(document: DesignDocument, { fitted }: Calibration): readonly TextEdit[] {
  return fitted
    .filter(({ before, after, path }) => before !== after || nodeAt(document.root, path) === undefined)
    .flatMap((value) => editsOf(document, value));
}

function editsOf(document: DesignDocument, { path, after, decimals }: FittedValue): readonly TextEdit[] {
  const [part, name] = path.map(String);
  if (part === undefined || name === undefined) return [];
  if (nodeAt(document.root, [part]) !== undefined) return setNumber(document, path, after, decimals);
  const entry = document.syntax === "json" ? `{ "${name}": ${after} }` : `{ ${name}: ${after} }`;
  return insertEntry(document, [], part, entry);
}
