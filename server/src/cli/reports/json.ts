/** Findings for programs: `[{file, code, severity, message, line, column, endLine, endColumn}]`, places 1-based. */
import type { CheckedFile } from "../check.js";

export function jsonReport(checked: readonly CheckedFile[]): string {
  const rows = checked.flatMap(({ read, findings }) =>
    findings.map(({ code, severity, message, span }) => {
      const [start, end] = [read.lines.position(span.start), read.lines.position(span.end)];
      return {
        file: read.file,
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
  return JSON.stringify(rows, null, 2);
}
