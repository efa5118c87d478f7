/** On `measured`: the bench's order of work written above the notes, and its first step written as done. */

import { CodeActionKind } from "vscode-languageserver";
import { isDescribed } from "../../instrument/body.js";
import { t } from "../../words/translation.js";
import type { ChangeWork } from "../longWork/job.js";
import { type ActionPlace, measuredSpan, type OfferedAction, touches, wanted } from "./action.js";

const KIND = CodeActionKind.RefactorRewrite;

/** Planned when chosen: it takes some tenths of a second. */
export function benchActions(place: ActionPlace, only: readonly string[] | undefined): OfferedAction[] {
  const { context, document, selection } = place;
  const { instrument } = document.resolution;
  const span = measuredSpan(place);
  if (!wanted(only, KIND) || span === undefined || !touches(span, selection)) return [];
  if (instrument.measured.length === 0 || !isDescribed(instrument.body)) return [];
  const offer = (title: string, work: ChangeWork): OfferedAction => ({
    action: { title, kind: KIND },
    recipe: { uri: context.uri, textName: context.textName, documentIndex: document.index, work, preview: false },
  });
  return [
    ...(document.syntax === "json"
      ? []
      : [offer(t("Bench: write the order of work above the measured notes"), { do: "bench", write: "plan" })]),
    offer(t("Bench: the first step is done; write its size and remove the notes measured before"), {
      do: "bench",
      write: "first step",
    }),
  ];
}
