/** A comparison for a review comment: the verdict first, everything else folded. GitHub Flavored Markdown. */

import { changeOf } from "../../document/dimensionChanges.js";
import { findingLine } from "../../document/findingLine.js";
import { markdownCode } from "../../escape/markdown.js";
import { markdownBlock } from "../../escape/markdownBlock.js";
import { t } from "../../words/translation.js";
import { type Compared, changedOf, filesOf, quietText, stops, titleOf, verdictOf } from "../compared.js";
import { isChanged } from "../measures.js";
import { chart } from "./chart.js";
import { isWorthALine, measureText, NOTE_HEADER, noteRow, structureText } from "./words.js";

/** Services take comments of 65536 characters (GitHub); beyond, the details of further designs are left out. */
const LONGEST = 60_000;

/** @param open whether the details are unfolded, as in an editor of one's own */
export function markdownReport(compared: readonly Compared[], open = false): readonly string[] {
  const { changed, quiet } = changedOf(compared);
  const lines = changed.flatMap((each) => headLines(each));
  let length = lines.join("\n").length;
  let leftOut = 0;
  for (const each of changed) {
    const more = detailLines(each, open);
    const size = more.join("\n").length;
    if (length + size > LONGEST) leftOut++;
    else {
      lines.push(...more);
      length += size;
    }
  }
  return [
    ...lines,
    ...(leftOut === 0
      ? []
      : [
          "",
          leftOut === 1
            ? t("Details of 1 more design do not fit here.")
            : t`Details of ${leftOut} more designs do not fit here.`,
        ]),
    ...(quiet === 0 ? [] : ["", quietText(quiet)]),
  ];
}

function headLines(compared: Compared): string[] {
  const sign = stops([compared]) ? " ⚠" : "";
  return [`**${markdownCode(titleOf(compared))}**${sign} ${verdictOf(compared)}`, ""];
}

function detailLines(compared: Compared, open: boolean): readonly string[] {
  if (compared.kind !== "both") return [];
  const { comparison, old, next } = compared;
  const { notes, dimensions, structure, findings, measures } = comparison;
  const tolerance = comparison.next.analysis.tolerance;
  const changes = [
    ...structure.map((change) => `- ${structureText(change, markdownCode)}`),
    ...dimensions
      .filter(isWorthALine)
      .map((change) => `- ${markdownCode(change.name.replaceAll("`", ""))}: ${markdownCode(changeOf(change))}`),
  ];
  return [
    `<details${open ? " open" : ""}><summary>${t("Details")}</summary>`,
    "",
    markdownCode(filesOf(compared)),
    "",
    ...(notes.length === 0
      ? []
      : [...markdownBlock(chart(comparison)), "", ...noteTable(notes.map((n) => noteRow(n, tolerance)))]),
    ...section(t("Changed"), changes),
    ...section(
      t("Hands, printer, response"),
      measures.filter(isChanged).map((change) => `- ${change.name}: ${measureText(change)}`),
    ),
    ...section(t("New findings"), block(findings.came.map((finding) => findingLine(next, finding)))),
    ...section(t("Findings resolved"), block(findings.went.map((finding) => findingLine(old, finding)))),
    "</details>",
    "",
  ];
}

function noteTable(rows: readonly (readonly string[])[]): readonly string[] {
  const line = (cells: readonly string[]) => `| ${cells.join(" | ")} |`;
  return [
    line(NOTE_HEADER.map((title) => t(title))),
    line(["---", "---", "--:", "--:", "--:", "--:", "---"]),
    ...rows.map(line),
    "",
  ];
}

function section(heading: string, lines: readonly string[]): readonly string[] {
  return lines.length === 0 ? [] : [`${heading}:`, "", ...lines, ""];
}

function block(lines: readonly string[]): readonly string[] {
  return lines.length === 0 ? [] : markdownBlock(lines);
}
