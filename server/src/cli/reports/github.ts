/** Findings as workflow commands, which GitHub shows beside the changed lines ("Workflow commands for GitHub Actions"). */
import type { Severity } from "../../instrument/finding.js";
import type { CheckedFile } from "../check.js";

const COMMAND: Record<Severity, string> = { error: "error", warning: "warning", information: "notice", hint: "notice" };

export function githubReport(checked: readonly CheckedFile[]): string {
  return checked
    .flatMap(({ read, findings }) =>
      findings.map(({ code, severity, message, span }) => {
        const [start, end] = [read.lines.position(span.start), read.lines.position(span.end)];
        const place = {
          file: read.file,
          line: start.line + 1,
          col: start.column + 1,
          endLine: end.line + 1,
          endColumn: end.column + 1,
          title: code,
        };
        const properties = Object.entries(place).map(([name, value]) => `${name}=${escapeProperty(String(value))}`);
        return `::${COMMAND[severity]} ${properties.join(",")}::${escapeData(message)}`;
      }),
    )
    .join("\n");
}

function escapeData(text: string): string {
  return text.replaceAll("%", "%25").replaceAll("\r", "%0D").replaceAll("\n", "%0A");
}

function escapeProperty(text: string): string {
  return escapeData(text).replaceAll(":", "%3A").replaceAll(",", "%2C");
}
