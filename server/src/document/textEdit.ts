/** An edit of a design, and what it needs to know about the file. */
import type { Path } from "../instrument/finding.js";
import type { DesignDocument } from "./designFile.js";
import type { Span } from "./span.js";

export interface TextEdit {
  readonly span: Span;
  readonly text: string;
  /** The values that change by it and others with it: no other may. */
  readonly meant?: readonly Meant[];
}

/** A value that is to change, and with it all that stands in it. */
export interface Meant {
  readonly path: Path;
  /** What it should become, where that is one value: a number as worked out, a text as it reads. */
  readonly value?: number | string;
}

/** What an edit needs to know about the file. */
export type Editable = Pick<DesignDocument, "text" | "syntax" | "root" | "span">;
