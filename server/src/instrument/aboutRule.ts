/**
 * What is known about a kind of finding: the registry of rules. Each layer has a table of its own codes (`aboutRules.ts`), and
 * make/ruleRegistry.ts puts them together. From it come, by `npm run generate`, the property `rules` of the schema, the setting
 * `borewright.rules` and the index of docs/rules; and the severity that SARIF names.
 */
import type { RuleCode, Severity } from "./finding.js";

export type InstrumentKind = "tube" | "panpipe" | "vessel";

export interface AboutRule {
  /** What is found, in one sentence; docs/rules has the page. */
  readonly title: string;
  /** How severe it is by default. */
  readonly severity: Severity;
  /** Where it is more or less severe than that: goes on after "Warning by default, ". */
  readonly otherwise?: string;
  /**
   * Whether a maker may switch it off or grade it. Not where it says that a file cannot be read or that there is no such
   * instrument: switched off, it would leave the maker without a prediction and without a reason.
   */
  readonly canBeSwitched?: true;
  /** Which instruments it applies to; all where left out. */
  readonly kinds?: readonly InstrumentKind[];
}

export type AboutRules = Readonly<Record<RuleCode, AboutRule>>;
