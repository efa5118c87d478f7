/** A finding as one line of text. */
import type { PlacedFinding } from "./designFile.js";
import type { LineIndex } from "./lineIndex.js";

interface PlacedFile {
  readonly file: string;
  readonly lines: LineIndex;
}

/** `file:line:column: error: message [area/rule]`, the form compilers use, so that terminals and editors link it. */
export function findingLine(file: PlacedFile, finding: PlacedFinding): string {
  return `${placeText(file, finding)}: ${finding.severity}: ${finding.message} [${finding.code}]`;
}

/** `file:line:column`, counted from 1. */
export function placeText({ file, lines }: PlacedFile, { span }: PlacedFinding): string {
  const { line, column } = lines.position(span.start);
  return `${file}:${line + 1}:${column + 1}`;
}
