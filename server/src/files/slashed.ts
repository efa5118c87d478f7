import { sep } from "node:path";

/** A path with slashes between its parts, as addresses, patterns, git and reports have them on every system. */
export function slashed(path: string, separator: string = sep): string {
  return path.split(separator).join("/");
}
