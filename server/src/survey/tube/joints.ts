/** Where a tube is parted: the outermost wood is another shell's from there on. Fused parts show no joint. */
import type { Profile } from "../mesh/profile.js";
import type { Run, Scan } from "./scan.js";

/** Shells of fewer triangles are ornaments. */
const LEAST_TRIANGLES = 200;
/** More shells are not parts but rags of one surface. */
const MOST_SHELLS = 30;
const HALVINGS = 20;

/** @param triangles of each shell; `from` where to begin */
export function jointsOf(scan: Scan, run: Run, from: number, triangles: Int32Array): readonly number[] {
  const isPart = (shell: number) => shell >= 0 && (triangles[shell] as number) >= LEAST_TRIANGLES;
  if (triangles.length > MOST_SHELLS) return [];
  const joints: number[] = [];
  let last: { readonly z: number; readonly shell: number } | undefined;
  for (const row of scan.rows.slice(run.first, run.last + 1)) {
    if (row.circle === undefined || row.z < from) continue;
    const shell = outermost(row.profile);
    if (!isPart(shell)) continue;
    if (last !== undefined && shell !== last.shell) {
      let [a, b] = [last.z, row.z];
      for (let i = 0; i < HALVINGS; i++) {
        const middle = (a + b) / 2;
        if (outermost(scan.at(middle).profile) === last.shell) a = middle;
        else b = middle;
      }
      joints.push((a + b) / 2);
    }
    last = { z: row.z, shell };
  }
  return joints;
}

/** The shell that most directions see last. */
function outermost({ shell }: Profile): number {
  const tally = new Map<number, number>();
  for (const each of shell) if (each >= 0) tally.set(each, (tally.get(each) ?? 0) + 1);
  return [...tally].sort((a, b) => b[1] - a[1])[0]?.[0] ?? -1;
}
