/** pitch/no-resonance: a fingering whose register the air column does not have. */
import type { RuleCode } from "../../instrument/finding.js";
import { nameOfFingering } from "../governing.js";
import type { Rule } from "./rule.js";

const NO_RESONANCE: RuleCode = "pitch/no-resonance";

export const noResonance: Rule = {
  code: NO_RESONANCE,
  title: "fingerings whose register does not exist",
  check: (analysis) =>
    analysis.instrument.column === undefined
      ? []
      : analysis.fingerings.flatMap((prediction) => {
          const { fingering } = prediction;
          if (fingering.covers === undefined || prediction.predictedHz !== undefined) return [];
          return {
            code: NO_RESONANCE,
            severity: "warning" as const,
            message: `${nameOfFingering(prediction)}: the air column has no register ${fingering.register} with this fingering. Try a lower register or another fingering.`,
            path: [...fingering.path, "register"],
          };
        }),
};
