/** What a design should sound: its key and temperament, and the notes of its fingerings. */
import { BODIES } from "./bodies.js";
import type { Draft } from "./draft/draft.js";
import { bodyKindOf } from "./families/index.js";
import type { FingeringReading } from "./fingerings.js";
import { readTuning, type TuningReading } from "./tuning.js";

export interface NotesMeant {
  readonly tuning: TuningReading;
  readonly fingering: FingeringReading;
}

/** @param data the design's, or with another key: a key changes none of the draft's numbers */
export function notesMeant(data: unknown, draft: Pick<Draft, "family" | "numbers">): NotesMeant {
  const tuning = readTuning(data, draft.numbers);
  return { tuning, fingering: BODIES[bodyKindOf(draft)].fingerings(data, tuning.key, draft.numbers) };
}
