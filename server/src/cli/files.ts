/** Finding and reading design files for the command line. */
import type { DesignFile, PlacedFinding } from "../document/designFile.js";
import { LineIndex } from "../document/lineIndex.js";
import { LARGEST_FILE, readDesign, syntaxOf } from "../document/read.js";
import type { FileTrouble } from "../files/fileTrouble.js";
import { type Found, findFiles } from "../files/findFiles.js";
import { ignoredBy } from "../files/ignoreFile.js";
import { FileTooLarge, readText, textOf } from "../files/readText.js";

export interface ReadFile {
  /** As the user named it. */
  readonly file: string;
  /** What stood in it when it was read. */
  readonly bytes: Buffer;
  readonly design: DesignFile;
  readonly lines: LineIndex;
}

/** In any case of letters: some file systems make no difference. */
const DESIGN_FILE = /\.bore\.(ya?ml|json)$/i;

/** A unit of UTF-16 takes up to three bytes of UTF-8, and a byte order mark three more: a larger file is surely too large. */
export const MOST_BYTES = 3 * LARGEST_FILE + 3;

/** @throws FileTrouble where the file cannot be read */
export function readDesignFile(file: string): ReadFile {
  const { text, bytes } = readText(file, MOST_BYTES);
  return readDesignText(file, bytes, text);
}

/** The same of bytes that are at hand. @param file what the user calls them; its ending tells the syntax */
export function readDesignBytes(file: string, bytes: Buffer): ReadFile {
  return readDesignText(file, bytes, textOf(file, bytes));
}

function readDesignText(file: string, bytes: Buffer, text: string): ReadFile {
  return { file, bytes, design: readDesign(text, syntaxOf(file)), lines: new LineIndex(text) };
}

/** Whether a file is named like a design. */
export function isDesignName(path: string): boolean {
  return DESIGN_FILE.test(path);
}

/** Names what is left out of folders and patterns, in the manner of a `.gitignore`. */
const IGNORE_FILE = ".borewrightignore";

/**
 * The design files named, and those in the folders named or matched by patterns, sorted; and what is in the way of finding others.
 * @throws FileTrouble where the ignore file of the folder we run in cannot be read
 */
export function findDesignFiles(paths: readonly string[]): Found {
  return findFiles(paths, DESIGN_FILE, ignoredBy(IGNORE_FILE));
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
