/** What the reader of a syntax returns, YAML or JSON. */
import type { RuleCode, Severity } from "../instrument/finding.js";
import type { Span } from "./span.js";
import type { TreeNode } from "./tree.js";

/** Something wrong with the text itself. */
export interface TextProblem {
  readonly code: RuleCode;
  readonly severity: Severity;
  readonly message: string;
  readonly span: Span;
}

export interface ParsedDocument {
  readonly span: Span;
  /** Undefined where the document holds no value. */
  readonly root: TreeNode | undefined;
  readonly problems: readonly TextProblem[];
}

/** Depth of nesting beyond any design's; bounds every recursion over the tree. */
export const DEEPEST = 40;
