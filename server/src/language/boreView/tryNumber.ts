/** The effect of a number on an instrument, and the edit that writes it: nothing is changed yet. */
import type { Steps } from "../../acoustics/steps.js";
import { changeByLever, leverOf } from "../../design/edit/lever.js";
import type { DesignDocument } from "../../document/designFile.js";
import { applyEdits } from "../../document/edits.js";
import type { Path } from "../../instrument/finding.js";
import type { TrialAnswer } from "../../protocol/boreView.js";
import { t } from "../../words/translation.js";
import type { DesignContext } from "../designContext.js";
import { boreViewSteps } from "./data.js";

/** Step by step. @param reopened the same file with another text, in the same settings */
export function* tryNumberSteps(
  context: DesignContext,
  { path, value, documentIndex }: { readonly path: Path; readonly value: number; readonly documentIndex: number },
  reopened: (text: string) => Steps<DesignContext>,
): Steps<TrialAnswer> {
  const document = context.file.documents[documentIndex];
  if (document === undefined) return { edits: [], refused: t("The instrument is no longer there.") };
  const lever = leverOf(document, path);
  if (lever === undefined) return { edits: [], refused: t("This is not a number of the design.") };
  if ("refused" in lever) return { edits: [], refused: lever.refused };
  const edits = changeByLever(document, path, value);
  const after = yield* reopened(applyEdits(context.file.text, edits));
  const trial = after.file.documents[documentIndex];
  const refused = trial && newTrouble(document, trial);
  if (trial === undefined || refused !== undefined)
    return { edits: [], refused: refused ?? t("The text could no longer be read.") };
  const { view, trouble } = yield* boreViewSteps(after, trial, true);
  if (view === undefined) return { edits: [], refused: trouble ?? t("There would be nothing to draw.") };
  return { view, edits: edits.map(({ span, text }) => ({ ...span, text })) };
}

/** An error that the design did not have before. */
function newTrouble(before: DesignDocument, after: DesignDocument): string | undefined {
  const known = new Set(before.findings.map(({ code, path }) => `${code} ${path.join(".")}`));
  return after.findings.find(
    ({ severity, code, path }) => severity === "error" && !known.has(`${code} ${path.join(".")}`),
  )?.message;
}
