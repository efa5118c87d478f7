/**
 * The one place where files are written. Whatever happens on the way, a file is the old one or the new one, whole: the text
 * goes into a temporary file beside it, is brought to the disk, and takes the old one's name in one step (POSIX.1-2017, rename).
 */
import { randomBytes } from "node:crypto";
import {
  closeSync,
  fchmodSync,
  fchownSync,
  fstatSync,
  fsyncSync,
  lstatSync,
  mkdirSync,
  openSync,
  realpathSync,
  renameSync,
  rmdirSync,
  type Stats,
  statSync,
  unlinkSync,
  writeFileSync,
} from "node:fs";
import { dirname, join, resolve } from "node:path";
import { t } from "../words/translation.js";
import { FileTrouble, withFile } from "./fileTrouble.js";
import { FileTooLarge, kindOf, readBytes } from "./readText.js";

export interface NewFile {
  /** Folders on the way are made. A link stays a link: what it leads to is replaced. */
  readonly file: string;
  /** Written as UTF-8, or bytes as they are. */
  readonly text: string | Uint8Array;
}

/** A file as it was read before the work began. */
export interface SeenFile {
  readonly file: string;
  readonly bytes: Buffer;
}

/** A text on the disk, under a temporary name beside the file whose name it will take. */
interface Staged {
  readonly file: string;
  readonly temporary: string;
  readonly target: string;
}

/**
 * Writes all of them or, where one cannot be written, none. One of them may be the file that was read: it is left alone if
 * somebody has changed it since.
 *
 * Mode is kept, owner and group where the system allows it; another name of the same file (a hard link) keeps the old text.
 * A process killed on the way may leave `.borewright-….tmp` behind.
 * @throws FileTrouble
 */
export function writeFiles(files: readonly NewFile[], seen?: SeenFile): void {
  const staged: Staged[] = [];
  const made: string[] = [];
  try {
    for (const { file, text } of files) {
      withFile(file, () => {
        made.push(...makeFolders(dirname(file)));
        staged.push(stage(file, text));
      });
    }
    for (const each of staged) mustBeUnchanged(each, seen);
    while (staged[0] !== undefined) {
      const { file, temporary, target } = staged[0];
      withFile(file, () => renameSync(temporary, target));
      staged.shift();
      bringToDisk(dirname(target));
    }
  } finally {
    for (const { temporary } of staged) remove(temporary);
    // Those that have a file by now stay.
    for (const folder of made.reverse()) removeIfEmpty(folder);
  }
}

/** Makes the folder and those above it; gives the ones that were not there, from above down. */
function makeFolders(folder: string): readonly string[] {
  const first = mkdirSync(folder, { recursive: true });
  if (first === undefined) return [];
  const made: string[] = [];
  for (let each = resolve(folder); each.length >= resolve(first).length; each = dirname(each)) made.unshift(each);
  return made;
}

function removeIfEmpty(folder: string): void {
  try {
    rmdirSync(folder);
  } catch {
    // Something stands in it.
  }
}

function stage(file: string, text: NewFile["text"]): Staged {
  const target = targetOf(file);
  const old = statSync(target, { throwIfNoEntry: false });
  const kind = old === undefined ? undefined : kindOf(old);
  // A device or a pipe would be replaced by a file.
  if (kind !== undefined) throw new FileTrouble(file, kind);
  const temporary = join(dirname(target), `.borewright-${randomBytes(8).toString("hex")}.tmp`);
  try {
    writeWhole(temporary, text, old);
  } catch (error) {
    remove(temporary);
    throw error;
  }
  return { file, temporary, target };
}

/** Where the link leads, if it is one. */
function targetOf(file: string): string {
  const isLink = lstatSync(file, { throwIfNoEntry: false })?.isSymbolicLink() === true;
  if (!isLink) return file;
  try {
    return realpathSync(file);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== "ENOENT") throw error;
    throw new FileTrouble(file, t("a link that leads nowhere"));
  }
}

function writeWhole(temporary: string, text: NewFile["text"], old: Stats | undefined): void {
  // Readable by nobody else until it has the old one's mode; a new file has what the user's mask says.
  const open = openSync(temporary, "wx", old === undefined ? 0o666 : 0o600);
  try {
    writeFileSync(open, text);
    if (old !== undefined) keepOwnerAndMode(open, old);
    fsyncSync(open);
  } finally {
    closeSync(open);
  }
}

/** The owner first: changing it takes special bits of the mode away. */
function keepOwnerAndMode(open: number, old: Stats): void {
  const own = fstatSync(open);
  if (own.uid !== old.uid || own.gid !== old.gid) {
    try {
      fchownSync(open, old.uid, old.gid);
    } catch {
      // Without root, the file keeps what the system gave.
    }
  }
  if (fstatSync(open).mode !== old.mode) fchmodSync(open, old.mode & PERMISSIONS);
}

/** Of a mode, all but the kind of file (POSIX.1-2017, <sys/stat.h>). */
const PERMISSIONS = 0o7777;

function mustBeUnchanged({ file, target }: Staged, seen: SeenFile | undefined): void {
  if (seen === undefined || !isSame(target, seen.file)) return;
  if (!stillReads(file, seen.bytes))
    throw new FileTrouble(file, t("has changed since it was read, and was left alone: run the command again"));
}

function stillReads(file: string, bytes: Buffer): boolean {
  try {
    return readBytes(file, bytes.length).equals(bytes);
  } catch (error) {
    if (error instanceof FileTooLarge) return false;
    throw error;
  }
}

function isSame(a: string, b: string): boolean {
  if (resolve(a) === resolve(b)) return true;
  const [first, second] = [a, b].map((file) => statSync(file, { throwIfNoEntry: false, bigint: true }));
  return first !== undefined && second !== undefined && first.dev === second.dev && first.ino === second.ino;
}

/** The new name itself is on the disk only then. Not every system can do this with a folder: it is no reason to fail. */
function bringToDisk(folder: string): void {
  try {
    const open = openSync(folder, "r");
    try {
      fsyncSync(open);
    } finally {
      closeSync(open);
    }
  } catch {
    // The file is whole all the same.
  }
}

function remove(file: string): void {
  try {
    unlinkSync(file);
  } catch {
    // It was never made, or the device is gone: the earlier error is reported.
  }
}
