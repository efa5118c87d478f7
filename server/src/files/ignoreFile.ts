/** Which files a folder's ignore file leaves out. */
import { dirname, isAbsolute, relative, resolve } from "node:path";
import ignore from "ignore";
import { FileTrouble } from "./fileTrouble.js";
import { readText } from "./readText.js";
import { slashed } from "./slashed.js";

/** Whether a path, as found, is left out. */
export type Ignored = (path: string, isFolder: boolean) => boolean;

/** An ignore file of thousands of lines is smaller. */
const MOST_BYTES = 1_000_000;

/**
 * Reads patterns as `.gitignore` has them; they count from the folder the file stands in. A file that is not there ignores nothing.
 * @throws FileTrouble where it is there and cannot be read
 */
export function ignoredBy(file: string): Ignored {
  const patterns = ignore().add(textOrNothing(file));
  const folder = resolve(dirname(file));
  return (path, isFolder) => {
    const inside = slashed(relative(folder, resolve(path)));
    if (inside === "" || inside === ".." || inside.startsWith("../") || isAbsolute(inside)) return false;
    return patterns.ignores(isFolder ? `${inside}/` : inside);
  };
}

function textOrNothing(file: string): string {
  try {
    return readText(file, MOST_BYTES).text;
  } catch (error) {
    if (error instanceof FileTrouble && error.isMissing) return "";
    throw error;
  }
}
