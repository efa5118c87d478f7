/** mouth/extra: a calibration that takes away more than the mouth has. Asked of the physics, which alone knows the mouth's own length. */
import type { Column } from "../../acoustics/column.js";
import { mouthEnd } from "../../acoustics/mouth.js";
import type { Finding } from "../finding.js";

/** Findings where the mouth of an otherwise whole column cannot be made. */
export function checkMouthExtra(column: Column | undefined): readonly Finding[] {
  if (column === undefined) return [];
  try {
    mouthEnd(column);
    return [];
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    const extra = "extra" in column.mouth && column.mouth.extra !== undefined && column.mouth.extra !== 0;
    const message = extra
      ? "`extra` takes away more than the whole mouth has: nothing would be left to blow across. Measure again, or leave it out."
      : `This mouth cannot be reckoned with: ${error.message}.`;
    return [{ code: "mouth/extra", severity: "error", message, path: extra ? ["mouth", "extra"] : ["mouth"] }];
  }
}
