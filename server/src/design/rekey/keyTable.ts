/** Print scales for all keys around a design's own, with the pure intervals beside the tempered ones. */
import { isDescribed } from "../../instrument/body.js";
import type { Resolution } from "../../instrument/model.js";
import { centsOfRatio } from "../../music/cents.js";
import { type Note, noteFromMidi } from "../../music/note.js";
import { t } from "../../words/translation.js";
import type { Analysis } from "../predict/analysis.js";
import { longestOf } from "../predict/body.js";
import { CannotRekey } from "./rekeyResult.js";
import { sizeFactor } from "./sizeFactor.js";

export interface KeyRow {
  readonly key: Note;
  /** Of the design as drawn: what the slicer is given. */
  readonly percent: number;
  /** Length of the finished bore at that scale, with shrinkage; of the longest pipe, or of a vessel's cavity. */
  readonly lengthMillimetres: number;
  /** The simple ratio of frequencies for this many semitones, and where printing by it alone would land. */
  readonly pure: PureRatio | undefined;
}

export interface PureRatio {
  readonly ratio: string;
  /** Of the present size. */
  readonly factor: number;
  /** How far from the key's note, cents. */
  readonly cents: number;
}

/** Five-limit ratios of the semitones up to an octave; common practice, no source. */
const PURE_RATIOS: readonly (readonly [number, number])[] = [
  [1, 1],
  [16, 15],
  [9, 8],
  [6, 5],
  [5, 4],
  [4, 3],
  [45, 32],
  [3, 2],
  [8, 5],
  [5, 3],
  [9, 5],
  [15, 8],
  [2, 1],
];
const OCTAVE = 12;

/** One row per semitone from an octave below to an octave above the design's key. @throws CannotRekey */
export function printScaleFactors(resolution: Resolution, analysis: Analysis): readonly KeyRow[] {
  const { key, printScale } = analysis.instrument;
  if (key === undefined || !isDescribed(analysis.instrument.body) || analysis.summary === undefined)
    throw new CannotRekey(t("the instrument needs a key and must be fully described"));
  const length = longestOf(analysis.instrument.body);
  const rows: KeyRow[] = [];
  for (let semitones = OCTAVE; semitones >= -OCTAVE; semitones--) {
    const to = noteFromMidi(key.midi + semitones);
    if (to === undefined) continue;
    const factor = sizeFactor(resolution, analysis, { key: to });
    rows.push({
      key: to,
      percent: 100 * printScale * factor,
      lengthMillimetres: 1000 * length * factor,
      pure: pureRatio(semitones, factor),
    });
  }
  return rows;
}

function pureRatio(semitones: number, factor: number): PureRatio | undefined {
  const [more, less] = PURE_RATIOS[Math.abs(semitones)] ?? [1, 1];
  if (semitones === 0) return undefined;
  // Higher is smaller.
  const pure = semitones > 0 ? less / more : more / less;
  return {
    ratio: semitones > 0 ? `${less}:${more}` : `${more}:${less}`,
    factor: pure,
    cents: centsOfRatio(factor / pure),
  };
}
