/** A comparison for a terminal. */

import { changeLine } from "../../document/dimensionChanges.js";
import { findingLine } from "../../document/findingLine.js";
import { type Align, spaced, table } from "../../escape/table.js";
import { type Compared, changedOf, filesOf, quietText, titleOf, verdictOf } from "../compared.js";
import { isChanged } from "../measures.js";
import { NOTHING } from "../verdict.js";
import { isWorthALine, measureText, NOTE_ALIGN, NOTE_HEADER, noteRow, structureText } from "./words.js";

/** Lines, none of them escaped yet. */
export function textReport(compared: readonly Compared[]): readonly string[] {
  if (compared.length === 1) return compared.flatMap(designLines);
  const { changed, quiet } = changedOf(compared);
  const blocks = [...changed.map(designLines), ...(quiet === 0 ? [] : [[quietText(quiet)]])];
  return spaced(blocks);
}

function designLines(compared: Compared): readonly string[] {
  const title = [titleOf(compared), filesOf(compared)];
  const head = [[...new Set(title)].join(" · "), verdictOf(compared)];
  if (compared.kind !== "both" || head.includes(NOTHING)) return head;
  const { comparison, old, next } = compared;
  const { notes, dimensions, structure, findings, measures } = comparison;
  const tolerance = comparison.next.analysis.tolerance;
  const rows = notes.map((note) => noteRow(note, tolerance));
  return [
    ...head,
    ...(rows.length === 0 ? [] : ["", ...table(NOTE_HEADER, NOTE_ALIGN as readonly Align[], rows)]),
    ...listed("Changed:", [
      ...structure.map((change) => structureText(change)),
      ...dimensions.filter(isWorthALine).map(changeLine),
    ]),
    ...listed(
      "Hands, printer, response:",
      measures.filter(isChanged).map((change) => `${change.name}: ${measureText(change)}`),
    ),
    ...listed(
      "New findings:",
      findings.came.map((finding) => findingLine(next, finding)),
    ),
    ...listed(
      "Findings resolved:",
      findings.went.map((finding) => findingLine(old, finding)),
    ),
  ];
}

function listed(heading: string, lines: readonly string[]): readonly string[] {
  return lines.length === 0 ? [] : ["", heading, ...lines.map((line) => `  ${line}`)];
}
