/** Carries out `borewright.showWorstNote`: what a click on an instrument's summary does in every client. */

import { ErrorCodes, MessageType, type Range, ResponseError } from "vscode-languageserver";
import { spanOf } from "../../document/locate.js";
import { label } from "../../escape/label.js";
import { t } from "../../words/translation.js";
import { summaryOf } from "../codeLens.js";
import { rangeOf } from "../designContext.js";
import { numbered, worstOf } from "../governing.js";
import { sliced } from "../inSlices.js";
import { fingeringName } from "../words.js";
import type { CommandHandler } from "./handler.js";

interface Worst {
  /** Where it stands; nowhere while nothing is predicted. */
  readonly range?: Range;
  readonly name: string;
  readonly summary: string;
}

export const showWorst: CommandHandler = async (session, args, token) => {
  const { uri, documentIndex } = (args?.[0] ?? {}) as Record<string, unknown>;
  if (typeof uri !== "string" || typeof documentIndex !== "number")
    return new ResponseError<void>(ErrorCodes.InvalidParams, t("the command needs `uri` and `documentIndex`"));
  const worst = await session.answer<Worst | null>("Worst note", uri, token, null, async (design, stop) => {
    const document = design.file.documents[documentIndex];
    if (document === undefined) return null;
    const analysis = await sliced(design.analysisSteps(document), stop);
    const note = worstOf(numbered(analysis));
    const summary = label(summaryOf(analysis));
    if (note === undefined) return { name: "", summary };
    const range = rangeOf(design, spanOf(document, note.fingering.path));
    return { range, name: label(fingeringName(note.fingering, note.index)), summary };
  });
  if (worst === null || worst instanceof ResponseError) return worst;
  const { range, name, summary } = worst;
  if (range !== undefined && session.client.showsDocuments)
    await session.connection.window.showDocument({ uri, selection: range, takeFocus: true });
  else {
    const place = range === undefined ? "" : t` ${name} stands on line ${range.start.line + 1}.`;
    session.tell(MessageType.Info, `${summary}.${place}`);
  }
  return range ?? null;
};
