/** One module a report format. */
import type { CheckedFile } from "../check.js";
import { githubReport } from "./github.js";
import { jsonReport } from "./json.js";
import { type SarifTool, sarifReport } from "./sarif.js";
import { textReport } from "./text.js";

export const FORMATS = ["text", "json", "sarif", "github"] as const;
export type Format = (typeof FORMATS)[number];

export function report(checked: readonly CheckedFile[], format: Format, tool: SarifTool): string {
  switch (format) {
    case "text":
      return textReport(checked);
    case "json":
      return jsonReport(checked);
    case "github":
      return githubReport(checked);
    case "sarif":
      return sarifReport(checked, tool);
  }
}
