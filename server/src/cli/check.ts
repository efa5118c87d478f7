/** `borewright check PATH…`: every finding in files and folders. */
import { checkDocument } from "../design/check.js";
import type { CheckSettings } from "../design/settings.js";
import type { PlacedFinding } from "../document/designFile.js";
import type { Severity } from "../instrument/finding.js";
import type { ReadFile } from "./files.js";

export interface CheckedFile {
  readonly read: ReadFile;
  readonly findings: readonly PlacedFinding[];
}

/** From the gravest down. */
const SEVERITIES: readonly Severity[] = ["error", "warning", "information", "hint"];
export const FAIL_ON = [...SEVERITIES, "never"] as const;
export type FailOn = (typeof FAIL_ON)[number];

export function checkFile(read: ReadFile, settings: CheckSettings): CheckedFile {
  const findings = read.design.documents.flatMap((document) => checkDocument(document, settings).findings);
  return { read, findings: [...findings].sort((a, b) => a.span.start - b.span.start) };
}

export function fails(checked: readonly CheckedFile[], failOn: FailOn): boolean {
  if (failOn === "never") return false;
  const limit = SEVERITIES.indexOf(failOn);
  return checked.some(({ findings }) => findings.some(({ severity }) => SEVERITIES.indexOf(severity) <= limit));
}
