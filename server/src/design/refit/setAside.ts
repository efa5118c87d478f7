/** Measured notes that a refit sets aside: they belong to the instrument as it was, and would be attributed to the mouth of the next. */
import type { DesignDocument } from "../../document/designFile.js";
import { insertEntry } from "../../document/edits.js";
import type { TextEdit } from "../../document/textEdit.js";
import { nodeAt } from "../../document/tree.js";

/** Edits that mark every measured note still in use; of the document's text. */
export function settingAside(document: DesignDocument): readonly TextEdit[] {
  return document.resolution.instrument.measured.flatMap(({ path }) => {
    // What an alias stands for is written elsewhere, and may serve others.
    const isWrittenHere = nodeAt(document.root, path)?.source === undefined;
    return isWrittenHere ? insertEntry(document, path, "setAside", "true") : [];
  });
}
