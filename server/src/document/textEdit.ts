/** What an edit of a design is, and what it needs to know of it. */
import type { Path } from "../instrument/finding.js";
import type { DesignDocument } from "./designFile.js";
import type { Span } from "./span.js";

export interface TextEdit {
  readonly span: Span;
  readonly text: string;
  /** The values that change by it and others beside it: no other may. */
  readonly meant?: readonly Meant[];
}

/** A value that is to change, and with it all that stands in it. */
export interface Meant {
  readonly path: Path;
  /** What it is to be, where that is one value: a number as it is worked out, a text as it reads. */
  readonly value?: number | string;
}

/** What an edit needs to know of the file. */
export type Editable = Pick<DesignDocument, "text" | "syntax" | "root" | "span">;
