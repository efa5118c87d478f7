/** A design file as read: text, the trees of its instruments, what each says, and where everything stands. */

import type { Finding, Path } from "../instrument/finding.js";
import type { Resolution } from "../instrument/model.js";
import type { Span } from "./span.js";
import type { TreeNode } from "./tree.js";

export type Syntax = "yaml" | "json";

/** A finding with its place in the text. */
export interface PlacedFinding extends Omit<Finding, "related"> {
  readonly span: Span;
  readonly related?: readonly { readonly path: Path; readonly span: Span; readonly message: string }[];
}

/** One instrument of a file. A YAML file may hold several, separated by `---`. */
export interface DesignDocument {
  /** 0-based among the documents of the file. */
  readonly index: number;
  readonly span: Span;
  /** Text of the whole file, and its syntax: what an edit of this document needs to know. */
  readonly text: string;
  readonly syntax: Syntax;
  readonly root: TreeNode | undefined;
  readonly resolution: Resolution;
  /** Syntax, schema, expression and geometry findings, placed; not the acoustic ones (those are design/'s). */
  readonly findings: readonly PlacedFinding[];
}

/** A stretch of a file that was read by itself. */
export interface Stretch {
  readonly span: Span;
  readonly documents: readonly DesignDocument[];
  /** Whether the same text means the same in any place and any file. */
  readonly standsAlone: boolean;
}

export interface DesignFile {
  readonly text: string;
  readonly syntax: Syntax;
  readonly documents: readonly DesignDocument[];
  /** From the beginning to the end, without gaps; none where the file was refused. */
  readonly stretches: readonly Stretch[];
}
