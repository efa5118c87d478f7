/** pitch/two-resonances: a note for which two resonances of nearly the same strength compete. */

import type { RuleCode } from "../../instrument/finding.js";
import { nearestNote } from "../../music/tuning.js";
import { decimal } from "../../words/decimal.js";
import { t } from "../../words/translation.js";
import { nameOfFingering } from "../predict/governing.js";
import { rivalOf } from "../predict/rival.js";
import type { Rule } from "./rule.js";

const TWO_RESONANCES: RuleCode = "pitch/two-resonances";

export const twoResonances: Rule = {
  code: TWO_RESONANCES,
  check: ({ fingerings, instrument: { tuning } }) =>
    fingerings.flatMap((prediction) => {
      const rival = rivalOf(prediction);
      if (rival === undefined || prediction.predictedHz === undefined) return [];
      const sound = (hz: number) => {
        const note = nearestNote(hz, tuning)?.note.name;
        return t`${decimal(hz.toFixed(1))} Hz${note === undefined ? "" : t` (near ${note})`}`;
      };
      const apart = t`${Math.abs(rival.cents).toFixed(0)} cents ${rival.cents > 0 ? t("higher") : t("lower")}`;
      const message =
        t`${nameOfFingering(prediction)} may sound at ${sound(prediction.predictedHz)}, or ${apart} at ${sound(rival.frequency)}: ` +
        t`a part of the tube below the open holes resonates ${rival.isStronger ? t("more") : t("nearly as")} strongly. Change the length of the bore, or open or close a hole below.`;
      return [{ code: TWO_RESONANCES, severity: "warning" as const, message, path: prediction.fingering.path }];
    }),
};
