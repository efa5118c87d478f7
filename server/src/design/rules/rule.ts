/** The shape of every rule that needs the analysis: one module per rule, its code, its check. */
import type { Steps } from "../../acoustics/steps.js";
import type { Finding, RuleCode } from "../../instrument/finding.js";
import type { Resolution } from "../../instrument/model.js";
import type { Constraints } from "../constraints/constraints.js";
import type { Analysis } from "../predict/analysis.js";

export interface Rule {
  readonly code: RuleCode;
  /** Step by step where it searches. @param constraints what the design allows to be proposed @param resolution the design as resolved */
  check(
    analysis: Analysis,
    constraints: Constraints,
    resolution: Resolution,
  ): readonly Finding[] | Steps<readonly Finding[]>;
}
