/** Edits that bring one hole's worst note right, by moving it or by another size; or a pipe's, or a vessel's as a whole. */
import { drained, type Steps } from "../../acoustics/steps.js";
import type { DesignDocument } from "../../document/designFile.js";
import type { TextEdit } from "../../document/edits.js";
import { changeDrawn, changeNumber } from "../edit/numberEdit.js";
import type { Analysis } from "../predict/analysis.js";
import { nameOfFingering } from "../predict/governing.js";
import { drawnLength } from "../wording.js";
import { footPlaceSteps, type HoleChange, holeChangeSteps } from "./holeChange.js";
import { remedyInWords, volumeDecimals, wholeRemedyInWords } from "./remedy.js";
import { pipeChange, vesselChangeSteps, type WholeChange } from "./wholeChange.js";

export interface HoleFix {
  /** `Move L2 2.4 mm toward the mouth, so that A4 is in tune`. */
  readonly title: string;
  readonly kind: "move" | "resize" | "bore-length" | WholeChange["kind"];
  readonly edits: readonly TextEdit[];
  /** Absent where the bore's length is what changes. */
  readonly hole?: number;
  /** Index of the fingering that comes right. */
  readonly fingering: number;
  /** The smallest of the changes on offer. */
  readonly preferred: boolean;
}

/**
 * The fixes for a hole (or, without one, for the bore's length) by which fingering `fingering` comes right. Empty where no
 * sound change does. Places and sizes are rounded as drawn: 0.1 mm.
 */
export function fixesFor(
  document: DesignDocument,
  analysis: Analysis,
  hole: number | undefined,
  fingering: number,
): readonly HoleFix[] {
  return drained(fixSteps(document, analysis, hole, fingering));
}

/** As `fixesFor`, step by step. */
export function* fixSteps(
  document: DesignDocument,
  analysis: Analysis,
  hole: number | undefined,
  fingering: number,
): Steps<readonly HoleFix[]> {
  if (hole === undefined) return yield* wholeFixes(document, analysis, fingering);
  const changes = yield* holeChangeSteps(analysis, hole, fingering);
  const smallest = Math.min(...changes.map(({ change }) => Math.abs(change)));
  return changes.map((change) => ({
    title: title(remedyInWords(analysis, change), analysis, fingering),
    kind: change.kind,
    edits: holeEdits(document, analysis, change),
    hole,
    fingering,
    preferred: Math.abs(change.change) === smallest,
  }));
}

function title(remedy: string, analysis: Analysis, fingering: number): string {
  const prediction = analysis.fingerings[fingering];
  const note = prediction === undefined ? "its note" : nameOfFingering(prediction);
  return `${remedy.charAt(0).toUpperCase()}${remedy.slice(1)}, so that ${note} is in tune`;
}

function holeEdits(document: DesignDocument, analysis: Analysis, change: HoleChange): readonly TextEdit[] {
  const { instrument } = analysis;
  const path = instrument.holes[change.hole]?.path;
  if (path === undefined) return [];
  const [property, printed] =
    change.kind === "move" ? ["at", change.value] : ["diameter", change.value + instrument.holeUndersize];
  return changeDrawn(document, [...path, property], printed / instrument.printedUnit);
}

function* wholeFixes(document: DesignDocument, analysis: Analysis, fingering: number): Steps<readonly HoleFix[]> {
  const { instrument } = analysis;
  if (instrument.pipes === undefined && instrument.vessel === undefined)
    return yield* boreFixes(document, analysis, fingering);
  const change =
    instrument.pipes === undefined ? yield* vesselChangeSteps(analysis, fingering) : pipeChange(analysis, fingering);
  if (change === undefined) return [];
  const { kind, path, value } = change;
  return [
    {
      title: title(wholeRemedyInWords(analysis, change), analysis, fingering),
      kind,
      edits:
        kind === "vessel volume"
          ? changeNumber(document, path, value, volumeDecimals(value))
          : changeDrawn(document, path, value),
      fingering,
      preferred: true,
    },
  ];
}

function* boreFixes(document: DesignDocument, analysis: Analysis, fingering: number): Steps<readonly HoleFix[]> {
  const { instrument } = analysis;
  const place = yield* footPlaceSteps(analysis, fingering);
  const foot = instrument.column?.bore.at(-1)?.x;
  const stations = instrument.column?.bore.length ?? 0;
  if (place === undefined || foot === undefined) return [];
  const size = drawnLength(Math.abs(place - foot), instrument);
  const remedy = `${place < foot ? "shorten" : "lengthen"} the bore by ${size}`;
  const path = ["bore", stations - 1, "at"];
  return [
    {
      title: title(remedy, analysis, fingering),
      kind: "bore-length",
      edits: changeDrawn(document, path, place / instrument.printedUnit),
      fingering,
      preferred: true,
    },
  ];
}
