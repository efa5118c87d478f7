/** One refit of a design, written, read and predicted again, and judged: whether it is worth having. */

import type { DesignDocument, DesignFile } from "../../document/designFile.js";
import type { TextEdit } from "../../document/textEdit.js";
import { sharedColumn } from "../../instrument/body.js";
import { ANOTHER_NOTE } from "../../music/cents.js";
import { breaksMore } from "../fix/breaksMore.js";
import { type AnalyseOptions, analyse } from "../predict/analyse.js";
import type { Analysis } from "../predict/analysis.js";
import { documentIn } from "../rekey/newTargets.js";
import { offered } from "../rekey/offered.js";
import type { AnalysisSettings } from "../settings.js";
import { REFITS } from "./byBody.js";
import type { Move } from "./move.js";
import { isWorse, isWorthHaving } from "./neverWorse.js";
import type { Obstacle } from "./obstacle.js";
import type { RefitTargets } from "./refit.js";
import { restOf } from "./rest.js";

/** A design with the notes that are wanted written. */
export interface Written {
  readonly file: DesignFile;
  readonly document: DesignDocument;
  readonly analysis: Analysis;
}

export interface JudgedRefit {
  readonly isTaken: boolean;
  /** Of the text as it was before. */
  readonly edits: readonly TextEdit[];
  readonly moves: readonly Move[];
  readonly after: Written;
  obstacles(enough?: number): readonly Obstacle[];
}

export interface Asking {
  readonly goal: RefitTargets;
  /** Fingerings that are left aside, by index: how far off they are does not count. */
  readonly left: ReadonlySet<number>;
  /** Whether a note that is lost counts as worse. */
  readonly keepsNotes: boolean;
  readonly settings: AnalysisSettings;
  readonly options: AnalyseOptions;
}

/** @throws CannotRekey, Cancelled */
export function judgedRefit(there: Written, asking: Asking): JudgedRefit {
  const plain = judged(there, asking);
  if (plain.isTaken || plain.edits.length === 0 || asking.goal.freedom === "all") return plain;
  // Holes brought into tune may cost the notes that no hole decides too much: then all notes count.
  const wary = judged(there, { ...asking, goal: { ...asking.goal, everyNote: true } });
  return wary.isTaken ? wary : plain;
}

function judged(there: Written, { goal, left, keepsNotes, settings, options }: Asking): JudgedRefit {
  const { file, document, analysis } = there;
  const { instrument } = analysis;
  const found = REFITS[instrument.body.kind].refit(file, document, analysis, goal, options);
  const { moves } = found;
  const obstacles = (enough?: number) => found.obstacles(enough);
  if (found.edits.length === 0) return { isTaken: false, edits: [], moves: [], after: there, obstacles };
  const { edits, text } = offered(file, document.index, found.edits);
  const after = written({ ...file, text }, document.index, settings, options);
  // A tube's limits are all the refit's own; of a chamber and of pipes the shape is looked at as it is drawn.
  const isBroken = sharedColumn(instrument.body) === undefined && breaksMore(document, after.document);
  const rest = restOf(after.analysis, left);
  // Notes left aside may go anywhere, but not for others that are still no notes of the design.
  const isForNothing = isFarOff(rest) && isWorse(analysis, after.analysis);
  const isTaken = !isBroken && !isForNothing && isWorthHaving(restOf(analysis, left), rest, found, keepsNotes);
  return { isTaken, edits, moves, after, obstacles };
}

function isFarOff({ summary }: Analysis): boolean {
  return Math.abs(summary?.worstCents ?? 0) > ANOTHER_NOTE;
}

/** The instrument `index` of a text, read and predicted. */
export function written(
  { text, syntax }: Pick<DesignFile, "text" | "syntax">,
  index: number,
  settings: AnalysisSettings,
  options: AnalyseOptions,
): Written {
  const { file, document } = documentIn(text, syntax, index);
  return { file, document, analysis: analyse(document.resolution.instrument, settings, options) };
}
