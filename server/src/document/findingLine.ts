/** A finding as one line of text. */
import type { PlacedFinding } from "./designFile.js";
import type { LineIndex } from "./lineIndex.js";

/** `file:line:column: error: message [area/rule]`, the form compilers use, so that terminals and editors link it. */
export function findingLine(
  { file, lines }: { readonly file: string; readonly lines: LineIndex },
  finding: PlacedFinding,
): string {
  const { line, column } = lines.position(finding.span.start);
  return `${file}:${line + 1}:${column + 1}: ${finding.severity}: ${finding.message} [${finding.code}]`;
}
