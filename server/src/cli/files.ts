/** Finding and reading design files for the command line. */
import type { DesignFile, PlacedFinding } from "../document/designFile.js";
import { LineIndex } from "../document/lineIndex.js";
import { LARGEST_FILE, readDesign, syntaxOf } from "../document/read.js";
import type { FileTrouble } from "../files/fileTrouble.js";
import { type Found, findFiles } from "../files/findFiles.js";
import { FileTooLarge, readText } from "../files/readText.js";

export interface ReadFile {
  /** As the user named it. */
  readonly file: string;
  /** What stood in it when it was read. */
  readonly bytes: Buffer;
  readonly design: DesignFile;
  readonly lines: LineIndex;
}

const DESIGN_FILE = /\.bore\.(ya?ml|json)$/;

/** A sign of UTF-16 takes up to three bytes of UTF-8, and a byte order mark three more: a file beyond is too large for sure. */
const MOST_BYTES = 3 * LARGEST_FILE + 3;

/** @throws FileTrouble where the file cannot be read */
export function readDesignFile(file: string): ReadFile {
  const { text, bytes } = readText(file, MOST_BYTES);
  const design = readDesign(text, syntaxOf(file));
  return { file, bytes, design, lines: new LineIndex(text) };
}

/** The design files named, and those in the folders named, sorted; and what is in the way of finding others. */
export function findDesignFiles(paths: readonly string[]): Found {
  return findFiles(paths, DESIGN_FILE);
}

/** What is wrong with a file that cannot be read, as a finding at its beginning. */
export function troubleFinding(trouble: FileTrouble): PlacedFinding {
  return {
    code: trouble instanceof FileTooLarge ? "file/too-large" : "file/unreadable",
    severity: "error",
    message: `This file cannot be read: ${trouble.reason}.`,
    path: [],
    span: { start: 0, end: 0 },
  };
}

/** `file:line:column: error: message [area/rule]`, the form compilers use, so that terminals and editors link it. */
export function findingLine({ file, lines }: Pick<ReadFile, "file" | "lines">, finding: PlacedFinding): string {
  const { line, column } = lines.position(finding.span.start);
  return `${file}:${line + 1}:${column + 1}: ${finding.severity}: ${finding.message} [${finding.code}]`;
}
