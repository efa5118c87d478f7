/** Where all notes are off together: another size for the stated key, or the key that this size has. */
import { CodeActionKind } from "vscode-languageserver";
import { printScaleEdits, printScalePercent } from "../../design/rekey/printScale.js";
import { keyEdits } from "../../design/rekey/rekey.js";
import { CannotRekey } from "../../design/rekey/rekeyResult.js";
import type { OffTogetherData } from "../../design/rules/offTogether.js";
import { OUT_OF_TUNE, type OutOfTuneData } from "../../design/rules/outOfTune.js";
import type { PlacedFinding } from "../../document/designFile.js";
import type { TextEdit } from "../../document/textEdit.js";
import { parseNote } from "../../music/note.js";
import { type ActionPlace, linkedTo, type OfferedAction, touches, wanted, withEdits } from "./action.js";

const KIND = CodeActionKind.QuickFix;

export function togetherActions(place: ActionPlace, only: readonly string[] | undefined): OfferedAction[] {
  if (!wanted(only, KIND)) return [];
  const { context, document, selection, shouldStop } = place;
  const findings = context.findings(document, shouldStop).filter(({ code }) => code === OUT_OF_TUNE);
  return findings.flatMap((finding) => {
    const together = (finding.data as OutOfTuneData | undefined)?.together;
    if (together === undefined || !touches(finding.span, selection)) return [];
    return [
      ...printed(place, finding, together),
      ...redrawn(place, finding, together),
      ...renamed(place, finding, together),
    ];
  });
}

function printed(place: ActionPlace, finding: PlacedFinding, { factor }: OffTogetherData): OfferedAction[] {
  const { context, document } = place;
  const percent = printScalePercent(document.resolution.instrument.printScale * factor);
  const edits = printScaleEdits(document, context.file.syntax, factor);
  return offer(place, finding, `Print it at ${percent} %, so that the notes are in tune on the whole`, edits, true);
}

/** The exact factor comes with the edit, as that of another key does. */
function redrawn(place: ActionPlace, finding: PlacedFinding, { factor }: OffTogetherData): OfferedAction[] {
  const { context, document } = place;
  const { key } = document.resolution.instrument;
  if (key === undefined) return [];
  const title = `Redraw every dimension × ${factor.toFixed(3)}, so that the notes are in tune on the whole`;
  const recipe = {
    uri: context.uri,
    textName: context.textName,
    documentIndex: document.index,
    work: { do: "rekey", to: key.name, by: "redraw" },
    preview: false,
  } as const;
  return [{ action: { title, kind: KIND, ...linkedTo(place, finding) }, recipe }];
}

function renamed(place: ActionPlace, finding: PlacedFinding, { key: name }: OffTogetherData): OfferedAction[] {
  const { document } = place;
  const from = document.resolution.instrument.key;
  const to = name === undefined ? undefined : parseNote(name);
  if (from === undefined || to === undefined) return [];
  try {
    const edits = keyEdits(document, from, to);
    return offer(place, finding, `Keep its size and call its key ${to.name}`, edits, false);
  } catch (error) {
    if (error instanceof CannotRekey) return []; // what cannot be done is not offered
    throw error;
  }
}

function offer(
  place: ActionPlace,
  finding: PlacedFinding,
  title: string,
  edits: readonly TextEdit[],
  isPreferred: boolean,
): OfferedAction[] {
  const preferred = isPreferred ? { isPreferred } : {};
  return withEdits(place, { title, kind: KIND, ...linkedTo(place, finding), ...preferred }, edits);
}
