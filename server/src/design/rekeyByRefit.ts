/** Another key with walls, hands and print as they are: the holes and the bore's length solved anew. */
import type { DesignDocument, DesignFile } from "../document/designFile.js";
import { applyEdits, type TextEdit } from "../document/edits.js";
import { editsBetween } from "../document/editsBetween.js";
import { readDesign } from "../document/read.js";
import { isDescribed } from "../instrument/described.js";
import type { Note } from "../music/note.js";
import { type AnalyseOptions, analyse } from "./analyse.js";
import type { Analysis } from "./analysis.js";
import { longestOf } from "./body.js";
import { nameOfFingering } from "./governing.js";
import { reanalyse, targetRatio } from "./newTargets.js";
import { printScalePercent } from "./printScale.js";
import type { Obstacle } from "./refit/obstacles.js";
import { refit } from "./refit/refit.js";
import type { Freedom } from "./refit/unknowns.js";
import { refitPipes } from "./refitPipes.js";
import { CannotRekey, type RekeyResult } from "./rekeyResult.js";
import { type AnalysisSettings, DEFAULT_SETTINGS } from "./settings.js";

export interface RefitRequest {
  readonly file: DesignFile;
  readonly document: DesignDocument;
  readonly from: Note;
  readonly to: Note;
  readonly before: Analysis;
  /** Key and notes. */
  readonly renaming: readonly TextEdit[];
  /** `holes` keeps the bore as it is. Default: all. */
  readonly freedom?: Freedom;
  readonly settings: AnalysisSettings;
  readonly options: AnalyseOptions;
}

/** @throws CannotRekey, Cancelled */
export function rekeyByRefit({
  file,
  document,
  from,
  to,
  before,
  renaming,
  freedom = "all",
  settings,
  options,
}: RefitRequest): RekeyResult {
  if (before.instrument.family === "vessel")
    throw new CannotRekey(
      "a vessel is not refitted: rekey it by print scale or by redraw, and tune its holes by their size",
    );
  const renamedFile = readDesign(applyEdits(file.text, renaming), file.syntax);
  const renamed = instrumentOf(renamedFile, document.index);
  const retargeted = analyse(renamed.resolution.instrument, settings, options);
  const plainFactor = targetRatio(before, retargeted);
  const targets = retargeted.fingerings.map(({ targetHz }) => targetHz);
  const found =
    retargeted.instrument.pipes === undefined
      ? refit(renamedFile, renamed, retargeted, { targets, factor: plainFactor, freedom }, options)
      : refitPipes(renamedFile, renamed, retargeted);
  const finished = instrumentOf(readDesign(applyEdits(renamedFile.text, found.edits), file.syntax), document.index);
  const edits = editsBetween(document, finished);
  const text = applyEdits(file.text, edits);
  const after = reanalyse(file, text, document.index, settings, options);
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
    remarks: [...lostNotes(before, after), ...found.obstacles.map(inWords)],
  };
}

function instrumentOf(file: DesignFile, index: number): DesignDocument {
  const document = file.documents[index];
  if (document === undefined) throw new CannotRekey("the rewritten design could not be read");
  return document;
}

function lengthOf({ instrument }: Analysis): number {
  return longestOf(instrument);
}

function inWords({ message, advice }: Obstacle): string {
  return `In the way: ${message}. To get nearer, ${advice}, or take another key.`;
}

/** Fingerings that sounded before and have no resonance now. */
function lostNotes(before: Analysis, after: Analysis): readonly string[] {
  const lost = after.fingerings.filter(
    (prediction, i) => prediction.cents === undefined && before.fingerings[i]?.cents !== undefined,
  );
  if (lost.length === 0) return [];
  return [`No longer to be had: ${lost.map(nameOfFingering).join(", ")}. The bore is too wide or too short for them.`];
}

/** The design in tune in its own key. @throws CannotRekey, Cancelled */
export function retune(
  file: DesignFile,
  index: number,
  freedom: Freedom,
  settings: AnalysisSettings = DEFAULT_SETTINGS,
  options: AnalyseOptions = {},
): RekeyResult {
  const document = instrumentOf(file, index);
  const before = analyse(document.resolution.instrument, settings, options);
  const { key } = before.instrument;
  const note = key ?? before.fingerings.find(({ fingering }) => fingering.target !== undefined)?.fingering.target;
  if (!isDescribed(before.instrument) || note === undefined || before.summary === undefined)
    throw new CannotRekey("the instrument is not fully described yet: see the findings");
  return rekeyByRefit({ file, document, from: note, to: note, before, renaming: [], freedom, settings, options });
}
