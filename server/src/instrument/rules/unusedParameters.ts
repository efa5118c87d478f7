/** parameter/unused: a parameter that no formula uses. */

import { t } from "../../words/translation.js";
import type { Finding, RuleCode } from "../finding.js";
import { isParameterName } from "../formula/expression.js";
import type { Numbers } from "../numbers.js";
import { isMap, own } from "../path.js";

const UNUSED: RuleCode = "parameter/unused";

/** None while a formula cannot be read: it may be about to use them. */
export function unusedParameters(data: unknown, numbers: Numbers): readonly Finding[] {
  const parameters = own(data, "parameters");
  if (!isMap(parameters) || numbers.findings.some(({ code }) => code.startsWith("expression/"))) return [];
  const used = new Set(numbers.nameUses().flatMap(({ to: [part, name] }) => (part === "parameters" ? [name] : [])));
  return (
    Object.keys(parameters)
      // Another name has its own finding.
      .filter((name) => !used.has(name) && isParameterName(name))
      .map((name) => ({
        code: UNUSED,
        severity: "hint" as const,
        message: t`No formula uses \`${name}\`. Use it, as \`=${name}\`, or remove it.`,
        path: ["parameters", name],
        on: "key" as const,
      }))
  );
}
