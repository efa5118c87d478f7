/** Where notes are out of tune: every hole at once, the bore kept. On saving, too, for those who ask for it. */
import { CodeActionKind } from "vscode-languageserver";
import { OUT_OF_TUNE, type OutOfTuneData } from "../../design/rules/outOfTune.js";
import { t } from "../../words/translation.js";
import { FIX_ALL_KIND } from "../capabilities.js";
import { type ActionPlace, type OfferedAction, touches, wanted } from "./action.js";

const HOLES_ONLY = {
  tube: "Bring every hole into tune, keep the bore",
  pipes: "Bring every hole into tune, keep the bore",
  vessel: "Bring every hole into tune, keep the chamber",
} as const;
const WHOLE = {
  tube: "Bring every note into tune: holes, and the bore toward the foot",
  pipes: "Bring every pipe into tune: move the stoppers",
  vessel: "Bring every note into tune: holes, and the size of the chamber",
} as const;

export function retuneActions(place: ActionPlace, only: readonly string[] | undefined): OfferedAction[] {
  const { context, document, selection, shouldStop } = place;
  const findings = context.findings(document, shouldStop).filter(({ code }) => code === OUT_OF_TUNE);
  const { kind } = document.resolution.instrument.body;
  if (findings.length === 0) return [];
  const holesOnly = t(HOLES_ONLY[kind]);
  const all = t(WHOLE[kind]);
  const recipe = { uri: context.uri, textName: context.textName, documentIndex: document.index };
  const known = findings.map(({ data }) => data as OutOfTuneData | undefined);
  // Where all notes are off together, holes alone would have to move beyond all measure.
  const byHole = known.some((data) => data?.hole !== undefined) && !known.some((data) => data?.together !== undefined);
  const offered: OfferedAction[] = [];
  // Only when asked for by name: a source action has no place of its own.
  if (only?.some((kind) => kind === FIX_ALL_KIND || FIX_ALL_KIND.startsWith(`${kind}.`)) && byHole)
    offered.push({
      action: { title: holesOnly, kind: FIX_ALL_KIND },
      recipe: { ...recipe, work: { do: "retune", freedom: "holes" }, preview: false },
    });
  if (wanted(only, CodeActionKind.QuickFix) && findings.some(({ span }) => touches(span, selection))) {
    if (byHole)
      offered.push({
        action: { title: holesOnly, kind: CodeActionKind.QuickFix },
        recipe: { ...recipe, work: { do: "retune", freedom: "holes" }, preview: true },
      });
    offered.push({
      action: { title: all, kind: CodeActionKind.QuickFix },
      recipe: { ...recipe, work: { do: "retune", freedom: "all" }, preview: true },
    });
  }
  return offered;
}
