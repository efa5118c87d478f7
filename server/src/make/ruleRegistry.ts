/** Every kind of finding that there is, by its code. Each has its page `docs/rules/area-rule.md`. */
import { MAKING_RULES, PREDICTION_RULES } from "../design/aboutRules.js";
import { DOCUMENT_RULES } from "../document/aboutRules.js";
import type { AboutRule, AboutRules } from "../instrument/aboutRule.js";
import { INSTRUMENT_RULES } from "../instrument/aboutRules.js";
import { SOLID_RULES } from "./aboutRules.js";

export const RULE_REGISTRY: AboutRules = {
  ...PREDICTION_RULES,
  ...INSTRUMENT_RULES,
  ...DOCUMENT_RULES,
  ...MAKING_RULES,
  ...SOLID_RULES,
};

/** `A pipe without a note. Warning by default.` */
export function ruleInWords({ title, severity, otherwise }: AboutRule): string {
  const level = severity.charAt(0).toUpperCase() + severity.slice(1);
  return `${title} ${level} by default${otherwise === undefined ? "" : `, ${otherwise}`}.`;
}
