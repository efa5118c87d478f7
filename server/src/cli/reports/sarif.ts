/** Findings in SARIF 2.1.0 (OASIS standard), which code review services read. */
import type { Log, ReportingDescriptor, Result } from "sarif";
import { jsonText } from "../../escape/json.js";
import { sarifMessage } from "../../escape/sarifMessage.js";
import type { Severity } from "../../instrument/finding.js";
import type { CheckedFile } from "../check.js";

const LEVEL: Record<Severity, "error" | "warning" | "note"> = {
  error: "error",
  warning: "warning",
  information: "note",
  hint: "note",
};

export function sarifReport(checked: readonly CheckedFile[], version: string): string {
  const codes = [...new Set(checked.flatMap(({ findings }) => findings.map(({ code }) => code)))].sort();
  const rules: ReportingDescriptor[] = codes.map((id) => ({ id }));
  const results = checked.flatMap((file) => resultsOf(file, codes));
  const log: Log = {
    $schema: "https://json.schemastore.org/sarif-2.1.0.json",
    version: "2.1.0",
    runs: [
      {
        tool: { driver: { name: "borewright", version, rules } },
        // Columns count UTF-16 units, as in editors.
        columnKind: "utf16CodeUnits",
        results,
      },
    ],
  };
  return jsonText(log);
}

function resultsOf({ file, lines, findings }: CheckedFile, codes: readonly string[]): Result[] {
  return findings.map(({ code, severity, message, span }) => {
    const [start, end] = [lines.position(span.start), lines.position(span.end)];
    return {
      ruleId: code,
      ruleIndex: codes.indexOf(code),
      level: LEVEL[severity],
      message: { text: sarifMessage(message) },
      locations: [
        {
          physicalLocation: {
            artifactLocation: { uri: uriOf(file) },
            region: {
              startLine: start.line + 1,
              startColumn: start.column + 1,
              endLine: end.line + 1,
              endColumn: end.column + 1,
            },
          },
        },
      ],
    };
  });
}

/** A relative URI reference: what services match with the repository's files. */
function uriOf(file: string): string {
  return file.replaceAll("\\", "/").split("/").map(encodeURIComponent).join("/");
}
