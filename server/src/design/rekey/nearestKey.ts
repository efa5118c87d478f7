/** The nearest possible key, where the one asked for is not. */
import { type Note, noteFromMidi } from "../../music/note.js";

/** Semitones searched each way: an octave. */
const FARTHEST = 12;

/** Whether a key is possible: `hopeless` where its notes stay far off, so that keys still farther from those that can need no asking. */
export type Prospect = "can" | "cannot" | "hopeless";

/**
 * The possible key nearest to `asked`; of two equally near, the one on the side of the design's own
 * key `own`. Away from its own key, beyond it too, a hopeless one ends the search on that side. Undefined where none within an octave can.
 * Some tenths of a second per key where it is fitted coarsely.
 * @param prospectOf asked one key after the other
 */
export function nearestKey(own: Note, asked: Note, prospectOf: (key: Note) => Prospect): Note | undefined {
  const homeward = own.midi >= asked.midi ? 1 : -1;
  /** Ways that lead on only to keys farther still from what the design was made for. */
  const ended = new Set<number>();
  for (let distance = 1; distance <= FARTHEST; distance++) {
    for (const way of [homeward, -homeward]) {
      const note = noteFromMidi(asked.midi + way * distance);
      if (note === undefined || ended.has(way)) continue;
      const prospect = prospectOf(note);
      if (prospect === "can") return note;
      const isAway = way !== homeward || homeward * (note.midi - own.midi) > 0;
      if (isAway && prospect === "hopeless") ended.add(way);
    }
  }
  return undefined;
}
