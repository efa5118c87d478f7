/** A recording against a design: which notes were played, and what is to be written under `measured`. */

import type { Analysis, FingeringPrediction } from "../design/predict/analysis.js";
import { type Band, bandsOf } from "../design/predict/band.js";
import type { DesignDocument } from "../document/designFile.js";
import { centsAbove } from "../music/cents.js";
import type { HeardNote } from "../sound/listener.js";
import { LOWEST_PITCH, type Range } from "../sound/pitchOfFrame.js";
import { type Matching, matchNotes } from "./matchNotes.js";
import { type Pooled, pool } from "./pooled.js";

export interface HeardDesign {
  /** A match for each note heard; its fingering is an index into the analysis. */
  readonly matching: Matching;
  readonly pooled: Pooled;
}

/** How far beyond the predicted notes to search, semitones: a fourth. */
const MARGIN = 5;
/** Where a prediction states no band, cents. */
const UNKNOWN_AGAINST = 10;
const UNKNOWN_TOGETHER = 30;

/** Lowest and highest pitch that a recording of this design can hold, Hz; undefined where nothing is predicted. */
export function rangeOf({ fingerings }: Analysis): Range | undefined {
  const predicted = fingerings.flatMap(({ predictedHz }) => predictedHz ?? []);
  if (predicted.length === 0) return undefined;
  const margin = 2 ** (MARGIN / 12);
  return [Math.max(LOWEST_PITCH, Math.min(...predicted) / margin), Math.max(...predicted) * margin];
}

export function hearDesign(
  notes: readonly HeardNote[],
  { resolution }: DesignDocument,
  analysis: Analysis,
): HeardDesign {
  const bands = bandsOf(resolution, analysis);
  const candidates = analysis.fingerings.flatMap((each, index) => candidateOf(each, bands[index], index));
  const together = Math.max(UNKNOWN_TOGETHER, ...bands.map((band) => band?.together ?? 0));
  const found = matchNotes(notes, candidates, together);
  const matches = found.matches.map((match) => {
    const fingering = match.fingering === undefined ? undefined : candidates[match.fingering]?.index;
    return { ...match, fingering };
  });
  const matching = { ...found, matches };
  return { matching, pooled: pool(notes, matching) };
}

function candidateOf({ fingering, predictedHz }: FingeringPrediction, band: Band | undefined, index: number) {
  if (predictedHz === undefined || fingering.target === undefined) return [];
  return [
    {
      index,
      name: fingering.target.name,
      cents: centsAbove(predictedHz, 440) + fingering.breath,
      against: band?.against ?? UNKNOWN_AGAINST,
    },
  ];
}
