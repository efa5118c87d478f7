/** The best that a refit has found, also where it is refused as what nobody would make. */
import { OutOfReach } from "../../server/src/design/refit/outOfReach.js";
import type { RekeyResult } from "../../server/src/design/rekey/rekeyResult.js";

/** @param onRefusal called where it is refused */
export function foundIn(work: () => RekeyResult, onRefusal?: () => void): RekeyResult {
  try {
    return work();
  } catch (error) {
    if (!(error instanceof OutOfReach)) throw error;
    onRefusal?.();
    return error.found;
  }
}
