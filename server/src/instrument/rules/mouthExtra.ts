/** mouth/extra: a calibration that takes away more than the mouth has. The physics decides, since only it knows the mouth's own length. */
import { chaigneKergomardAir } from "../../acoustics/air.js";
import { mouthEnd } from "../../acoustics/mouth.js";
import { Resonator } from "../../acoustics/vessel.js";
import { t } from "../../words/translation.js";
import { type Body, columnsOf, roundShape } from "../body.js";
import type { Finding } from "../finding.js";
import type { BodyRule } from "./rule.js";

/** Lengths do not depend on it. */
const STANDARD_AIR = chaigneKergomardAir(20);

export const mouthExtra: BodyRule = { code: "mouth/extra", check: checkMouthExtra };

/** Findings where the mouth of an otherwise whole column cannot be made. */
function checkMouthExtra(body: Body): readonly Finding[] {
  const [columns, shape] = [columnsOf(body), roundShape(body)];
  const mouth = shape?.mouth ?? columns[0]?.mouth;
  if (mouth === undefined) return [];
  try {
    // What a wide pipe's mouth can spare is more than a narrow one's.
    for (const each of columns) mouthEnd(each);
    if (shape !== undefined) new Resonator(shape, STANDARD_AIR);
    return [];
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    const extra = "extra" in mouth && mouth.extra !== undefined && mouth.extra !== 0;
    const message = extra
      ? t(
          "`extra` takes away more than the whole mouth has: nothing would be left to blow across. Measure again, or leave it out.",
        )
      : t`This mouth cannot be calculated: ${error.message}.`;
    return [{ code: "mouth/extra", severity: "error", message, path: extra ? ["mouth", "extra"] : ["mouth"] }];
  }
}
