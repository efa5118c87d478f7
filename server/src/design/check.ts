/** Everything there is to say about one instrument of a file: the one service behind editor and command line. */
import type { DesignDocument, PlacedFinding } from "../document/designFile.js";
import { placeFinding } from "../document/place.js";
import { type AnalyseOptions, analyse } from "./analyse.js";
import type { Analysis } from "./analysis.js";
import { checkAnalysis } from "./rules/index.js";
import { type AnalysisSettings, DEFAULT_SETTINGS } from "./settings.js";

export interface CheckResult {
  readonly analysis: Analysis;
  /** Findings of reading and of the analysis, in that order. */
  readonly findings: readonly PlacedFinding[];
}

/** @throws Cancelled when `options.shouldStop` says so */
export function checkDocument(
  document: DesignDocument,
  settings: AnalysisSettings = DEFAULT_SETTINGS,
  options: AnalyseOptions = {},
): CheckResult {
  const analysis = analyse(document.resolution.instrument, settings, options);
  return { analysis, findings: findingsOf(document, analysis) };
}

/** All findings of a document whose analysis is at hand already. */
export function findingsOf(document: DesignDocument, analysis: Analysis): readonly PlacedFinding[] {
  return [...document.findings, ...checkAnalysis(analysis).map((finding) => placeFinding(document, finding))];
}
