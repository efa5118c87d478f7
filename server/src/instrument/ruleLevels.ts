/** How severe each kind of finding should be, by the design's `rules` or the user's settings. */

import { t } from "../words/translation.js";
import { didYouMean, Suggestions } from "./didYouMean.js";
import type { Finding, Severity } from "./finding.js";
import { isMap, own } from "./path.js";
import { schemaAt } from "./schema.js";

export const RULE_LEVELS = ["off", "information", "warning", "error"] as const;
export type RuleLevel = (typeof RULE_LEVELS)[number];

/** By rule code. */
export type RuleLevels = Readonly<Record<string, RuleLevel>>;

/**
 * Codes whose findings may be switched off or graded. Those that are not here say that a file cannot be read or that
 * there is no such instrument: switched off, they would leave the maker without a prediction and without a reason.
 */
export const SWITCHABLE_RULES: readonly string[] = Object.keys(schemaAt(["rules"])?.properties ?? {});

export function isRuleLevel(value: unknown): value is RuleLevel {
  return (RULE_LEVELS as readonly unknown[]).includes(value);
}

/** The levels of a design that can be used; what cannot has its finding. */
export function ruleLevelsOf(data: unknown): RuleLevels {
  const rules = own(data, "rules");
  const entries = Object.entries(isMap(rules) ? rules : {});
  return Object.fromEntries(
    entries.filter(
      (entry): entry is [string, RuleLevel] => SWITCHABLE_RULES.includes(entry[0]) && isRuleLevel(entry[1]),
    ),
  );
}

/** Findings for codes under `rules` that cannot be switched. */
export function checkRuleNames(data: unknown): readonly Finding[] {
  const rules = own(data, "rules");
  const suggestions = new Suggestions();
  return Object.keys(isMap(rules) ? rules : {})
    .filter((code) => !SWITCHABLE_RULES.includes(code))
    .map((code): Finding => {
      const meant = suggestions.meant(code, SWITCHABLE_RULES);
      return {
        code: "rules/unknown-rule",
        severity: "warning",
        message: whyNot(code, meant),
        path: ["rules", code],
        on: "key",
        ...(meant === undefined ? {} : { correction: { do: "rename", to: meant } as const }),
      };
    });
}

/** Why there is nothing to switch under this code: for the design and for the settings alike. */
export function whyNot(code: string, meant = new Suggestions().meant(code, SWITCHABLE_RULES)): string {
  const name = code.length > 40 ? `${code.slice(0, 39)}…` : code;
  const hint =
    didYouMean(meant) ||
    t(" Findings of a file that cannot be read, or of an instrument that cannot be made, always stay.");
  return t`There is no finding called \`${name}\`.${hint}`;
}

/** Findings as graded: the design's own level counts before the settings', and the default where both are silent. */
export function graded<T extends { readonly code: string; readonly severity: Severity }>(
  findings: readonly T[],
  ofDesign: RuleLevels,
  ofSettings: RuleLevels,
): readonly T[] {
  return findings.flatMap((finding) => {
    const level = levelIn(ofDesign, finding.code) ?? levelIn(ofSettings, finding.code);
    if (level === undefined || level === finding.severity) return [finding];
    return level === "off" ? [] : [{ ...finding, severity: level }];
  });
}

function levelIn(levels: RuleLevels, code: string): RuleLevel | undefined {
  return Object.hasOwn(levels, code) ? levels[code] : undefined;
}
