/** Another key with walls, hands and print as they are: the holes and the bore's length solved anew. */
import type { DesignDocument, DesignFile } from "../document/designFile.js";
import { applyEdits, type TextEdit } from "../document/edits.js";
import { editsBetween } from "../document/editsBetween.js";
import { readDesign } from "../document/read.js";
import type { Note } from "../music/note.js";
import { type AnalyseOptions, analyse } from "./analyse.js";
import type { Analysis } from "./analysis.js";
import { targetRatio } from "./newTargets.js";
import { printScalePercent } from "./printScale.js";
import { refit } from "./refit/refit.js";
import { CannotRekey, type RekeyResult } from "./rekeyResult.js";
import type { AnalysisSettings } from "./settings.js";

interface Request {
  readonly file: DesignFile;
  readonly document: DesignDocument;
  readonly from: Note;
  readonly to: Note;
  readonly before: Analysis;
  /** Key and notes. */
  readonly renaming: readonly TextEdit[];
  readonly settings: AnalysisSettings;
  readonly options: AnalyseOptions;
}

/** @throws CannotRekey, Cancelled */
export function rekeyByRefit({ file, document, from, to, before, renaming, settings, options }: Request): RekeyResult {
  const renamedFile = readDesign(applyEdits(file.text, renaming), file.syntax);
  const renamed = instrumentOf(renamedFile, document.index);
  const retargeted = analyse(renamed.resolution.instrument, settings, options);
  const plainFactor = targetRatio(before, retargeted);
  const targets = retargeted.fingerings.map(({ targetHz }) => targetHz);
  const found = refit(renamedFile, renamed, retargeted, { targets, factor: plainFactor, freedom: "all" }, options);
  const finished = instrumentOf(readDesign(applyEdits(renamedFile.text, found.edits), file.syntax), document.index);
  const edits = editsBetween(document, finished);
  const text = applyEdits(file.text, edits);
  const after = analyse(
    instrumentOf(readDesign(text, file.syntax), document.index).resolution.instrument,
    settings,
    options,
  );
  return {
    from,
    to,
    by: "refit",
    factor: lengthOf(after) / lengthOf(before),
    plainFactor,
    printScalePercent: printScalePercent(after.instrument.printScale),
    edits,
    text,
    before,
    after,
    moves: found.moves,
    obstacles: found.obstacles,
    remarks: found.obstacles.map(
      ({ message, advice }) => `In the way: ${message}. To get nearer, ${advice}, or take another key.`,
    ),
  };
}

function instrumentOf(file: DesignFile, index: number): DesignDocument {
  const document = file.documents[index];
  if (document === undefined) throw new CannotRekey("the rewritten design could not be read");
  return document;
}

function lengthOf({ instrument: { column } }: Analysis): number {
  return (column?.bore.at(-1)?.x ?? Number.NaN) - Math.min(0, column?.bore[0]?.x ?? 0);
}
