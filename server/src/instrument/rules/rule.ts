/** One thing that can be wrong with the shape of an instrument. */
import type { Draft } from "../draft.js";
import type { Finding, RuleCode } from "../finding.js";

export interface Rule {
  readonly code: RuleCode;
  /** What is wrong of this kind; empty where nothing is, and where a number needed is missing (that is told elsewhere). */
  readonly check: (draft: Draft) => readonly Finding[];
}

/** Slack for comparing lengths that should meet exactly: rounding of expressions, in file units. Nothing printable. */
export const LENGTH_SLACK = 1e-9;
