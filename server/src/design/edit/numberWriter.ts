/** Numbers written into a design: those that others refer to come first, and the others are corrected after. */

import { TextChanges } from "../../document/changes.js";
import type { DesignDocument, DesignFile } from "../../document/designFile.js";
import { numberAt } from "../../document/designNumbers.js";
import { isUnderAlias, setNumber } from "../../document/edits.js";
import { readDesign } from "../../document/read.js";
import type { TextEdit } from "../../document/textEdit.js";
import type { Path } from "../../instrument/finding.js";
import type { Move } from "../refit/move.js";
import { drawnDecimals, toDrawn } from "../wording.js";
import { changeNumber } from "./numberEdit.js";

export interface NewNumber {
  readonly path: Path;
  /** In the file's unit. */
  readonly value: number;
}

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
    this.noteMove(path, value, decimals);
    this.make(changeNumber(this.document, path, value, decimals));
  }

  /**
   * As `write`, several: plain numbers in one reading of the design, then formulas, which may follow them, one by one. Each path once.
   * A value that is right already stays as written.
   */
  writeAll(numbers: readonly NewNumber[], decimals: number): void {
    const isFormula = ({ path }: NewNumber) => numberAt(this.document, path)?.expression !== undefined;
    const formulas = numbers.filter(isFormula);
    const plain = numbers.filter((each) => !formulas.includes(each) && !this.isRight(each, decimals));
    for (const { path, value } of plain) this.noteMove(path, value, decimals);
    this.setAll(plain, decimals);
    for (const { path, value } of formulas) this.write(path, value, decimals);
  }

  /** Replaces values by numbers, formulas included; plain values in one reading of the design. */
  setAll(numbers: readonly NewNumber[], decimals: number): void {
    const set = (some: readonly NewNumber[]) =>
      this.make(some.flatMap(({ path, value }) => setNumber(this.document, path, value, decimals)));
    // Several values of one alias are written into what the first has made of it.
    const ofAliases = numbers.filter(({ path }) => isUnderAlias(this.document, path));
    set(numbers.filter((each) => !ofAliases.includes(each)));
    for (const each of ofAliases) set([each]);
  }

  /** @param edits of `document` */
  make(edits: readonly TextEdit[]): void {
    if (edits.length === 0) return;
    this.changes.make(edits);
    this.document = readDesign(this.changes.text, this.file.syntax).documents[this.document.index] ?? this.document;
  }

  private isRight({ path, value }: NewNumber, decimals: number): boolean {
    return numberAt(this.document, path)?.value.toFixed(decimals) === value.toFixed(decimals);
  }

  private noteMove(path: Path, value: number, decimals: number): void {
    const to = Number(value.toFixed(decimals));
    const from = numberAt(this.original, path)?.value;
    if (from !== undefined && Number(from.toFixed(decimals)) !== to) this.moves.push({ path, from, to });
  }

  /** A length, as the drawing's rounding has it. @param value in the file's unit */
  writeDrawn(path: Path, value: number): void {
    const { instrument } = this.original.resolution;
    this.write(path, toDrawn(value, instrument), drawnDecimals(instrument));
  }

  /** Of the text as it was at first. */
  get edits(): readonly TextEdit[] {
    return this.changes.edits;
  }
}
