/** The order of work as comments above the measured notes: at hand in the workshop, and changing no value. */
import type { DesignDocument } from "../../document/designFile.js";
import { lineEnd, lineStartOf } from "../../document/insertion.js";
import type { TextEdit } from "../../document/textEdit.js";
import { label } from "../../escape/label.js";
import { t } from "../../words/translation.js";
import type { BenchPlan } from "./plan.js";
import { airInWords, leftInWords, stepInWords } from "./wording.js";

const MARK = "# bench";
const OLD = new RegExp(`(?:^[ \\t]*${MARK}\\b[^\\n]*\\n)+$`, "m");

/** Edits that put it above `measured`, in place of an earlier one; none in JSON, which has no comments, or without measured notes. */
export function planCommentEdits(document: DesignDocument, plan: BenchPlan): readonly TextEdit[] {
  const { root, text } = document;
  // Within braces, as in all of JSON, a comment has no line of its own.
  if (root?.kind !== "map" || root.flow) return [];
  const entry = root.entries.find(({ key, merged }) => key === "measured" && !merged);
  if (entry === undefined) return [];
  const lineStart = lineStartOf(text, entry.keySpan.start);
  const indent = text.slice(lineStart, entry.keySpan.start);
  // Behind a `---` or a `-` there is no line of its own.
  if (!/^[ \t]*$/.test(indent)) return [];
  const old = OLD.exec(text.slice(0, lineStart));
  const { instrument } = document.resolution;
  const lines = [
    `: ${airInWords(plan)}`,
    ...plan.steps.map((step, i) => ` ${i + 1}: ${stepInWords(step, instrument)}`),
    ...leftInWords(plan).map((line) => `: ${line}`),
    ...(plan.steps.length === 0 && plan.left.length === 0
      ? [t`: every note is within ${plan.within} cents of right`]
      : []),
  ];
  const written = lines.map((line) => `${indent}${MARK}${label(line)}${lineEnd(text)}`).join("");
  const start = old === null ? lineStart : lineStart - old[0].length;
  return [{ span: { start, end: lineStart }, text: written }];
}
