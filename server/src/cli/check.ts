/** `borewright check PATH…`: every finding in files and folders. */
import { InvalidArgumentError } from "commander";
import { checkDocument } from "../design/check.js";
import type { CheckSettings } from "../design/settings.js";
import type { PlacedFinding } from "../document/designFile.js";
import type { Severity } from "../instrument/finding.js";
import { isRuleLevel, RULE_LEVELS, type RuleLevels, SWITCHABLE_RULES, whyNot } from "../instrument/ruleLevels.js";
import type { ReadFile } from "./files.js";

export type { CheckSettings };

export interface CheckedFile {
  readonly read: ReadFile;
  readonly findings: readonly PlacedFinding[];
}

/** From the gravest down. */
const SEVERITIES: readonly Severity[] = ["error", "warning", "information", "hint"];
export const FAIL_ON = [...SEVERITIES, "never"] as const;
export type FailOn = (typeof FAIL_ON)[number];

/** `--rule hands/out-of-reach=off`, as often as wanted. @throws InvalidArgumentError */
export function ruleLevel(text: string, before: RuleLevels = {}): RuleLevels {
  const [code = "", level] = text.split("=");
  if (!SWITCHABLE_RULES.includes(code)) throw new InvalidArgumentError(whyNot(code));
  if (!isRuleLevel(level)) throw new InvalidArgumentError(`write ${code}= and one of ${RULE_LEVELS.join(", ")}.`);
  return { ...before, [code]: level };
}

export function checkFile(read: ReadFile, settings: CheckSettings): CheckedFile {
  const findings = read.design.documents.flatMap((document) => checkDocument(document, settings).findings);
  return { read, findings: [...findings].sort((a, b) => a.span.start - b.span.start) };
}

export function fails(checked: readonly CheckedFile[], failOn: FailOn): boolean {
  if (failOn === "never") return false;
  const limit = SEVERITIES.indexOf(failOn);
  return checked.some(({ findings }) => findings.some(({ severity }) => SEVERITIES.indexOf(severity) <= limit));
}
