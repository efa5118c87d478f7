/** The result of a check, file by file: plain data except the index of lines. */
import type { PlacedFinding } from "../../document/designFile.js";
import type { LineIndex } from "../../document/lineIndex.js";
import type { TextEdit } from "../../document/textEdit.js";
import type { Severity } from "../../instrument/finding.js";

export interface CheckedFinding extends Omit<PlacedFinding, "data"> {
  /** Names it among the findings of its file, whatever lines and numbers become of it; findings alike share one. */
  readonly identity: string;
  /** What would put it right, where that was asked for. */
  readonly fixes?: readonly { readonly title: string; readonly edits: readonly TextEdit[] }[];
}

export interface CheckedFile {
  /** As the user named it, or as it was found. */
  readonly file: string;
  readonly lines: LineIndex;
  /** In the order of the text. */
  readonly findings: readonly CheckedFinding[];
}

/** From the most severe down. */
const SEVERITIES: readonly Severity[] = ["error", "warning", "information", "hint"];
export const FAIL_ON = [...SEVERITIES, "never"] as const;
export type FailOn = (typeof FAIL_ON)[number];

export function fails(checked: readonly CheckedFile[], failOn: FailOn): boolean {
  return checked.some(({ findings }) => findings.some(failing(failOn)));
}

/** Whether a finding is at or above the severity asked for. */
export function failing(failOn: FailOn): (finding: Pick<CheckedFinding, "severity">) => boolean {
  if (failOn === "never") return () => false;
  const limit = SEVERITIES.indexOf(failOn);
  return ({ severity }) => SEVERITIES.indexOf(severity) <= limit;
}

export function countOf(checked: readonly CheckedFile[], severity: Severity): number {
  return checked.flatMap(({ findings }) => findings).filter((finding) => finding.severity === severity).length;
}
