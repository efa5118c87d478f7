/** Places in a text as the protocol counts them, worked out independently: lines end in LF, CRLF or CR, characters are UTF-16 units. */
import type { Position, Range, TextEdit, WorkspaceEdit } from "vscode-languageserver";

interface Line {
  readonly start: number;
  /** Without its line break. */
  readonly end: number;
}

export function linesOf(text: string): readonly Line[] {
  const lines: Line[] = [];
  let start = 0;
  for (const { 0: end, index } of text.matchAll(/\r\n|\n|\r/g)) {
    lines.push({ start, end: index });
    start = index + end.length;
  }
  return [...lines, { start, end: text.length }];
}

export function positionAt(lines: readonly Line[], offset: number): Position {
  const line = lines.findLastIndex(({ start }) => start <= offset);
  return { line, character: offset - (lines[line]?.start ?? 0) };
}

/** Undefined where the text has no such place. */
export function offsetAt(lines: readonly Line[], { line, character }: Position): number | undefined {
  const at = lines[line];
  if (at === undefined || !Number.isInteger(character) || character < 0 || at.start + character > at.end)
    return undefined;
  return at.start + character;
}

/** Every range in an answer, however deep; `data` is the server's own. */
export function* rangesIn(answer: unknown): Iterable<Range> {
  if (typeof answer !== "object" || answer === null) return;
  if ("start" in answer && "end" in answer && typeof answer.start === "object") yield answer as Range;
  else if ("line" in answer && "character" in answer) yield { start: answer as Position, end: answer as Position };
  else for (const [key, part] of Object.entries(answer)) if (key !== "data") yield* rangesIn(part);
}

/** The text after an edit; undefined where it has no place in the text, or overlaps itself. */
export function withEdit(text: string, uri: string, edit: WorkspaceEdit): string | undefined {
  const given =
    edit.documentChanges?.flatMap((change) =>
      "edits" in change && change.textDocument.uri === uri ? change.edits : [],
    ) ??
    edit.changes?.[uri] ??
    [];
  const lines = linesOf(text);
  let result = "";
  let at = 0;
  const placed = (given as TextEdit[]).map(({ range, newText }) => ({
    start: offsetAt(lines, range.start),
    end: offsetAt(lines, range.end),
    newText,
  }));
  for (const { start, end, newText } of placed.sort((a, b) => (a.start ?? 0) - (b.start ?? 0))) {
    if (start === undefined || end === undefined || start < at || end < start) return undefined;
    result += text.slice(at, start) + newText;
    at = end;
  }
  return result + text.slice(at);
}
