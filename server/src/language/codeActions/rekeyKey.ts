/** On the key: the design in the keys around it, by print scale or redrawn, and the command that asks for any other. */
import { CodeActionKind, type Command } from "vscode-languageserver";
import { printScalePercent } from "../../design/printScale.js";
import { rekey } from "../../design/rekey.js";
import type { RekeyMethod } from "../../design/rekeyResult.js";
import type { Span } from "../../document/designFile.js";
import { type Note, noteFromMidi } from "../../music/note.js";
import { frequencyOf } from "../../music/tuning.js";
import { REKEY_TO_COMMAND } from "../codeLens.js";
import type { DesignContext } from "../designContext.js";
import { plain } from "../words.js";
import { type ActionPlace, type OfferedAction, touches, wanted } from "./action.js";

const KIND = CodeActionKind.RefactorRewrite;
/** The keys offered, in semitones from the present one, nearest first. */
const STEPS = [-1, 1, -2, 2];

export function rekeyActions(place: ActionPlace, only: readonly string[] | undefined): OfferedAction[] {
  const { context, document, selection } = place;
  const { instrument } = document.resolution;
  const { key } = instrument;
  const span = keySpan(place);
  if (!wanted(only, KIND) || span === undefined || !touches(span, selection)) return [];
  if (key === undefined || instrument.column === undefined) return [];
  const notes = STEPS.flatMap((step) => noteFromMidi(key.midi + step) ?? []);
  const offered = (["print-scale", "redraw"] as const).flatMap((by) =>
    notes.map((to) => offer(place, to, by, frequencyOf(key, instrument.tuning) / frequencyOf(to, instrument.tuning))),
  );
  return [...offered, ...askForNote(context, document.index)];
}

/** The whole entry: its name, its colon and its value. */
function keySpan({ document: { root } }: ActionPlace): Span | undefined {
  const entry = root?.kind === "map" ? root.entries.find((other) => other.key === "key" && !other.merged) : undefined;
  return entry && { start: entry.keySpan.start, end: Math.max(entry.keySpan.end, entry.value.span.end) };
}

/**
 * The title has the factor of the interval, told as near: the exact one needs the whole prediction anew and comes with the
 * edit, when the action is chosen.
 */
function offer(
  { context, document, shouldStop }: ActionPlace,
  to: Note,
  by: RekeyMethod,
  ratio: number,
): OfferedAction {
  const { printScale } = document.resolution.instrument;
  const title =
    by === "print-scale"
      ? `Rekey to ${to.name} by print scale (about ${plain(printScalePercent(printScale * ratio), 1)} %)`
      : `Rekey to ${to.name} by redraw (every dimension about × ${ratio.toFixed(3)})`;
  return {
    action: { title, kind: KIND },
    edits: () => rekey(context.file, document.index, to, by, context.settings.analysis, { shouldStop }).edits,
    recipe: { uri: context.uri, version: context.version, documentIndex: document.index, rekey: { to: to.name, by } },
  };
}

function askForNote({ client, uri }: DesignContext, documentIndex: number): OfferedAction[] {
  if (!client.commands.has(REKEY_TO_COMMAND)) return [];
  const title = "Rekey to…";
  const command: Command = { title, command: REKEY_TO_COMMAND, arguments: [{ uri, documentIndex }] };
  return [{ action: { title, kind: KIND, command } }];
}
