/** All plays of one fingering to one measured value, and how sure it is. */
import type { HeardNote } from "../sound/listener.js";
import { median } from "../sound/median.js";
import type { Matching } from "./matchNotes.js";

export interface Measurement {
  /** Index of the fingering. */
  readonly fingering: number;
  readonly plays: number;
  /** Above 440 Hz, cents, and standard uncertainty. */
  readonly cents: number;
  readonly uncertainty: number;
}

export interface Pooled {
  readonly measurements: readonly Measurement[];
  /** How far one player's plays of one note scatter, cents, over all fingerings. */
  readonly scatter: number;
  /** There were no repeats to see it by. */
  readonly assumed: boolean;
}

/** Cents from play to play of an ordinary player (common practice, no source), weighted as this many repeats. */
const ORDINARY = 6;
const WORTH = 3;
/** A median scatters wider than a mean; it is used from three plays on, since one of them may be wild. */
const MEDIAN_EFFICIENCY = 1.15;
const ENOUGH_FOR_MEDIAN = 3;

export function pool(notes: readonly HeardNote[], { matches }: Matching): Pooled {
  const plays = new Map<number, { readonly cents: number; readonly uncertainty: number }[]>();
  matches.forEach(({ fingering, question, octaveShift }, i) => {
    const note = notes[i];
    if (fingering === undefined || question !== undefined || note === undefined) return;
    const list = plays.get(fingering) ?? [];
    list.push({ cents: note.cents + octaveShift, uncertainty: note.uncertainty });
    plays.set(fingering, list);
  });
  let squares = 0;
  let repeats = 0;
  for (const list of plays.values()) {
    const centre = mean(list.map(({ cents }) => cents));
    squares += list.reduce((sum, { cents }) => sum + (cents - centre) ** 2, 0);
    repeats += list.length - 1;
  }
  const scatter = Math.sqrt((squares + WORTH * ORDINARY ** 2) / (repeats + WORTH));
  const measurements = [...plays]
    .sort(([a], [b]) => a - b)
    .map(([fingering, list]) => {
      const cents = list.map((play) => play.cents);
      const robust = list.length >= ENOUGH_FOR_MEDIAN;
      const within = Math.hypot(...list.map(({ uncertainty }) => uncertainty)) / list.length;
      const between = (scatter / Math.sqrt(list.length)) * (robust ? MEDIAN_EFFICIENCY : 1);
      return {
        fingering,
        plays: list.length,
        cents: robust ? median(cents) : mean(cents),
        uncertainty: Math.hypot(between, within),
      };
    });
  return { measurements, scatter, assumed: repeats === 0 };
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
