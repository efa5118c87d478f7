/** Undercutting takes a file and a steady hand: a refit that may undercut holes does so only where the notes gain by it. */
import { TextChanges } from "../../document/changes.js";
import type { DesignDocument } from "../../document/designFile.js";
import { numberAt } from "../../document/designNumbers.js";
import { removeEntry } from "../../document/removal.js";
import type { TextEdit } from "../../document/textEdit.js";
import { nodeAt } from "../../document/tree.js";
import type { Path } from "../../instrument/finding.js";
import { constraintsOf } from "../constraints/constraints.js";
import type { Analysis } from "../predict/analysis.js";
import { largest } from "./inTune.js";
import { type Asking, type Written, written } from "./judgedRefit.js";
import type { RefitOfTheRest } from "./leftAside.js";

/** Cents by which the worst note must come closer for holes to be undercut: a fifth of what anybody hears. */
const WORTH_UNDERCUTTING = 1;
const ALLOWED: Path = ["refit", "undercut"];

/**
 * The refit of a design, or the one with holes as they are undercut already, where that is as good. @throws CannotRekey, Cancelled
 * @param refit as the design allows it
 */
export function undercutWherePaying(
  there: Written,
  asking: Asking,
  refit: (there: Written, asking: Asking) => RefitOfTheRest,
): RefitOfTheRest {
  const straight = constraintsOf(there.document).undercut > 0 ? withoutMore(there, asking, refit) : undefined;
  if (straight === undefined) return refit(there, asking);
  if (worstOf(straight) <= WORTH_UNDERCUTTING || asking.goal.isSpent?.()) return straight;
  const undercut = refit(there, asking);
  return isAsGood(straight, undercut) ? straight : undercut;
}

/** With `refit.undercut` at nothing meanwhile; its edits are of the text that allows it. Undefined where that is not written here. */
function withoutMore(
  there: Written,
  asking: Asking,
  refit: (there: Written, asking: Asking) => RefitOfTheRest,
): RefitOfTheRest | undefined {
  const { file, document } = there;
  const node = nodeAt(document.root, ALLOWED);
  if (node?.kind !== "scalar" || node.source !== undefined || numberAt(document, ALLOWED) === undefined)
    return undefined;
  const { index } = document;
  const again = (text: string) => written({ text, syntax: file.syntax }, index, asking.settings, asking.options);
  const changes = new TextChanges(file.text);
  changes.make([{ span: node.span, text: "0" }]);
  const found = refit(again(changes.text), asking);
  changes.make(found.refit.edits);
  const { span } = nodeAt(found.refit.after.document.root, ALLOWED) ?? node;
  changes.make([{ span, text: file.text.slice(node.span.start, node.span.end) }]);
  const { edits } = changes;
  return { ...found, refit: { ...found.refit, edits, after: again(changes.text) } };
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

/** Edits that take out of a drawn design what says that a hole is straight, where the design said nothing of it before the refit. */
export function withoutStraight(before: DesignDocument, drawn: DesignDocument): readonly TextEdit[] {
  return drawn.resolution.instrument.holes.flatMap(({ path }) => {
    const undercut = [...path, "undercut"];
    const isNew = numberAt(before, undercut) === undefined;
    return isNew && numberAt(drawn, undercut)?.value === 0 ? removeEntry(drawn, undercut) : [];
  });
}
