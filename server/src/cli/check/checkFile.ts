/** The check of one file and its outcome: plain data, so that it may be done on another thread. */
import { drained } from "../../acoustics/steps.js";
import { checkDocument } from "../../design/check.js";
import { findingFixes } from "../../design/fix/findingFixes.js";
import { allowanceFor } from "../../design/predict/allowance.js";
import type { CheckSettings } from "../../design/settings.js";
import type { PlacedFinding } from "../../document/designFile.js";
import { FileTrouble } from "../../files/fileTrouble.js";
import { contained } from "../../instrument/contained.js";
import { type ReadFile, readDesignFile, troubleFinding } from "../files.js";
import type { CheckedFinding } from "./checked.js";
import { identityOf } from "./identity.js";

export interface CheckOptions {
  readonly settings: CheckSettings;
  /** Whether what would put a finding right is worked out, too. */
  readonly withFixes: boolean;
}

export interface Outcome {
  /** For the places of the findings; empty where there are none. */
  readonly text: string;
  readonly findings: readonly CheckedFinding[];
  /** Whether the file could not be read, or not be checked for a fault of ours. */
  readonly incomplete?: true;
  /** Of ours. */
  readonly fault?: unknown;
}

/** Whatever is wrong with the file, there is an outcome. */
export function checkFile(file: string, options: CheckOptions, read = () => readDesignFile(file)): Outcome {
  try {
    const design = read();
    const findings = findingsIn(design, options);
    return { text: findings.length === 0 ? "" : design.design.text, findings };
  } catch (error) {
    if (error instanceof FileTrouble) return unreadable(error);
    return { text: "", findings: [], incomplete: true, fault: error };
  }
}

/** What cannot be read is reported as a finding. */
export function unreadable(trouble: FileTrouble): Outcome {
  const finding = troubleFinding(trouble);
  return { text: "", findings: [{ ...finding, identity: finding.code }], incomplete: true };
}

function findingsIn({ design }: ReadFile, { settings, withFixes }: CheckOptions): readonly CheckedFinding[] {
  const allowance = allowanceFor(design.documents.length);
  const found = design.documents.flatMap((document) => {
    const { analysis, findings } = checkDocument(document, settings, { allowance });
    const fixesOf = (finding: PlacedFinding) =>
      contained("A fix", () => drained(findingFixes(design, document, analysis, finding)), []);
    return findings.map((finding): CheckedFinding => {
      const { data: _, ...plain } = finding;
      const identity = identityOf(document, design.documents.length === 1, finding);
      return { ...plain, identity, ...(withFixes ? { fixes: fixesOf(finding) } : {}) };
    });
  });
  return found.sort((a, b) => a.span.start - b.span.start);
}
