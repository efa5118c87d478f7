/** The best that a refit has found, also where it is refused as what nobody would make. */
import { OutOfReach } from "../../server/src/design/refit/outOfReach.js";
import type { RekeyResult } from "../../server/src/design/rekey/rekeyResult.js";

export function foundIn(work: () => RekeyResult): RekeyResult {
  try {
    return work();
  } catch (error) {
    if (error instanceof OutOfReach) return error.found;
    throw error;
  }
}
