/** All rules that need the analysis, in the order in which their findings are listed. */
import { contained } from "../../instrument/contained.js";
import type { Finding } from "../../instrument/finding.js";
import type { Analysis } from "../predict/analysis.js";
import { noResonance } from "./noResonance.js";
import { outOfRange } from "./outOfRange.js";
import { outOfTune } from "./outOfTune.js";
import type { Rule } from "./rule.js";
import { weakNote } from "./weakNote.js";

export const ANALYSIS_RULES: readonly Rule[] = [outOfTune, noResonance, weakNote, outOfRange];

export function checkAnalysis(analysis: Analysis): readonly Finding[] {
  return ANALYSIS_RULES.flatMap((rule) => contained(`The rule ${rule.code}`, () => rule.check(analysis), []));
}
