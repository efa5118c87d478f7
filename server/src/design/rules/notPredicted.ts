/** model/not-predicted: what lies beyond the work that the findings of one file may take. */

import { sharedColumn } from "../../instrument/body.js";
import { bodyTraits } from "../../instrument/families/bodyTraits.js";
import type { RuleCode } from "../../instrument/finding.js";
import { t } from "../../words/translation.js";
import type { Analysis } from "../predict/analysis.js";
import { nameOfFingering } from "../predict/governing.js";
import type { Rule } from "./rule.js";

export const NOT_PREDICTED: RuleCode = "model/not-predicted";

export const notPredicted: Rule = {
  code: NOT_PREDICTED,
  check: (analysis) => {
    const left = analysis.fingerings.filter(({ isBeyondBudget }) => isBeyondBudget);
    const [first] = left;
    if (first === undefined) return [];
    const asked = analysis.fingerings.length;
    const which =
      left.length === asked
        ? t`None of the ${asked} fingerings is`
        : t`${left.length} of ${asked} fingerings, from ${nameOfFingering(first)} on, are not`;
    const message = t`${which} predicted here: with ${sizeInWords(analysis)} it would take too long. Describe fewer fingerings or holes in one file; \`borewright pitch\` predicts them all.`;
    return [{ code: NOT_PREDICTED, severity: "warning", message, path: first.fingering.path }];
  },
};

function sizeInWords({ instrument: { holes, body }, fingerings }: Analysis): string {
  if (bodyTraits(body).notesApart) return t`${fingerings.length} pipes`;
  const stations = sharedColumn(body)?.bore.length ?? 0;
  return stations > holes.length ? t`${holes.length} holes and ${stations} stations` : t`${holes.length} holes`;
}
