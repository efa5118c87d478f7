/** Changes shown before they are made: a refit, another key, or a fix, with all that the view draws of the result. */
import {
  type CodeAction,
  CodeActionKind,
  type TextEdit as ProtocolEdit,
  TextDocumentEdit,
} from "vscode-languageserver";
import type { Steps } from "../../acoustics/steps.js";
import { CannotRekey } from "../../design/rekey/rekeyResult.js";
import type { DesignDocument } from "../../document/designFile.js";
import { applyEdits } from "../../document/edits.js";
import { spanOf } from "../../document/locate.js";
import type { TextEdit } from "../../document/textEdit.js";
import { label } from "../../escape/label.js";
import type { ProposalAnswer, ProposedChange } from "../../protocol/boreView.js";
import { t } from "../../words/translation.js";
import { codeActions, recipeOf } from "../codeActions/index.js";
import { type DesignContext, rangeOf } from "../designContext.js";
import { sliced } from "../inSlices.js";
import type { ChangeWork } from "../longWork/job.js";
import { jobOn } from "../longWork/jobOn.js";
import type { LongWork } from "../longWork/longWork.js";
import { boreViewSteps } from "./data.js";

interface Working {
  readonly longWork: LongWork;
  readonly shouldStop: () => boolean;
  /** The same file with another text, in the same settings. */
  readonly reopened: (text: string) => Steps<DesignContext>;
}

/** Rejects with Cancelled. */
export async function proposal(
  context: DesignContext,
  document: DesignDocument,
  change: ProposedChange,
  working: Working,
): Promise<ProposalAnswer> {
  const { longWork, shouldStop, reopened } = working;
  try {
    const { edits, title, says } = await worked(context, document, change, longWork, shouldStop);
    const none = { edits: [], title, says };
    if (edits.length === 0) return { ...none, refused: says.join(" ") || t("There is nothing to change.") };
    const after = await sliced(reopened(applyEdits(context.file.text, edits)), shouldStop);
    const result = after.file.documents[document.index];
    if (result === undefined) return { ...none, refused: t("The text could no longer be read.") };
    const { view, trouble } = await sliced(boreViewSteps(after, result), shouldStop);
    if (view === undefined) return { ...none, refused: trouble ?? t("There would be nothing to draw.") };
    return { view, title, says, edits: edits.map(({ span, text }) => ({ ...span, text })) };
  } catch (error) {
    if (!(error instanceof CannotRekey)) throw error;
    return { edits: [], title: titleOf(document, change), says: [], refused: label(error.message) };
  }
}

interface Worked {
  readonly edits: readonly TextEdit[];
  readonly title: string;
  readonly says: readonly string[];
}

async function worked(
  context: DesignContext,
  document: DesignDocument,
  change: ProposedChange,
  longWork: LongWork,
  shouldStop: () => boolean,
): Promise<Worked> {
  const title = titleOf(document, change);
  if (change.do !== "fix") return { ...(await done(change)), title };
  const action = (await fixesAt(context, document, change.row, shouldStop)).find((each) => each.title === change.title);
  if (action === undefined) throw new CannotRekey(t("this fix is no longer offered: the text has changed"));
  const recipe = recipeOf(action);
  if (recipe !== undefined) return { ...(await done(recipe.work)), title };
  return { edits: editsOf(context, action), title, says: [] };

  async function done(work: ChangeWork) {
    const { edits, says } = await longWork.run(jobOn(context, document.index, work), shouldStop);
    return { edits, says: says.map(label) };
  }
}

/** The quick fixes at a fingering that change the instrument, as the light bulb has them. Rejects with Cancelled. */
export async function fixesAt(
  context: DesignContext,
  document: DesignDocument,
  row: number,
  shouldStop: () => boolean,
): Promise<readonly CodeAction[]> {
  const path = document.resolution.instrument.fingerings[row]?.path;
  if (path === undefined) return [];
  const { start, end } = rangeOf(context, spanOf(document, path));
  // One sign in: a block's end is where the next entry begins.
  const range = end.line > start.line ? { start, end: start } : { start, end };
  const asked = { range, context: { only: [CodeActionKind.QuickFix], diagnostics: [] } };
  const resolving = { ...context, client: { ...context.client, resolvesCodeActions: true } };
  const kinds = ["fixes of holes", "fixes of all notes together", "retuning"] as const;
  return codeActions(resolving, asked, { shouldStop, kinds });
}

function editsOf({ text }: DesignContext, { edit }: CodeAction): readonly TextEdit[] {
  const listed: ProtocolEdit[] = [
    ...Object.values(edit?.changes ?? {}).flat(),
    ...(edit?.documentChanges ?? []).flatMap((each) =>
      TextDocumentEdit.is(each) ? (each.edits as ProtocolEdit[]) : [],
    ),
  ];
  return listed.map(({ range, newText }) => ({
    span: { start: text.offsetAt(range.start), end: text.offsetAt(range.end) },
    text: newText,
  }));
}

const WAYS = { "print-scale": "by print scale", redraw: "by redraw", refit: "by refit" } as const;

function titleOf(document: DesignDocument, change: ProposedChange): string {
  switch (change.do) {
    case "fix":
      return change.title;
    case "rekey":
      return `${document.resolution.instrument.key?.name ?? ""} → ${change.to} ${t(WAYS[change.by])}`.trim();
    case "retune":
      return change.freedom === "holes" ? t("Every hole in tune, bore kept") : t("Every note in tune");
  }
}
