/** One of the two designs that are compared: what it says, what it plays, what is found in it. */
import { findingsOf } from "../design/check.js";
import { type AnalyseOptions, analyse } from "../design/predict/analyse.js";
import type { Analysis } from "../design/predict/analysis.js";
import type { CheckSettings } from "../design/settings.js";
import type { DesignDocument, PlacedFinding } from "../document/designFile.js";
import { dataOf } from "../document/treeData.js";

export interface Version {
  readonly document: DesignDocument;
  /** What the file says, as plain maps and lists. */
  readonly data: unknown;
  readonly analysis: Analysis;
  readonly findings: readonly PlacedFinding[];
}

/** @throws Cancelled when `options.shouldStop` says so */
export function versionOf(document: DesignDocument, settings: CheckSettings, options: AnalyseOptions = {}): Version {
  const analysis = analyse(document.resolution.instrument, settings, options);
  return analysedVersion(document, analysis, findingsOf(document, analysis, settings.rules));
}

/** The same where analysis and findings are at hand. */
export function analysedVersion(
  document: DesignDocument,
  analysis: Analysis,
  findings: readonly PlacedFinding[],
): Version {
  return { document, data: dataOf(document.root), analysis, findings };
}
