import { t } from "../../words/translation.js";
import { boreDiameterAt } from "../draft/bore.js";
import type { Draft, DraftHole } from "../draft/draft.js";
import type { Finding } from "../finding.js";
import { lengthText } from "../lengthWords.js";
import { type SurfaceOpening, wallGap } from "../making/wallGap.js";
import { LENGTH_SLACK, type Rule } from "./rule.js";

/** Two holes leave wall between them. */
export const holeOverlap: Rule = {
  code: "hole/overlap",
  check: (draft) =>
    draft.holes.flatMap((hole, i) => {
      const other = draft.holes
        .slice(0, i)
        .find((earlier) => canMeet(earlier, hole) && gapBetween(earlier, hole, draft) <= LENGTH_SLACK);
      return other === undefined ? [] : [findingOf(other, hole, draft)];
    }),
};

/** Whether they are near enough along the bore: most pairs are not, and the bore's width between them is looked up for none of these. */
function canMeet(a: DraftHole, b: DraftHole): boolean {
  const halves = [a, b].map(({ diameter = 0, length = diameter }) => Math.max(diameter, length) / 2);
  const along = Math.abs((a.at ?? Number.NaN) - (b.at ?? Number.NaN));
  return along <= halves.reduce((sum, half) => sum + half, LENGTH_SLACK);
}

/** Infinite where a number is missing. */
function gapBetween(a: DraftHole, b: DraftHole, draft: Draft): number {
  const [one, other] = [openingOf(a), openingOf(b)];
  const bore = one && other && boreDiameterAt(draft.bore, (one.at + other.at) / 2);
  return one === undefined || other === undefined || bore === undefined
    ? Number.POSITIVE_INFINITY
    : wallGap(one, other, bore / 2);
}

function openingOf({ at, angle, length, diameter }: DraftHole): SurfaceOpening | undefined {
  if (at === undefined || angle === undefined || length === undefined || diameter === undefined) return undefined;
  return { at, angle, length, width: diameter };
}

function findingOf(other: DraftHole, hole: DraftHole, draft: Draft): Finding {
  const gap = gapBetween(other, hole, draft);
  const how = gap < -LENGTH_SLACK ? t`overlap by ${lengthText(-gap, draft)}` : t("touch");
  return {
    code: "hole/overlap",
    severity: "error",
    message: t`${hole.label} and ${other.label} ${how}, and no wall is left between them. Move them apart or make one smaller.`,
    path: [...hole.path, "at"],
    related: [{ path: [...other.path, "at"], message: other.label }],
  };
}
