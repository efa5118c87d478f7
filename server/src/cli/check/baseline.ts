/**
 * Findings that are known and filtered: a file to be committed beside the designs, one entry per line, so that a review shows what was
 * added to it. A finding is known by its file, severity, rule and place, as often as it was found; its numbers may change.
 */
import { dirname, relative, resolve } from "node:path";
import { jsonText } from "../../escape/json.js";
import { FileTrouble } from "../../files/fileTrouble.js";
import { readText } from "../../files/readText.js";
import { slashed } from "../../files/slashed.js";
import { writeFiles } from "../../files/writeFiles.js";
import { isMap } from "../../instrument/path.js";
import { UnusableInput } from "../exitStatus.js";
import type { CheckedFile, CheckedFinding } from "./checked.js";

/** How often each finding is known, by file and name. */
type Known = Map<string, Map<string, number>>;

/** Hundreds of thousands of findings are smaller. */
const MOST_BYTES = 50_000_000;
/** Marks the file and its form. */
const MARK = "borewright-baseline";
const FORM = 1;

export interface NewFindings {
  readonly files: readonly CheckedFile[];
  /** Findings left out. */
  readonly known: number;
  /** Findings of the files looked at that are in the baseline and were not found any more. */
  readonly gone: number;
}

/** The files with the findings that the baseline does not know. @throws UnusableInput, FileTrouble */
export function unknownTo(baseline: string, checked: readonly CheckedFile[]): NewFindings {
  const all = read(baseline);
  let known = 0;
  let gone = 0;
  const files = checked.map((file) => {
    const left = new Map(all.get(nameOf(baseline, file)) ?? []);
    const findings = file.findings.filter((finding) => {
      const count = left.get(entryOf(finding)) ?? 0;
      left.set(entryOf(finding), Math.max(0, count - 1));
      if (count > 0) known++;
      return count === 0;
    });
    for (const count of left.values()) gone += count;
    return { ...file, findings };
  });
  return { files, known, gone };
}

/** Makes all findings known; what the baseline says about other files stays. Gives the number of findings in it. */
export function writeBaseline(baseline: string, checked: readonly CheckedFile[]): number {
  const all = readIfThere(baseline);
  for (const file of checked) {
    const found = new Map<string, number>();
    for (const finding of file.findings) found.set(entryOf(finding), (found.get(entryOf(finding)) ?? 0) + 1);
    all.set(nameOf(baseline, file), found);
  }
  const findings = Object.fromEntries(
    sorted(all)
      .filter(([, found]) => found.size > 0)
      .map(([name, found]) => [name, Object.fromEntries(sorted(found))]),
  );
  writeFiles([{ file: baseline, text: `${jsonText({ [MARK]: FORM, findings })}\n` }]);
  return [...all.values()].flatMap((found) => [...found.values()]).reduce((sum, count) => sum + count, 0);
}

/** `warning pitch/out-of-tune holes[L2].at`. A finding that has become more severe is another one. */
function entryOf({ severity, identity }: CheckedFinding): string {
  return `${severity} ${identity}`;
}

/** Counted from the baseline's folder, alike on every machine and wherever the program is run. */
function nameOf(baseline: string, { file }: CheckedFile): string {
  return slashed(relative(dirname(resolve(baseline)), resolve(file)));
}

function sorted<T>(map: ReadonlyMap<string, T>): readonly [string, T][] {
  return [...map].sort(([a], [b]) => (a < b ? -1 : 1));
}

function readIfThere(baseline: string): Known {
  try {
    return read(baseline);
  } catch (error) {
    if (error instanceof FileTrouble && error.isMissing) return new Map();
    throw error;
  }
}

function read(baseline: string): Known {
  const findings = findingsOf(parsed(baseline, readText(baseline, MOST_BYTES).text));
  if (findings === undefined)
    throw new UnusableInput(baseline, "no baseline of findings: write one with --update-baseline");
  return new Map(findings);
}

function parsed(baseline: string, text: string): unknown {
  try {
    return JSON.parse(text);
  } catch (error) {
    throw new UnusableInput(baseline, `not JSON: ${error instanceof Error ? error.message : error}`);
  }
}

function findingsOf(data: unknown): [string, Map<string, number>][] | undefined {
  if (!isMap(data) || data[MARK] !== FORM || !isMap(data.findings)) return undefined;
  const files = Object.entries(data.findings).map(([name, found]): [string, Map<string, number>] | undefined => {
    const entries = Object.entries(isMap(found) ? found : { "": undefined });
    if (!entries.every((entry): entry is [string, number] => Number.isSafeInteger(entry[1]))) return undefined;
    return [name, new Map(entries)];
  });
  return files.every((file) => file !== undefined) ? files : undefined;
}
