/** Finding and reading design files for the command line. */
import { readdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import type { DesignFile, PlacedFinding } from "../document/designFile.js";
import { LineIndex } from "../document/lineIndex.js";
import { readDesign, syntaxOf } from "../document/read.js";
import { UnusableInput } from "./exitStatus.js";

export interface ReadFile {
  /** As the user named it. */
  readonly file: string;
  readonly design: DesignFile;
  readonly lines: LineIndex;
}

const DESIGN_FILE = /\.bore\.(ya?ml|json)$/;
/** Folders that hold other people's files or none. */
const SKIPPED = new Set(["node_modules", ".git"]);

/** @throws UnusableInput where the file cannot be read or is not named like a design */
export function readDesignFile(file: string): ReadFile {
  let text: string;
  try {
    text = new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(readFileSync(file));
  } catch (error) {
    throw new UnusableInput(file, whyUnreadable(error));
  }
  const design = readDesign(text, syntaxOf(file));
  return { file, design, lines: new LineIndex(text) };
}

/** What can be read of several files, and why the others cannot. */
export function readAll(files: readonly string[]) {
  const read: ReadFile[] = [];
  const unreadable: UnusableInput[] = [];
  for (const file of files) {
    try {
      read.push(readDesignFile(file));
    } catch (error) {
      if (!(error instanceof UnusableInput)) throw error;
      unreadable.push(error);
    }
  }
  return { read, unreadable };
}

function whyUnreadable(error: unknown): string {
  if (error instanceof TypeError) return "not UTF-8 text: save it as UTF-8";
  const code = (error as NodeJS.ErrnoException).code;
  if (code === "ENOENT") return "no such file";
  if (code === "EISDIR") return "is a folder: name a file, or use `borewright check` for folders";
  return (error as Error).message;
}

/** The design files named, and those in the folders named, sorted. @throws UnusableInput for a path that is not there */
export function findDesignFiles(paths: readonly string[]): readonly string[] {
  return paths.flatMap((path) => {
    const stats = statSync(path, { throwIfNoEntry: false });
    if (stats === undefined) throw new UnusableInput(path, "no such file or folder");
    return stats.isDirectory() ? filesBelow(path) : [path];
  });
}

function filesBelow(folder: string): string[] {
  const entries = readdirSync(folder, { withFileTypes: true }).sort((a, b) => (a.name < b.name ? -1 : 1));
  return entries.flatMap((entry) => {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) return SKIPPED.has(entry.name) ? [] : filesBelow(path);
    return DESIGN_FILE.test(entry.name) ? [path] : [];
  });
}

/** `file:line:column: error: message [area/rule]`, the form compilers use, so that terminals and editors link it. */
export function findingLine({ file, lines }: ReadFile, finding: PlacedFinding): string {
  const { line, column } = lines.position(finding.span.start);
  return `${file}:${line + 1}:${column + 1}: ${finding.severity}: ${finding.message} [${finding.code}]`;
}
