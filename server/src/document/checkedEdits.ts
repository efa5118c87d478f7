/**
 * The last check of edits before they are offered: the edited text is read again, and nothing in it may have changed except
 * the values that are meant. A value that would follow another one's anchor is written out where it is to stay.
 */
import { drained, type Steps } from "../acoustics/steps.js";
import type { Path } from "../instrument/finding.js";
import { isMap, pathKey, valueAt } from "../instrument/path.js";
import { TextChanges } from "./changes.js";
import type { DesignDocument, DesignFile } from "./designFile.js";
import { setRaw } from "./edits.js";
import { readingOf } from "./read.js";
import type { Meant, TextEdit } from "./textEdit.js";
import { nodeAt } from "./tree.js";
import { dataOf } from "./treeData.js";

export interface CheckedEdits {
  readonly edits: readonly TextEdit[];
  /** The whole file after them. */
  readonly text: string;
  /** Other numbers that change, because their formulas refer to what was changed. */
  readonly followers: readonly Path[];
}

/** Most values written out to be kept: more would make another design of it. */
const MOST_KEPT = 100;
/** One is enough but for values kept inside aliases of aliases. */
const MOST_ROUNDS = 4;
/** Numbers nearer than this are one number worked out in two ways; relative. */
const SAME = 1e-9;

/** Undefined where the edits would do anything else than intended. Usually one reading of the text. */
export function checkedEdits(file: DesignFile, index: number, edits: readonly TextEdit[]): CheckedEdits | undefined {
  return drained(checkedEditSteps(file, index, edits));
}

/** As `checkedEdits`, step by step. */
export function* checkedEditSteps(
  file: DesignFile,
  index: number,
  edits: readonly TextEdit[],
): Steps<CheckedEdits | undefined> {
  const before = file.documents[index];
  const meant = edits.flatMap((edit) => edit.meant ?? []);
  if (before === undefined) return undefined;
  try {
    const changes = new TextChanges(file.text);
    changes.make(edits);
    for (let round = 0; round < MOST_ROUNDS; round++) {
      const after = yield* readingOf(changes.text, file.syntax, file);
      const now = after.documents[index];
      if (now === undefined || !(yield* othersStay(file, after, index)) || isWorse(before, now)) return undefined;
      yield;
      const stray = strays(before, now, meant);
      if (stray.length === 0) return isMeant(now, meant) ? finished(before, now, changes, meant) : undefined;
      if (stray.length > MOST_KEPT || !stray.every((path) => isBroughtIn(before, path))) return undefined;
      const kept = keeping(before, now, stray);
      if (kept.length === 0) return undefined;
      changes.make(kept);
    }
  } catch (error) {
    if (!(error instanceof RangeError)) throw error; // edits that overlap are none
  }
  return undefined;
}

/** The other instruments of the file. */
function* othersStay(before: DesignFile, after: DesignFile, index: number): Steps<boolean> {
  if (before.documents.length !== after.documents.length) return false;
  for (const [i, document] of before.documents.entries()) {
    yield;
    if (i !== index && !isSameDesign(document, after.documents[i])) return false;
  }
  return true;
}

/** What was taken over as it stood has the very same resolution. */
function isSameDesign(before: DesignDocument, after: DesignDocument | undefined): boolean {
  if (before.resolution === after?.resolution) return true;
  return differences(dataOf(before.root), dataOf(after?.root)).length === 0;
}

/** Whether the text can be read less well than before. */
function isWorse(before: DesignDocument, after: DesignDocument): boolean {
  const count = ({ findings }: DesignDocument) => findings.filter(({ code }) => OF_THE_TEXT.test(code)).length;
  return count(after) > count(before);
}

const OF_THE_TEXT = /^(file|schema|expression)\//;

/** Places whose value has changed, and should not have. */
function strays(before: DesignDocument, after: DesignDocument, meant: readonly Meant[]): readonly Path[] {
  const isAllowed = within(meant);
  return differences(dataOf(before.root), dataOf(after.root)).filter((path) => !isAllowed(path));
}

/** Whether a place is one of those meant to change, or stands in one. */
function within(meant: readonly Meant[]): (path: Path) => boolean {
  const allowed = new Set(meant.map(({ path }) => pathKey(path)));
  return (path) => path.some((_, i) => allowed.has(pathKey(path.slice(0, i + 1))));
}

/** Paths of the values in which two trees of data differ, the innermost. */
function differences(before: unknown, after: unknown, path: Path = []): readonly Path[] {
  if (Object.is(before, after)) return [];
  if (Array.isArray(before) && Array.isArray(after)) {
    const length = Math.max(before.length, after.length);
    return Array.from({ length }, (_, i) => i).flatMap((i) => differences(before[i], after[i], [...path, i]));
  }
  // Where nothing was written yet, a group of properties adds them one by one.
  const [old, now] = [before ?? {}, after ?? {}];
  if (!isMap(old) || !isMap(now)) return [path];
  const keys = new Set([...Object.keys(old), ...Object.keys(now)]);
  if (keys.size === 0) return isMap(before) === isMap(after) ? [] : [path];
  return [...keys].flatMap((key) => {
    const [was, is] = [Object.hasOwn(old, key), Object.hasOwn(now, key)];
    return was && is ? differences(old[key], now[key], [...path, key]) : [[...path, key]];
  });
}

/** Whether an alias or a merge key brought a value in. */
function isBroughtIn({ root }: DesignDocument, path: Path): boolean {
  return nodeAt(root, path)?.source !== undefined;
}

/** Edits that write old values out again, as they were written; no two inside one alias. */
function keeping(before: DesignDocument, now: DesignDocument, stray: readonly Path[]): readonly TextEdit[] {
  const places = new Set<string>();
  return stray.flatMap((path) => {
    const old = nodeAt(before.root, path);
    if (old?.kind !== "scalar" || /[\r\n]/.test(old.raw) || old.raw === "") return [];
    const edits = setRaw(now, path, old.raw);
    const place = `${edits[0]?.span.start} ${edits[0]?.span.end}`;
    const replaces = edits.some(({ span }) => span.end > span.start);
    if (replaces && places.has(place)) return [];
    places.add(place);
    return edits;
  });
}

/** Whether every value is what it was meant to become. */
function isMeant({ root, resolution }: DesignDocument, meant: readonly Meant[]): boolean {
  const numbers = new Map(resolution.numbers.map(({ path, value }) => [pathKey(path), value]));
  const data = dataOf(root);
  return meant.every(({ path, value }) => {
    if (value === undefined) return true;
    const written = valueAt(data, path);
    if (typeof value === "string") return written === value;
    return isSame(numbers.get(pathKey(path)) ?? Number(written), value);
  });
}

function finished(
  before: DesignDocument,
  after: DesignDocument,
  changes: TextChanges,
  meant: readonly Meant[],
): CheckedEdits | undefined {
  const numbers = new Map(after.resolution.numbers.map(({ path, value }) => [pathKey(path), value]));
  const isMeantToChange = within(meant);
  const others = before.resolution.numbers.filter(({ path }) => !isMeantToChange(path));
  if (others.some(({ path }) => !numbers.has(pathKey(path)))) return undefined; // a formula that has no value any more
  const followers = others.filter(({ path, value }) => !isSame(numbers.get(pathKey(path)) ?? Number.NaN, value));
  return { edits: changes.edits, text: changes.text, followers: followers.map(({ path }) => path) };
}

function isSame(a: number, b: number): boolean {
  return Math.abs(a - b) <= SAME * Math.max(1, Math.abs(a), Math.abs(b));
}
