/** Findings as workflow commands, which GitHub shows beside the changed lines of the file of that path. */
import { githubLine } from "../../escape/githubLine.js";
import { slashed } from "../../files/slashed.js";
import type { Severity } from "../../instrument/finding.js";
import type { CheckedFile } from "../check/checked.js";

const COMMAND: Record<Severity, string> = { error: "error", warning: "warning", information: "notice", hint: "notice" };

export function githubReport(checked: readonly CheckedFile[]): string {
  return checked
    .flatMap(({ file, lines, findings }) =>
      findings.map(({ code, severity, message, span }) => {
        const [start, end] = [lines.position(span.start), lines.position(span.end)];
        const place = {
          file: slashed(file),
          line: start.line + 1,
          col: start.column + 1,
          endLine: end.line + 1,
          endColumn: end.column + 1,
          title: code,
        };
        return githubLine(COMMAND[severity], place, message);
      }),
    )
    .join("\n");
}
