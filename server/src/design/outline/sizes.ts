/** Lengths of a design in millimetres. */
import type { Draft } from "../../instrument/draft/draft.js";
import type { Path } from "../../instrument/finding.js";
import { valueAt } from "../../instrument/path.js";
import { printingOf } from "../../instrument/printed/printing.js";

/** As drawn, or as laid on the printer's bed: with the print scale. */
export type Sizing = "drawn" | "laid";

export class Sizes {
  /** mm for one unit of length of the file, with the print scale and without. */
  readonly unit: number;
  readonly millimetres: number;

  constructor(
    readonly draft: Draft,
    sizing: Sizing,
    /** What was assumed, in words; `say` adds to it. */
    readonly assumed: string[] = [],
  ) {
    const { unitMillimetres, printScale } = printingOf(draft);
    this.millimetres = unitMillimetres;
    this.unit = unitMillimetres * (sizing === "laid" ? printScale : 1);
  }

  /** Of a length of the draft. */
  mm(value: number): number;
  mm(value: number | undefined): number | undefined;
  mm(value: number | undefined): number | undefined {
    return value === undefined ? undefined : value * this.unit;
  }

  /** Of the number written at `path`. */
  at(...path: Path): number | undefined {
    return this.mm(this.draft.numbers.at(path));
  }

  /** The same, or the usual value where nothing usable is written; `what` names it among the assumptions. */
  or(path: Path, usual: number, what?: string): number {
    const written = this.at(...path);
    if (written === undefined && what !== undefined) this.say(`${what} ${inWords(usual)}`);
    return written ?? usual;
  }

  /** A number that is not a length, such as an angle. */
  plain(path: Path, usual: number): number {
    return this.draft.numbers.at(path) ?? usual;
  }

  word(...path: Path): unknown {
    return valueAt(this.draft.data, path);
  }

  say(assumption: string): void {
    if (!this.assumed.includes(assumption)) this.assumed.push(assumption);
  }
}

/** `1.2 mm`: to a hundredth, no trailing noughts. */
export function inWords(mm: number): string {
  return `${Number(mm.toFixed(2))} mm`;
}
