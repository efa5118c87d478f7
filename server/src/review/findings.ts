/** Findings that only one of the two versions has. */
import type { PlacedFinding } from "../document/designFile.js";
import type { Correspondence } from "./match/correspondence.js";
import type { Version } from "./version.js";

export interface FindingChanges {
  readonly came: readonly PlacedFinding[];
  readonly went: readonly PlacedFinding[];
}

/** Findings are the same if code, place and severity are: the numbers may have changed. */
export function findingChanges(old: Version, next: Version, { identity }: Correspondence): FindingChanges {
  const keyed = (version: Version, side: "old" | "next") =>
    version.findings.map((finding) => ({
      finding,
      key: `${finding.code} ${finding.severity} ${identity(finding.path, side)}`,
    }));
  const [before, after] = [keyed(old, "old"), keyed(next, "next")];
  const without = (all: typeof before, others: typeof before) => {
    const known = new Map<string, number>();
    for (const { key } of others) known.set(key, (known.get(key) ?? 0) + 1);
    return all
      .filter(({ key }) => {
        const left = known.get(key) ?? 0;
        known.set(key, left - 1);
        return left <= 0;
      })
      .map(({ finding }) => finding);
  };
  return { came: without(after, before), went: without(before, after) };
}
