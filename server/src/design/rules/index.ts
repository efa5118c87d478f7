/** All rules that need the analysis, in the order in which their findings are listed. */
import type { Steps } from "../../acoustics/steps.js";
import { containedSteps } from "../../instrument/contained.js";
import type { Finding } from "../../instrument/finding.js";
import type { Resolution } from "../../instrument/model.js";
import type { Constraints } from "../constraints/constraints.js";
import type { Analysis } from "../predict/analysis.js";
import { noResonance } from "./noResonance.js";
import { notPredicted } from "./notPredicted.js";
import { outOfRange } from "./outOfRange.js";
import { outOfTune } from "./outOfTune.js";
import type { Rule } from "./rule.js";
import { twoResonances } from "./twoResonances.js";
import { weakNote } from "./weakNote.js";

export const ANALYSIS_RULES: readonly Rule[] = [
  outOfTune,
  noResonance,
  notPredicted,
  twoResonances,
  weakNote,
  outOfRange,
];

/** What all rules find, step by step. */
export function* checkSteps(
  analysis: Analysis,
  constraints: Constraints,
  resolution: Resolution,
): Steps<readonly Finding[]> {
  const findings: Finding[] = [];
  for (const rule of ANALYSIS_RULES) {
    yield undefined;
    findings.push(
      ...(yield* containedSteps(`The rule ${rule.code}`, () => checked(rule, analysis, constraints, resolution), [])),
    );
  }
  return findings;
}

function* checked(
  rule: Rule,
  analysis: Analysis,
  constraints: Constraints,
  resolution: Resolution,
): Steps<readonly Finding[]> {
  const found = rule.check(analysis, constraints, resolution);
  return "next" in found ? yield* found : found;
}
