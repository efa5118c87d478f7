/** `check --watch`: checks again what has changed, until the program is ended. */
import { statSync } from "node:fs";
import { resolve, sep } from "node:path";
import { watch } from "chokidar";
import picomatch from "picomatch";
import { SKIPPED_FOLDERS } from "../../files/findFiles.js";
import { toldFailure } from "../failure.js";
import { findDesignFiles, isDesignName } from "../files.js";
import { print } from "../output.js";
import { plural } from "../plural.js";
import { type Outcome, unreadable } from "./checkFile.js";
import { type Checked, checkedFrom, checkFiles, type Means } from "./checkPaths.js";

/** Changes that come together are one: an editor that saves all, a branch that is switched. Milliseconds. */
const TOGETHER = 100;

/** What is known about a file, and for which state of it. */
interface Seen {
  readonly state: string;
  readonly outcome: Outcome;
}

/**
 * Never ends, whatever happens to the files. Rejects where they cannot be checked at first.
 * @param tell is given all files after each change, those that did not change as they were
 */
export async function watchPaths(
  paths: readonly string[],
  means: Means,
  tell: (checked: Checked) => void,
): Promise<never> {
  let seen: ReadonlyMap<string, Seen> = new Map();
  const look = async (first: boolean) => {
    const { files, troubles } = findDesignFiles(paths);
    const states = files.map(stateOf);
    const changed = files.filter((file, i) => seen.get(file)?.state !== states[i]);
    if (!first && changed.length === 0 && files.length === seen.size) return;
    print([`Checking ${plural(changed.length, "file")}…`]);
    const outcomes = new Map((await checkFiles(changed, means)).map((outcome, i) => [changed[i], outcome]));
    seen = new Map(
      files.flatMap((file, i): [string, Seen][] => {
        const outcome = outcomes.get(file) ?? seen.get(file)?.outcome;
        return outcome === undefined ? [] : [[file, { state: states[i] ?? "", outcome }]];
      }),
    );
    const told = troubles.map((trouble): [string, Outcome] => [trouble.file, unreadable(trouble)]);
    tell(checkedFrom([...told, ...[...seen].map(([file, { outcome }]): [string, Outcome] => [file, outcome])]));
  };

  let wanted: NodeJS.Timeout | undefined;
  let looking: Promise<unknown> = Promise.resolve();
  const lookSoon = () => {
    clearTimeout(wanted);
    wanted = setTimeout(() => {
      looking = looking.then(() => look(false)).catch(toldFailure);
    }, TOGETHER);
  };
  const watcher = watch(paths.map(rootOf), { ignoreInitial: true, ignored: isOfNoInterest });
  // Listening begins before the first look, so that no change falls between.
  watcher.on("all", lookSoon).on("ready", lookSoon).on("error", lookSoon);
  try {
    await look(true);
  } catch (error) {
    await watcher.close();
    throw error;
  }
  return new Promise(() => undefined);
}

/** Where a pattern begins; a file or folder itself. */
function rootOf(path: string): string {
  const stats = statSync(path, { throwIfNoEntry: false });
  return stats === undefined && picomatch.scan(path).isGlob ? picomatch.scan(path).base || "." : path;
}

/** Other people's folders, and files that are not designs. */
function isOfNoInterest(path: string, stats?: { isFile(): boolean }): boolean {
  if (
    resolve(path)
      .split(sep)
      .some((part) => SKIPPED_FOLDERS.has(part))
  )
    return true;
  return stats?.isFile() === true && !isDesignName(path);
}

/** Another one after each write. Missing, or not to be looked at, is a state, too. */
function stateOf(file: string): string {
  try {
    const { mtimeMs, size, ino } = statSync(file);
    return `${mtimeMs} ${size} ${ino}`;
  } catch (error) {
    return String(error);
  }
}
