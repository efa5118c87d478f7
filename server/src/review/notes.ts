/** Note by note: deviation before and after, and the verdict. */
import type { Analysis, FingeringPrediction } from "../design/predict/analysis.js";
import { t } from "../words/translation.js";
import type { Correspondence } from "./match/correspondence.js";
import { fingeredAnew } from "./match/fingerings.js";
import type { Pair } from "./match/pairs.js";
import type { Version } from "./version.js";

export type NoteState =
  | "better"
  | "worse"
  /** Off by as much as before. */
  | "same"
  | "added"
  | "removed"
  /** Predicted before, but not any more: its register is gone, or the design cannot be predicted. */
  | "lost"
  | "found"
  /** Predicted in neither. */
  | "unknown";

export interface NoteChange {
  readonly old: FingeringPrediction | undefined;
  readonly next: FingeringPrediction | undefined;
  /** Places in the two lists of fingerings. */
  readonly pair: Pair;
  /** Whether it closes other holes than before, of those that both designs have, or asks for another register. */
  readonly fingeredAnew: boolean;
  /** New deviation less old one, cents. */
  readonly change: number | undefined;
  readonly state: NoteState;
  /** Within the old tolerance before, and not within the new one now. */
  readonly leftTolerance: boolean;
  readonly cameIntoTolerance: boolean;
}

/**
 * Cents. Smaller differences do not count: notes against each other are predicted within about half a cent of finite elements
 * (docs/accuracy.md).
 */
export const NOTICEABLE = 0.5;

export function noteChanges(old: Version, next: Version, { notes, lists }: Correspondence): readonly NoteChange[] {
  return notes.map((pair) => noteChange(old.analysis, next.analysis, pair, lists.holes));
}

function noteChange(oldAnalysis: Analysis, nextAnalysis: Analysis, pair: Pair, holes: readonly Pair[]): NoteChange {
  const old = pair.old === undefined ? undefined : oldAnalysis.fingerings[pair.old];
  const next = pair.next === undefined ? undefined : nextAnalysis.fingerings[pair.next];
  const [was, is] = [old?.cents, next?.cents];
  const wasIn = was !== undefined && Math.abs(was) <= oldAnalysis.tolerance;
  const isIn = is !== undefined && Math.abs(is) <= nextAnalysis.tolerance;
  const both = old !== undefined && next !== undefined;
  return {
    old,
    next,
    pair,
    fingeredAnew:
      both &&
      (fingeredAnew(old.fingering.pattern, next.fingering.pattern, holes) ||
        old.fingering.register !== next.fingering.register),
    change: was === undefined || is === undefined ? undefined : is - was,
    state: stateOf(old, next),
    leftTolerance: both && wasIn && !isIn,
    cameIntoTolerance: both && !wasIn && isIn,
  };
}

function stateOf(old: FingeringPrediction | undefined, next: FingeringPrediction | undefined): NoteState {
  if (old === undefined) return "added";
  if (next === undefined) return "removed";
  if (old.cents === undefined || next.cents === undefined)
    return old.cents === next.cents ? "unknown" : old.cents === undefined ? "found" : "lost";
  const farther = Math.abs(next.cents) - Math.abs(old.cents);
  if (Math.abs(farther) < NOTICEABLE) return "same";
  return farther > 0 ? "worse" : "better";
}

/** `A4`, or what it is in the other version where this one does not say. */
export function noteName({ old, next, pair }: NoteChange): string {
  const target = next?.fingering.target ?? old?.fingering.target;
  return target?.name ?? t`fingering ${(pair.next ?? pair.old ?? 0) + 1}`;
}
