/** One module per report format. */
import { type CheckedFile, type FailOn, failing } from "../check/checked.js";
import type { Paint } from "../colour.js";
import { githubReport } from "./github.js";
import { jsonReport } from "./json.js";
import { junitReport } from "./junit.js";
import { type SarifTool, sarifReport } from "./sarif.js";
import { textReport } from "./text.js";

export const FORMATS = ["text", "json", "sarif", "github", "junit"] as const;
export type Format = (typeof FORMATS)[number];

export interface ReportOptions {
  readonly format: Format;
  readonly failOn: FailOn;
  readonly tool: SarifTool;
  readonly paint: Paint;
}

export function report(checked: readonly CheckedFile[], { format, failOn, tool, paint }: ReportOptions): string {
  switch (format) {
    case "text":
      return textReport(checked, paint);
    case "json":
      return jsonReport(checked);
    case "github":
      return githubReport(checked);
    case "sarif":
      return sarifReport(checked, tool);
    case "junit":
      return junitReport(checked, failing(failOn));
  }
}
