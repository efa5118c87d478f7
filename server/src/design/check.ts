/** All findings of one instrument of a file: the service behind editor and command line. */
import { drained, type Steps } from "../acoustics/steps.js";
import type { DesignDocument, PlacedFinding } from "../document/designFile.js";
import { placeFinding } from "../document/place.js";
import type { Finding } from "../instrument/finding.js";
import { graded, type RuleLevels } from "../instrument/ruleLevels.js";
import { constraintsOf } from "./constraints/constraints.js";
import { makingFindings } from "./making/findings.js";
import { allowanceFor } from "./predict/allowance.js";
import { type AnalyseOptions, analyse } from "./predict/analyse.js";
import type { Analysis } from "./predict/analysis.js";
import { checkSteps } from "./rules/index.js";
import { type CheckSettings, DEFAULT_SETTINGS } from "./settings.js";

export interface CheckResult {
  readonly analysis: Analysis;
  /** Findings of reading and of the analysis, in that order. */
  readonly findings: readonly PlacedFinding[];
}

/** As far as a file of one design may go, or `options.allowance` says. @throws Cancelled when `options.shouldStop` says so */
export function checkDocument(
  document: DesignDocument,
  settings: CheckSettings = DEFAULT_SETTINGS,
  options: AnalyseOptions = {},
): CheckResult {
  const analysis = analyse(document.resolution.instrument, settings, { allowance: allowanceFor(1), ...options });
  return { analysis, findings: findingsOf(document, analysis, settings.rules) };
}

/** All findings of a document that is already analysed, graded by its `rules` and those of the settings. */
export function findingsOf(
  document: DesignDocument,
  analysis: Analysis,
  rules: RuleLevels = {},
): readonly PlacedFinding[] {
  return drained(findingSteps(document, analysis, rules));
}

/** As `findingsOf`, step by step. */
export function* findingSteps(
  document: DesignDocument,
  analysis: Analysis,
  rules: RuleLevels = {},
): Steps<readonly PlacedFinding[]> {
  const constraints = constraintsOf(document);
  let found = known.get(analysis);
  if (found?.key !== constraints.key) {
    found = { key: constraints.key, findings: yield* checkSteps(analysis, constraints, document.resolution) };
    known.set(analysis, found);
  }
  const all = [
    ...document.findings,
    ...found.findings.map((finding) => placeFinding(document, finding)),
    ...makingFindings(document),
  ];
  return graded(all, document.resolution.ruleLevels, rules);
}

/** Remedies take longer than the analysis: an edit that leaves it unchanged, such as one in a comment, reuses them. */
const known = new WeakMap<Analysis, { readonly key: string; readonly findings: readonly Finding[] }>();
