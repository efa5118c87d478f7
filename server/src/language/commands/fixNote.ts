/** Carries out `borewright.fixNote`: what a click on a hint asks for. */

import { ErrorCodes, MessageType, ResponseError } from "vscode-languageserver";
import type { Steps } from "../../acoustics/steps.js";
import type { Fix } from "../../design/fix/checkedFix.js";
import { findingFixes } from "../../design/fix/findingFixes.js";
import { OUT_OF_TUNE, type OutOfTuneData } from "../../design/rules/outOfTune.js";
import { label } from "../../escape/label.js";
import { t } from "../../words/translation.js";
import type { DesignContext } from "../designContext.js";
import { workspaceEdit } from "../edits.js";
import { sliced } from "../inSlices.js";
import type { CommandHandler } from "./handler.js";
import { type NotePlace, notePlace } from "./names.js";

export const fixNote: CommandHandler = async (session, args, token) => {
  const place = notePlace(args?.[0]);
  if (place === undefined)
    return new ResponseError<void>(ErrorCodes.InvalidParams, t("the command needs the position of a fingering"));
  const found = await session.answer<Fix | "none" | null>("Fix", place.uri, token, null, async (design, stop) => {
    const fix = await sliced(noteFix(design, place), stop);
    if (fix === undefined) return "none";
    const edit = workspaceEdit(design, fix.edits);
    const { applied } = await session.connection.workspace.applyEdit({ label: label(fix.title), edit });
    return applied ? fix : null;
  });
  if (found === "none") session.tell(MessageType.Info, t(NO_FIX));
  return found;
};

const NO_FIX =
  "Nothing was changed: no single change puts this note right, or the text has changed since. The light bulb beside the note offers more.";

/** The fix that is preferred for a note; undefined where it has none, or the place is of another text. */
export function* noteFix(
  design: DesignContext,
  { textName, documentIndex, fingering }: NotePlace,
): Steps<Fix | undefined> {
  const document = design.file.documents[documentIndex];
  if (document === undefined || textName !== design.textName) return undefined;
  const findings = yield* design.findingSteps(document);
  const own = findings.find(
    ({ code, data }) => code === OUT_OF_TUNE && (data as OutOfTuneData | undefined)?.fingerings.includes(fingering),
  );
  if (own === undefined) return undefined;
  const [fix] = yield* findingFixes(design.file, document, design.analysis(document), own, fingering);
  return fix;
}
