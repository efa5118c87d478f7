import { t } from "../../words/translation.js";
import { boreDiameterAt } from "../draft/bore.js";
import type { Draft, DraftHole } from "../draft/draft.js";
import type { Finding } from "../finding.js";
import { lengthText } from "../lengthWords.js";
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

/** Wall left between two holes' edges on the bore's surface, unrolled; infinite where a number is missing. */
function gapBetween(a: DraftHole, b: DraftHole, draft: Draft): number {
  if (a.at === undefined || b.at === undefined || a.length === undefined || b.length === undefined)
    return Number.POSITIVE_INFINITY;
  const bore = boreDiameterAt(draft.bore, (a.at + b.at) / 2);
  if (a.angle === undefined || b.angle === undefined || bore === undefined) return Number.POSITIVE_INFINITY;
  const turn = Math.abs(a.angle - b.angle) % 360;
  const across = ((Math.min(turn, 360 - turn) * Math.PI) / 180) * (bore / 2);
  const along = Math.abs(b.at - a.at);
  return Math.hypot(along, across) - reach(a, along, across) - reach(b, along, across);
}

/** From an oval hole's centre to its edge in one direction; of a round one the radius. */
function reach({ diameter = 0, length = diameter }: DraftHole, along: number, across: number): number {
  if (length === diameter || (along === 0 && across === 0)) return diameter / 2;
  return Math.hypot(along, across) / 2 / Math.hypot(along / length, across / diameter);
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
