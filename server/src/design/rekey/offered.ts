/** Edits of a rekeying or refit as they may be offered. */
import { type CheckedEdits, checkedEdits } from "../../document/checkedEdits.js";
import type { DesignFile } from "../../document/designFile.js";
import type { TextEdit } from "../../document/textEdit.js";
import { t } from "../../words/translation.js";
import { CannotRekey } from "./rekeyResult.js";

/** @throws CannotRekey where they would change anything but what they are meant to */
export function offered(file: DesignFile, index: number, edits: readonly TextEdit[]): CheckedEdits {
  const checked = checkedEdits(file, index, edits);
  if (checked === undefined) throw new CannotRekey(t(WRITTEN_SO));
  return checked;
}

const WRITTEN_SO =
  "the way the numbers are written (aliases, merge keys or tags, say) does not let them be changed without changing others: write them out";
