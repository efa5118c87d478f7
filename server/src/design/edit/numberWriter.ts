/** Numbers written into a design one after the other; one that others refer to comes first, and they are put right after. */

import { TextChanges } from "../../document/changes.js";
import type { DesignDocument, DesignFile } from "../../document/designFile.js";
import { numberAt } from "../../document/designNumbers.js";
import { readDesign } from "../../document/read.js";
import type { TextEdit } from "../../document/textEdit.js";
import type { Path } from "../../instrument/finding.js";
import type { Move } from "../refit/move.js";
import { drawnDecimals, toDrawn } from "../wording.js";
import { changeNumber } from "./numberEdit.js";

export class NumberWriter {
  /** The design as it has become. */
  document: DesignDocument;
  readonly moves: Move[] = [];
  private readonly changes: TextChanges;

  constructor(
    private readonly file: Pick<DesignFile, "syntax">,
    private readonly original: DesignDocument,
  ) {
    this.document = original;
    this.changes = new TextChanges(original.text);
  }

  /** @param value in the file's unit, rounded to `decimals` when it is written */
  write(path: Path, value: number, decimals: number): void {
    const to = Number(value.toFixed(decimals));
    const from = numberAt(this.original, path)?.value;
    if (from !== undefined && Number(from.toFixed(decimals)) !== to) this.moves.push({ path, from, to });
    const edits = changeNumber(this.document, path, value, decimals);
    if (edits.length === 0) return;
    this.changes.make(edits);
    this.document = readDesign(this.changes.text, this.file.syntax).documents[this.document.index] ?? this.document;
  }

  /** A length, as the drawing's rounding has it. @param value in the file's unit */
  writeDrawn(path: Path, value: number): void {
    const { instrument } = this.original.resolution;
    this.write(path, toDrawn(value, instrument), drawnDecimals(instrument));
  }

  get edits(): readonly TextEdit[] {
    return this.changes.edits;
  }
}
