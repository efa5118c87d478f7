/** Findings for people: one line each, then a count. */

import { findingLine } from "../../document/findingLine.js";
import { terminalLine } from "../../escape/terminal.js";
import type { CheckedFile } from "../check.js";

export function textReport(checked: readonly CheckedFile[]): string {
  const lines = checked.flatMap((file) => file.findings.map((finding) => findingLine(file, finding)));
  const all = checked.flatMap(({ findings }) => findings);
  const count = (severity: string) => all.filter((finding) => finding.severity === severity).length;
  const [errors, warnings, rest] = [count("error"), count("warning"), count("information") + count("hint")];
  const files = plural(checked.length, "file");
  const close =
    lines.length === 0
      ? "nothing found"
      : `${plural(errors, "error")}, ${plural(warnings, "warning")}${rest === 0 ? "" : `, ${rest} information`}`;
  return [...lines, `${files}: ${close}.`].map(terminalLine).join("\n");
}

function plural(count: number, singular: string): string {
  return `${count} ${singular}${count === 1 ? "" : "s"}`;
}
