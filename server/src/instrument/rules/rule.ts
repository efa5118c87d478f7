/** One thing that can be wrong with the shape of an instrument. */
import type { Body } from "../body.js";
import type { Draft } from "../draft/draft.js";
import type { Finding, RuleCode } from "../finding.js";
import type { ResolvedNumber } from "../formula/resolvedNumber.js";
import type { Fingering, MeasuredNote } from "../model.js";

export interface Rule {
  readonly code: RuleCode;
  /** What is wrong of this kind; empty where nothing is, and where a number needed is missing (which is reported elsewhere). */
  readonly check: (draft: Draft) => readonly Finding[];
}

/** One thing that can be wrong with the data of a design, before any of it is read as an instrument. */
export interface DataRule {
  readonly code: RuleCode;
  readonly check: (data: unknown) => readonly Finding[];
}

/** One thing that can be wrong with a number by itself; a number that has a finding counts as not given. */
export interface NumberRule {
  readonly code: RuleCode;
  readonly check: (numbers: readonly ResolvedNumber[], unit: "mm" | "in", data: unknown) => readonly Finding[];
}

/** One thing that can be wrong with a body that is fully drawn. */
export interface BodyRule {
  readonly code: RuleCode;
  readonly check: (body: Body) => readonly Finding[];
}

/** One thing that can be wrong with the measured notes of a design. */
export interface MeasuredRule {
  readonly code: RuleCode;
  readonly check: (measured: readonly MeasuredNote[], fingerings: readonly Fingering[]) => readonly Finding[];
}

/** Slack for comparing lengths that should meet exactly: rounding of expressions, in file units. Nothing printable. */
export const LENGTH_SLACK = 1e-9;
