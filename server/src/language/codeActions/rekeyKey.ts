/** On the key: the design in the keys around it, by print scale, redrawn or refitted, and the command that asks for any other. */

import { CodeActionKind, type Command } from "vscode-languageserver";
import type { Steps } from "../../acoustics/steps.js";
import { Budget, within } from "../../acoustics/work.js";
import { growthOf } from "../../design/refit/growthOf.js";
import { printScalePercent } from "../../design/rekey/printScale.js";
import { REKEY_METHODS, type RekeyMethod } from "../../design/rekey/rekeyResult.js";
import { sizeFactorSteps } from "../../design/rekey/sizeFactor.js";
import type { Span } from "../../document/span.js";
import { isDescribed } from "../../instrument/body.js";
import { type Note, noteFromMidi } from "../../music/note.js";
import { t } from "../../words/translation.js";
import { ANSWER_WORK } from "../bandsInTime.js";
import { REKEY_TO_COMMAND } from "../codeLens.js";
import type { DesignContext } from "../designContext.js";
import { type ActionPlace, type OfferedAction, touches, wanted } from "./action.js";

const KIND = CodeActionKind.RefactorRewrite;
/** The keys offered, in semitones from the present one, nearest first. */
const STEPS = [-1, 1, -2, 2];

/** Step by step. */
export function* rekeyActions(place: ActionPlace, only: readonly string[] | undefined): Steps<OfferedAction[]> {
  const { context, document, selection } = place;
  const { instrument } = document.resolution;
  const { key } = instrument;
  const span = keySpan(place);
  if (!wanted(only, KIND) || span === undefined || !touches(span, selection)) return [];
  if (key === undefined || !isDescribed(instrument.body)) return [];
  const analysis = yield* context.analysisSteps(document);
  const budget = new Budget(ANSWER_WORK);
  const notes: { readonly to: Note; readonly factor: number | undefined }[] = [];
  for (const to of STEPS.flatMap((step) => noteFromMidi(key.midi + step) ?? []))
    notes.push({ to, factor: yield* within(budget, sizeFactorSteps(document.resolution, analysis, { key: to })) });
  const offered = REKEY_METHODS.flatMap((by) => notes.map(({ to, factor }) => offer(place, to, by, factor)));
  return [...offered, ...askForNote(context, document.index)];
}

/** The whole entry: its name, its colon and its value. */
function keySpan({ document: { root } }: ActionPlace): Span | undefined {
  const entry = root?.kind === "map" ? root.entries.find((other) => other.key === "key" && !other.merged) : undefined;
  return entry && { start: entry.keySpan.start, end: Math.max(entry.keySpan.end, entry.value.span.end) };
}

/** The title has the very size that the edit writes, none where that would take too long to wait for. A redraw is rounded dimension by dimension: its own may differ a little. */
function offer(
  { context, document }: ActionPlace,
  to: Note,
  by: RekeyMethod,
  factor: number | undefined,
): OfferedAction {
  const { printScale } = document.resolution.instrument;
  const titles: Record<RekeyMethod, string> = {
    "print-scale": t`Rekey to ${to.name} by print scale${factor === undefined ? "" : ` (${printScalePercent(printScale * factor)} %)`}`,
    redraw: t`Rekey to ${to.name} by redraw${factor === undefined ? "" : t` (every dimension × ${factor.toFixed(3)})`}`,
    refit:
      growthOf(document) > 0
        ? t`Refit to ${to.name} (walls and hands stay; bore, mouth and holes take a share of the length's growth)`
        : t`Refit to ${to.name} (walls, hands and mouth stay; holes and bore move)`,
  };
  return {
    action: { title: titles[by], kind: KIND },
    recipe: {
      uri: context.uri,
      textName: context.textName,
      documentIndex: document.index,
      work: { do: "rekey", to: to.name, by },
      preview: by === "refit",
    },
  };
}

function askForNote({ client, uri }: DesignContext, documentIndex: number): OfferedAction[] {
  if (!client.commands.has(REKEY_TO_COMMAND)) return [];
  const title = t("Rekey to…");
  const command: Command = { title, command: REKEY_TO_COMMAND, arguments: [{ uri, documentIndex }] };
  return [{ action: { title, kind: KIND, command } }];
}
