/** Two versions of a design, compared as a maker would: note by note, dimension by dimension. */

import { type DimensionChange, dimensionChanges } from "../document/dimensionChanges.js";
import type { Note } from "../music/note.js";
import { type FindingChanges, findingChanges } from "./findings.js";
import { correspondence } from "./match/correspondence.js";
import { type MeasureChange, measureChanges } from "./measures.js";
import { type NoteChange, noteChanges } from "./notes.js";
import { type StructureChange, structureChanges } from "./structure.js";
import type { Version } from "./version.js";

export interface Comparison {
  readonly old: Version;
  readonly next: Version;
  /** Where both designs have a key, and not the same; semitones are positive upward. */
  readonly rekeyed: { readonly from: Note; readonly to: Note; readonly semitones: number } | undefined;
  readonly notes: readonly NoteChange[];
  readonly structure: readonly StructureChange[];
  readonly dimensions: readonly DimensionChange[];
  readonly findings: FindingChanges;
  readonly measures: readonly MeasureChange[];
}

/**
 * Deviations are compared, each from its own design's target, so that designs in different keys are comparable.
 * Nothing is thrown for a design that cannot be read; the readable part is compared.
 */
export function compare(old: Version, next: Version): Comparison {
  const same = correspondence(old, next);
  const [from, to] = [old.analysis.instrument.key, next.analysis.instrument.key];
  const moved = from !== undefined && to !== undefined && from.midi !== to.midi;
  return {
    old,
    next,
    rekeyed: moved ? { from, to, semitones: to.midi - from.midi } : undefined,
    notes: noteChanges(old, next, same),
    structure: structureChanges(old, next, same),
    dimensions: dimensionChanges(old, next, same.identity),
    findings: findingChanges(old, next, same),
    measures: measureChanges(old, next),
  };
}

/** Whether a note left its tolerance, or is no longer predicted: what a gate rejects. */
export function leavesTolerance({ notes }: Comparison): boolean {
  return notes.some(({ leftTolerance, state }) => leftTolerance || state === "lost");
}
