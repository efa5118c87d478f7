/** Findings for programs: `[{file, code, severity, message, line, column, endLine, endColumn}]`, places 1-based. */
import { jsonText } from "../../escape/json.js";
import type { CheckedFile } from "../check/checked.js";

export function jsonReport(checked: readonly CheckedFile[]): string {
  const rows = checked.flatMap(({ file, lines, findings }) =>
    findings.map(({ code, severity, message, span }) => {
      const [start, end] = [lines.position(span.start), lines.position(span.end)];
      return {
        file,
        code,
        severity,
        message,
        line: start.line + 1,
        column: start.column + 1,
        endLine: end.line + 1,
        endColumn: end.column + 1,
      };
    }),
  );
  return jsonText(rows);
}
