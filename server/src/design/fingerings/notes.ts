/** Which notes are asked for. */

import type { Instrument } from "../../instrument/model.js";
import { type Note, noteFromMidi } from "../../music/note.js";

/**
 * Every semitone from the design's lowest note to its highest, spelled as it spells them; without fingerings, an octave from its key.
 * Empty where it has neither.
 */
export function chromaticNotes({ key, fingerings }: Instrument): readonly Note[] {
  const named = fingerings.flatMap(({ target }) => target ?? []);
  const all = [...named, ...(key === undefined ? [] : [key])];
  // Of none at all, what follows names no note either.
  const lowest = Math.min(...all.map(({ midi }) => midi));
  const highest = Math.max(...all.map(({ midi }) => midi));
  const spelled = new Map(all.map((note) => [note.midi, note]));
  const count = (highest > lowest ? highest - lowest : OCTAVE) + 1;
  return Array.from({ length: count }, (_, i) => lowest + i).flatMap(
    (midi) => spelled.get(midi) ?? noteFromMidi(midi) ?? [],
  );
}

const OCTAVE = 12;
