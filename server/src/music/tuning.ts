/** From notes to frequencies: a temperament set on a root, and the frequency of A4. */
import { centsAbove, ratioOfCents } from "./cents.js";
import { type Note, noteFromMidi } from "./note.js";
import type { TwelveCents } from "./temperament.js";

/** ISO 16:1975, standard tuning frequency of A4, Hz. */
export const ISO_16_HZ = 440;

const A4_MIDI = 69;

export interface Tuning {
  /** Cents above the root, twelve of them. */
  readonly cents: TwelveCents;
  /** Semitones above C of the note the row starts on, 0…11. */
  readonly root: number;
  /** Frequency of A4, Hz. */
  readonly pitchStandard: number;
}

/** Hz of a note. A4 sounds the pitch standard in every temperament. */
export function frequencyOf(note: Note, tuning: Tuning): number {
  return tuning.pitchStandard * ratioOfCents(centsAboveRoot(note.midi, tuning) - centsAboveRoot(A4_MIDI, tuning));
}

/** Hz at which a tuner shows a note as right: equal temperament, whatever the instrument's. @param pitchStandard of its A4, Hz */
export function tunerZero({ midi }: Note, pitchStandard: number): number {
  return pitchStandard * ratioOfCents(100 * (midi - A4_MIDI));
}

export interface NearestNote {
  readonly note: Note;
  /** How far the frequency lies above the note, cents. */
  readonly cents: number;
}

/** The note of the tuning nearest to a frequency; undefined outside the range of notes. */
export function nearestNote(frequency: number, tuning: Tuning): NearestNote | undefined {
  const middle = Math.round(A4_MIDI + centsAbove(frequency, tuning.pitchStandard) / 100);
  let best: NearestNote | undefined;
  // A temperament moves a note by less than a semitone, so that the neighbours suffice.
  for (const midi of [middle - 1, middle, middle + 1]) {
    const note = noteFromMidi(midi);
    if (note === undefined) continue;
    const cents = centsAbove(frequency, frequencyOf(note, tuning));
    if (best === undefined || Math.abs(cents) < Math.abs(best.cents)) best = { note, cents };
  }
  return best;
}

function centsAboveRoot(midi: number, tuning: Tuning): number {
  const steps = midi - tuning.root;
  const octave = Math.floor(steps / 12);
  return octave * 1200 + (tuning.cents[steps - 12 * octave] ?? 0);
}
