/** One module per report format. */
import type { Compared } from "../../review/compared.js";
import { jsonReport } from "../../review/reports/json.js";
import { markdownReport } from "../../review/reports/markdown.js";
import { svgReport } from "../../review/reports/svg/svg.js";
import { textReport } from "../../review/reports/text.js";
import { print, printData } from "../output.js";

export const COMPARE_FORMATS = ["text", "markdown", "json", "svg"] as const;
export type CompareFormat = (typeof COMPARE_FORMATS)[number];

/** @param single whether two files were compared rather than folders */
export function printComparison(compared: readonly Compared[], format: CompareFormat, single: boolean): void {
  if (format === "json") printData(jsonReport(compared, single));
  else if (format === "svg") printData(svgReport(compared));
  else print(format === "markdown" ? markdownReport(compared) : textReport(compared));
}
