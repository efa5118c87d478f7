/** All findings of files and folders, in the order of the files, however the threads finished. */
import { availableParallelism } from "node:os";
import { LineIndex } from "../../document/lineIndex.js";
import { tellFault } from "../failure.js";
import { findDesignFiles, readDesignBytes } from "../files.js";
import type { CheckedFile } from "./checked.js";
import { type CheckOptions, checkFile, type Outcome, unreadable } from "./checkFile.js";
import { Progress } from "./progress.js";
import { checkOnThreads } from "./threads.js";

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

/** What a check works with. */
export interface Means extends CheckOptions {
  /** The bundle to start as a thread. */
  readonly program: string;
  /** Threads to work on; by the number of files if left out. */
  readonly threads?: number | undefined;
}

/** A thread costs what some fifty designs do, until its code is as fast as the first one's: with fewer it would not pay. */
const FILES_PER_THREAD = 50;

/** Whatever is wrong with one file, the others are checked. */
export async function checkPaths(
  paths: readonly string[],
  means: Means,
  given: readonly GivenFile[] = [],
): Promise<Checked> {
  const { files, troubles } = findDesignFiles(paths);
  const outcomes = await checkFiles(files, means);
  return checkedFrom([
    ...troubles.map((trouble): [string, Outcome] => [trouble.file, unreadable(trouble)]),
    ...given.map(({ name, bytes }): [string, Outcome] => [
      name,
      checkFile(name, means, () => readDesignBytes(name, bytes)),
    ]),
    ...files.map((file, i): [string, Outcome] => [file, outcomes[i] ?? { text: "", findings: [] }]),
  ]);
}

/** The outcome of each file, with progress on a terminal. */
export async function checkFiles(files: readonly string[], means: Means): Promise<readonly Outcome[]> {
  const progress = new Progress(files.length);
  const threads = means.threads ?? Math.min(availableParallelism(), Math.floor(files.length / FILES_PER_THREAD));
  try {
    if (threads > 1) return await checkOnThreads(files, means, threads, (file) => progress.done(file));
    return files.map((file) => {
      const outcome = checkFile(file, means);
      progress.done(file);
      return outcome;
    });
  } finally {
    progress.end();
  }
}

/** @param outcomes by the names of their files */
export function checkedFrom(outcomes: readonly (readonly [string, Outcome])[]): Checked {
  for (const [file, { fault }] of outcomes) if (fault !== undefined) tellFault(fault, file);
  return {
    files: outcomes
      .filter(([, { fault }]) => fault === undefined)
      .map(([file, { text, findings }]) => ({ file, lines: new LineIndex(text), findings })),
    incomplete: outcomes.some(([, { incomplete }]) => incomplete === true),
  };
}
