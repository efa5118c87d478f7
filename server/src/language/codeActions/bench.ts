/** On `measured`: the bench's order of work written above the notes, and its first step written as done. On `bench`: the design drawn flat. */

import { CodeActionKind } from "vscode-languageserver";
import { isDescribed } from "../../instrument/body.js";
import { t } from "../../words/translation.js";
import type { ChangeWork } from "../longWork/job.js";
import { type ActionPlace, type OfferedAction, sectionSpan, touches, wanted } from "./action.js";

const KIND = CodeActionKind.RefactorRewrite;

/** Planned when chosen: it takes some tenths of a second. */
export function benchActions(place: ActionPlace, only: readonly string[] | undefined): OfferedAction[] {
  const { instrument } = place.document.resolution;
  if (!wanted(only, KIND) || !isDescribed(instrument.body)) return [];
  return [...onMeasured(place), ...onBench(place)];
}

function onMeasured(place: ActionPlace): OfferedAction[] {
  const { document, selection } = place;
  const span = sectionSpan(place, "measured");
  if (span === undefined || !touches(span, selection) || document.resolution.instrument.measured.length === 0)
    return [];
  return [
    ...(document.syntax === "json"
      ? []
      : [offer(place, t("Bench: write the order of work above the measured notes"), { do: "bench", write: "plan" })]),
    offer(place, t("Bench: the first step is done; write its size and remove the notes measured before"), {
      do: "bench",
      write: "first step",
    }),
  ];
}

/** On `bench`, which says how flat. */
function onBench(place: ActionPlace): OfferedAction[] {
  const { drawnFlat } = place.document.resolution.instrument;
  const span = sectionSpan(place, "bench");
  if (span === undefined || !touches(span, place.selection) || !(drawnFlat.holes > 0 || drawnFlat.length > 0))
    return [];
  const title = t("Bench: bring it into tune and draw mouth, holes and foot flat, as `bench` says");
  return [offer(place, title, { do: "bench", write: "drawn flat" }, true)];
}

function offer({ context, document }: ActionPlace, title: string, work: ChangeWork, preview = false): OfferedAction {
  return {
    action: { title, kind: KIND },
    recipe: { uri: context.uri, textName: context.textName, documentIndex: document.index, work, preview },
  };
}
