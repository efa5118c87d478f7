/** A uniform size for an instrument that nobody has described: by the interval alone. */
import { centsAbove, centsOfRatio } from "../../music/cents.js";
import { type Note, noteFromMidi } from "../../music/note.js";
import { temperamentCents } from "../../music/temperament.js";
import { frequencyOf, ISO_16_HZ, nearestNote, type Tuning } from "../../music/tuning.js";
import { ON_THE_NOTE } from "../rekey/playsAs.js";

/** Equal temperament, A4 at the pitch standard of ISO 16. */
const EQUAL: Tuning = { cents: temperamentCents("equal"), root: 0, pitchStandard: ISO_16_HZ };

/** How frequency goes with size: to this power. A tube's goes with one over its length. */
export const OF_AIR = -1;

export interface IntervalSize {
  readonly to: Note;
  readonly percent: number;
}

/** The size at which what sounds `from` sounds `to`. @param power of the size, that the frequency goes with */
export function percentByInterval(from: Note, to: Note, power = OF_AIR): number {
  return 100 * (frequencyOf(to, EQUAL) / frequencyOf(from, EQUAL)) ** (1 / power);
}

export interface SoundsAt {
  readonly percent: number;
  readonly plays: Note;
  readonly cents: number;
  /** The other key that it lies between, where it is on none. */
  readonly sizes: readonly IntervalSize[];
}

/** What sounds `from` at 100 %, at another size; undefined where that is no note. */
export function soundsAt(from: Note, percent: number, power = OF_AIR): SoundsAt | undefined {
  const nearest = nearestNote(frequencyOf(from, EQUAL) * (percent / 100) ** power, EQUAL);
  if (nearest === undefined) return undefined;
  const { note, cents } = nearest;
  const isOn = Math.abs(cents) <= ON_THE_NOTE;
  const steps = isOn ? [-1, 0, 1] : cents > 0 ? [0, 1] : [-1, 0];
  const keys = steps.flatMap((step) => noteFromMidi(note.midi + step) ?? []);
  return {
    percent,
    plays: note,
    cents,
    sizes: keys.map((to) => ({ to, percent: percentByInterval(from, to, power) })),
  };
}

/** Cents by which frequency changes with the size. */
export function centsOfSize(percent: number, power = OF_AIR): number {
  return power * centsOfRatio(percent / 100);
}

export function centsBetween(from: Note, to: Note): number {
  return centsAbove(frequencyOf(to, EQUAL), frequencyOf(from, EQUAL));
}
