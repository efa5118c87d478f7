/** Where all notes are off together: edits that make them right on the whole. */

import type { DesignDocument } from "../../document/designFile.js";
import { parseNote } from "../../music/note.js";
import { t } from "../../words/translation.js";
import { printScaleEdits, printScalePercent } from "../rekey/printScale.js";
import { keyEdits } from "../rekey/rekey.js";
import { CannotRekey } from "../rekey/rekeyResult.js";
import type { OffTogetherData } from "../rules/offTogether.js";
import type { Fix } from "./checkedFix.js";

/** Another print scale for the stated key. */
export function printedFix(document: DesignDocument, { factor }: OffTogetherData): Fix {
  const percent = printScalePercent(document.resolution.instrument.printScale * factor);
  return {
    title: t`Print it at ${percent} %, so that the notes are in tune on the whole`,
    edits: printScaleEdits(document, document.syntax, factor),
  };
}

/** The key that this size has; undefined where there is none, or it cannot be written. */
export function renamedFix(document: DesignDocument, { key: name }: OffTogetherData): Fix | undefined {
  const from = document.resolution.instrument.key;
  const to = name === undefined ? undefined : parseNote(name);
  if (from === undefined || to === undefined) return undefined;
  try {
    return { title: t`Keep its size and call its key ${to.name}`, edits: keyEdits(document, from, to) };
  } catch (error) {
    if (error instanceof CannotRekey) return undefined; // what cannot be done is not offered
    throw error;
  }
}
