/** Undercutting takes a file and a steady hand: a refit that may undercut holes does so only where the notes gain by it. */
import type { DesignDocument } from "../../document/designFile.js";
import { numberAt } from "../../document/designNumbers.js";
import { removeEntry } from "../../document/removal.js";
import type { TextEdit } from "../../document/textEdit.js";
import { constraintsOf } from "../constraints/constraints.js";
import type { Analysis } from "../predict/analysis.js";
import { largest } from "./inTune.js";
import type { Asking, Written } from "./judgedRefit.js";
import type { RefitOfTheRest } from "./leftAside.js";

/** Cents by which the worst note must come closer for holes to be undercut: a fifth of what listeners hear. */
const WORTH_UNDERCUTTING = 1;

/**
 * The refit of a design, or the one with holes as they are undercut already, where that is as good. @throws CannotRekey, Cancelled
 * @param refit as the design allows it
 */
export function undercutWherePaying(
  there: Written,
  asking: Asking,
  refit: (there: Written, asking: Asking) => RefitOfTheRest,
): RefitOfTheRest {
  if (constraintsOf(there.document).undercut === 0) return refit(there, asking);
  const straight = refit(there, { ...asking, goal: { ...asking.goal, keepsUndercuts: true } });
  if (worstOf(straight) <= WORTH_UNDERCUTTING || asking.goal.isSpent?.()) return straight;
  const undercut = refit(there, asking);
  return isAsGood(straight, undercut) ? straight : undercut;
}

function worstOf({ refit, left }: RefitOfTheRest): number {
  const { fingerings } = refit.after.analysis;
  return largest(
    fingerings.map(({ cents }, index) => (left.includes(index) ? 0 : (cents ?? Number.POSITIVE_INFINITY))),
  );
}

/** Within a cent at the worst note, and no note out of tolerance for it or left aside. */
function isAsGood(straight: RefitOfTheRest, undercut: RefitOfTheRest): boolean {
  const isIn = ({ fingerings, tolerance }: Analysis, index: number) =>
    Math.abs(fingerings[index]?.cents ?? Number.POSITIVE_INFINITY) <= tolerance;
  const [one, other] = [straight, undercut].map(({ refit }) => refit.after.analysis) as [Analysis, Analysis];
  if (straight.left.length > undercut.left.length) return false;
  const gain = worstOf(straight) - worstOf(undercut);
  const keepsAll = other.fingerings.every((_, index) => isIn(one, index) || !isIn(other, index));
  return gain <= 0 || (gain < WORTH_UNDERCUTTING && keepsAll);
}

/** Edits that remove `undercut: 0` from a drawn design where the design stated no undercut before the refit. */
export function withoutStraight(before: DesignDocument, drawn: DesignDocument): readonly TextEdit[] {
  return drawn.resolution.instrument.holes.flatMap(({ path }) => {
    const undercut = [...path, "undercut"];
    const isNew = numberAt(before, undercut) === undefined;
    return isNew && numberAt(drawn, undercut)?.value === 0 ? removeEntry(drawn, undercut) : [];
  });
}
