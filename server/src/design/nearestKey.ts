/** Where a wished key cannot be had: the nearest one that can. */
import { type Note, noteFromMidi } from "../music/note.js";

/** Half tones searched each way: an octave. */
const FARTHEST = 12;

/**
 * The key nearest to `wished` for which `holds`; of two equally near the one on the side of the design's own key `own`, which it
 * was made for. Undefined where none within an octave does. Some tenths of a second a key where `holds` fits coarsely.
 * @param holds asked for half tones above `wished`
 */
export function nearestKey(own: Note, wished: Note, holds: (semitones: number) => boolean): Note | undefined {
  const homeward = own.midi >= wished.midi ? 1 : -1;
  for (let distance = 1; distance <= FARTHEST; distance++) {
    for (const semitones of [homeward * distance, -homeward * distance]) {
      const note = noteFromMidi(wished.midi + semitones);
      if (note !== undefined && holds(semitones)) return note;
    }
  }
  return undefined;
}
