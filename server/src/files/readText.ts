/** Reads the text of one file: never a pipe that waits, never a device without an end, never more than was asked for. */
import { closeSync, constants, fstatSync, openSync, readSync, type Stats, statSync } from "node:fs";
import { t } from "../words/translation.js";
import { FileTrouble, withFile } from "./fileTrouble.js";

export interface FileText {
  /** A byte order mark is part of it. */
  readonly text: string;
  /** As they were read: what a later write is compared with. */
  readonly bytes: Buffer;
}

/** The file holds more than the reader takes. */
export class FileTooLarge extends FileTrouble {}

/** @throws FileTrouble where it is no regular file, larger than `mostBytes`, not UTF-8, or cannot be read */
export function readText(file: string, mostBytes: number): FileText {
  const bytes = readBytes(file, mostBytes);
  return { bytes, text: textOf(file, bytes) };
}

/** @throws FileTrouble where they are not UTF-8 */
export function textOf(file: string, bytes: Buffer): string {
  try {
    return new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    throw new FileTrouble(file, t("not UTF-8 text: save it as UTF-8"));
  }
}

/** @throws FileTrouble as {@link readText}, but for the encoding */
export function readBytes(file: string, mostBytes: number): Buffer {
  return withFile(file, () => {
    // Checked before it is opened, since opening a device may have effects; and after, since it may be another by then.
    mustBeReadable(file, statSync(file), mostBytes);
    // Without O_NONBLOCK, opening a pipe waits until somebody writes to it. Windows has no such flag and needs none.
    const open = openSync(file, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0));
    try {
      const stats = fstatSync(open);
      mustBeReadable(file, stats, mostBytes);
      return readAll(file, open, stats.size, mostBytes);
    } finally {
      closeSync(open);
    }
  });
}

function mustBeReadable(file: string, stats: Stats, mostBytes: number): void {
  const kind = kindOf(stats);
  if (kind !== undefined) throw new FileTrouble(file, kind);
  if (stats.size > mostBytes) throw tooLarge(file, mostBytes);
}

export function tooLarge(file: string, mostBytes: number): FileTooLarge {
  return new FileTooLarge(
    file,
    t`larger than ${Math.floor(mostBytes / 1e6)} MB, and so not read: no design is that large`,
  );
}

/** What else than a regular file it is; undefined for a regular one. */
export function kindOf(stats: Stats): string | undefined {
  if (stats.isFile()) return undefined;
  if (stats.isDirectory()) return t("a folder, not a file");
  if (stats.isFIFO()) return t("a pipe, not a regular file");
  if (stats.isSocket()) return t("a socket, not a regular file");
  return t("a device, not a regular file");
}

/** The size is what the file had when it was opened: one that grows meanwhile is read on, up to the limit. */
function readAll(file: string, open: number, size: number, mostBytes: number): Buffer {
  const chunks: Buffer[] = [];
  let length = 0;
  for (;;) {
    const chunk = Buffer.allocUnsafe(Math.max(size - length, 0) + 1);
    const read = readSync(open, chunk);
    if (read === 0) return Buffer.concat(chunks, length);
    chunks.push(chunk.subarray(0, read));
    length += read;
    if (length > mostBytes) throw tooLarge(file, mostBytes);
  }
}
