/** Findings for people: one line each, then a count. */
import type { CheckedFile } from "../check.js";
import { findingLine } from "../files.js";

export function textReport(checked: readonly CheckedFile[]): string {
  const lines = checked.flatMap(({ read, findings }) => findings.map((finding) => findingLine(read, finding)));
  const count = (severity: string) =>
    checked.reduce((sum, { findings }) => sum + findings.filter((finding) => finding.severity === severity).length, 0);
  const files = `${checked.length} ${checked.length === 1 ? "file" : "files"}`;
  const close = lines.length === 0 ? "nothing found" : `${count("error")} errors, ${count("warning")} warnings`;
  return [...lines, `${files}: ${close}.`].join("\n");
}
