/** pitch/no-resonance: a fingering whose register the air column does not have. */

import { columnFor, isDescribed, roundShape } from "../../instrument/body.js";
import { bodyTraits } from "../../instrument/families/bodyTraits.js";
import type { RuleCode } from "../../instrument/finding.js";
import { t } from "../../words/translation.js";
import { nameOfFingering } from "../predict/governing.js";
import type { Rule } from "./rule.js";

const NO_RESONANCE: RuleCode = "pitch/no-resonance";

export const noResonance: Rule = {
  code: NO_RESONANCE,
  check: (analysis) =>
    analysis.refusal !== undefined
      ? [
          {
            code: NO_RESONANCE,
            severity: "error" as const,
            message: t`This instrument cannot be calculated: ${t(analysis.refusal)}. Look for a missing or misplaced decimal point.`,
            path: [],
          },
        ]
      : !isDescribed(analysis.instrument.body)
        ? []
        : analysis.fingerings.flatMap((prediction, index) => {
            const { fingering } = prediction;
            const { body } = analysis.instrument;
            if (fingering.covers === undefined || prediction.predictedHz !== undefined) return [];
            // Nobody has looked.
            if (prediction.isBeyondBudget) return [];
            // A pipe that is not fully described has its own finding.
            if (bodyTraits(body).notesApart && columnFor(body, index) === undefined) return [];
            const message =
              roundShape(body) !== undefined && fingering.register > 1
                ? t`${nameOfFingering(prediction)}: a vessel sounds in one register only. Remove \`register\` and open more holes.`
                : t`${nameOfFingering(prediction)}: the air column has no register ${fingering.register} with this fingering. Try a lower register or another fingering.`;
            return {
              code: NO_RESONANCE,
              severity: "warning" as const,
              message,
              path: [...fingering.path, "register"],
            };
          }),
};
