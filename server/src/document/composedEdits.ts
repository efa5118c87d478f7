/** Two sets of edits, the second of the text that the first makes, as one set of edits of the text that was there. */
import { applyEdits, inOrder } from "./edits.js";
import type { TextEdit } from "./textEdit.js";

export function composedEdits(
  text: string,
  first: readonly TextEdit[],
  second: readonly TextEdit[],
): readonly TextEdit[] {
  const ordered = inOrder(first);
  const back = second.map((edit) => movedBack(edit, ordered));
  if (back.every((edit) => edit !== undefined)) return [...ordered, ...back];
  return [difference(text, applyEdits(applyEdits(text, first), second))];
}

/** Undefined where it touches what the first edits wrote. */
function movedBack(edit: TextEdit, first: readonly TextEdit[]): TextEdit | undefined {
  let grown = 0;
  for (const { span, text } of first) {
    const from = span.start + grown;
    const to = from + text.length;
    if (edit.span.end < from) break;
    if (edit.span.start <= to) return undefined;
    grown += text.length - (span.end - span.start);
  }
  const { start, end } = edit.span;
  return { ...edit, span: { start: start - grown, end: end - grown } };
}

/** The one stretch in which two texts differ. */
function difference(before: string, after: string): TextEdit {
  const most = Math.min(before.length, after.length);
  let start = 0;
  while (start < most && before[start] === after[start]) start++;
  let same = 0;
  while (same < most - start && before[before.length - 1 - same] === after[after.length - 1 - same]) same++;
  return { span: { start, end: before.length - same }, text: after.slice(start, after.length - same) };
}
