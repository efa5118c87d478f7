/** The nearest possible key, if the one asked for is impossible. */
import { type Note, noteFromMidi } from "../../music/note.js";

/** Semitones searched each way: an octave. */
const FARTHEST = 12;

/** Whether a key is possible: `hopeless` if its notes stay far off, so that keys even farther away need not be tried. */
export type Prospect = "can" | "cannot" | "hopeless";

/**
 * The possible key nearest to `asked`; of two equally near, the one on the side of the design's own
 * key `own`. Away from its own key, beyond it too, a hopeless one ends the search on that side. Undefined if none within an octave is possible.
 * A coarse fit takes some tenths of a second per key.
 * @param prospectOf asked one key after the other
 */
export function nearestKey(own: Note, asked: Note, prospectOf: (key: Note) => Prospect): Note | undefined {
  const homeward = own.midi >= asked.midi ? 1 : -1;
  /** Directions that lead only to keys even farther from the design's own. */
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
