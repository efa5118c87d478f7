/** `borewright check PATH…`: every finding in files and folders. */
import { InvalidArgumentError } from "commander";
import { checkDocument } from "../design/check.js";
import { allowanceFor } from "../design/predict/allowance.js";
import type { CheckSettings } from "../design/settings.js";
import type { PlacedFinding } from "../document/designFile.js";
import { LineIndex } from "../document/lineIndex.js";
import { FileTrouble } from "../files/fileTrouble.js";
import type { Severity } from "../instrument/finding.js";
import { isRuleLevel, RULE_LEVELS, type RuleLevels, SWITCHABLE_RULES, whyNot } from "../instrument/ruleLevels.js";
import { tellFault } from "./failure.js";
import { findDesignFiles, type ReadFile, readDesignBytes, readDesignFile, troubleFinding } from "./files.js";

export type { CheckSettings };

export interface CheckedFile {
  /** As the user named it, or as it was found. */
  readonly file: string;
  readonly lines: LineIndex;
  /** In the order of the text. */
  readonly findings: readonly PlacedFinding[];
}

/** One whose bytes are at hand. */
export interface GivenFile {
  readonly name: string;
  readonly bytes: Buffer;
}

export interface Checked {
  readonly files: readonly CheckedFile[];
  /** Whether a file could not be read, or not be checked for a fault of ours. */
  readonly incomplete: boolean;
}

/** From the most severe down. */
const SEVERITIES: readonly Severity[] = ["error", "warning", "information", "hint"];
export const FAIL_ON = [...SEVERITIES, "never"] as const;
export type FailOn = (typeof FAIL_ON)[number];

/** `--rule hands/out-of-reach=off`, as often as wanted. @throws InvalidArgumentError */
export function ruleLevel(text: string, before: RuleLevels = {}): RuleLevels {
  const [code = "", level] = text.split("=");
  if (!SWITCHABLE_RULES.includes(code)) throw new InvalidArgumentError(whyNot(code));
  if (!isRuleLevel(level)) throw new InvalidArgumentError(`write ${code}= and one of ${RULE_LEVELS.join(", ")}.`);
  return { ...before, [code]: level };
}

/** Whatever is wrong with one file, the others are checked. */
export function checkPaths(
  paths: readonly string[],
  settings: CheckSettings,
  given: readonly GivenFile[] = [],
): Checked {
  const { files, troubles } = findDesignFiles(paths);
  const checked: CheckedFile[] = troubles.map(unreadable);
  let incomplete = troubles.length > 0;
  const all = [
    ...given.map(({ name, bytes }) => ({ file: name, read: () => readDesignBytes(name, bytes) })),
    ...files.map((file) => ({ file, read: () => readDesignFile(file) })),
  ];
  for (const { file, read } of all) {
    try {
      checked.push(checkFile(read(), settings));
    } catch (error) {
      incomplete = true;
      if (error instanceof FileTrouble) checked.push(unreadable(error));
      else tellFault(error, file);
    }
  }
  return { files: checked, incomplete };
}

function checkFile({ file, design, lines }: ReadFile, settings: CheckSettings): CheckedFile {
  const allowance = allowanceFor(design.documents.length);
  const findings = design.documents.flatMap((document) => checkDocument(document, settings, { allowance }).findings);
  return { file, lines, findings: [...findings].sort((a, b) => a.span.start - b.span.start) };
}

function unreadable(trouble: FileTrouble): CheckedFile {
  return { file: trouble.file, lines: new LineIndex(""), findings: [troubleFinding(trouble)] };
}

export function fails(checked: readonly CheckedFile[], failOn: FailOn): boolean {
  return checked.some(({ findings }) => findings.some(failing(failOn)));
}

/** Whether a finding is at or above the severity asked for. */
export function failing(failOn: FailOn): (finding: PlacedFinding) => boolean {
  if (failOn === "never") return () => false;
  const limit = SEVERITIES.indexOf(failOn);
  return ({ severity }) => SEVERITIES.indexOf(severity) <= limit;
}
