import type { DimensionChange } from "../../document/dimensionChanges.js";
import type { TextEdit } from "../../document/textEdit.js";
import type { Note } from "../../music/note.js";
import type { Analysis } from "../predict/analysis.js";
import type { Move } from "../refit/move.js";
import type { Obstacle } from "../refit/obstacle.js";

/** How a design is moved to another key: see README, "Three ways to another key". */
export const REKEY_METHODS = ["print-scale", "redraw", "refit"] as const;
export type RekeyMethod = (typeof REKEY_METHODS)[number];

export interface RekeyResult {
  readonly from: Note;
  readonly to: Note;
  readonly by: RekeyMethod;
  /** The factor on every dimension of the printed object; by refit, on the length of the bore. */
  readonly factor: number;
  /** What the equal-tempered or pure interval alone would have said: target frequency ratio from old key to new. */
  readonly plainFactor: number;
  /** `print.scale` after the change, percent. */
  readonly printScalePercent: number;
  readonly edits: readonly TextEdit[];
  /** The whole file after the edits. */
  readonly text: string;
  readonly before: Analysis;
  readonly after: Analysis;
  /** Every number of the design that changed, directly or through a formula. */
  readonly changes: readonly DimensionChange[];
  /** Only by refit: the dimensions that moved, and what holds a better fit back. */
  readonly moves: readonly Move[];
  readonly obstacles: readonly Obstacle[];
  /** If something holds the refit back: the nearest key, in semitones, that a refit brings into tune; absent if there is none. */
  readonly nearestKey?: Note;
  /** What a maker should know of this result (walls grown, rounded dimensions, expressions replaced by numbers). */
  readonly remarks: readonly string[];
  /** The one of them that says that a refit has changed nothing. */
  readonly nothingChanged?: string;
}

/** Why a design cannot be rekeyed, in the maker's words. */
export class CannotRekey extends Error {}
