/**
 * Notes that no dimensions bring together, found before anything is solved by what holds for any tube and any chamber: opening a hole raises every
 * register (less inertia, higher modes; lord Rayleigh, The Theory of Sound I, § 88, from memory), and the registers of one fingering move together.
 */
import { bodyTraits } from "../../instrument/families/bodyTraits.js";
import { ANOTHER_NOTE, centsAbove } from "../../music/cents.js";
import type { Analysis } from "../predict/analysis.js";
import { middleOf } from "./inTune.js";

/** Notes so far apart, where they ought to be one or stand the other way round, leave no middle: each would be another note. Cents. */
const NO_MIDDLE = 3 * ANOTHER_NOTE;
/**
 * A bore, a mouth or a stopper changes the interval between two registers by less: between the tone by which the worst of octaves miss, and the
 * third that lies between registers high up. Cents; common practice, no source.
 */
const ANOTHER_REGISTER = 250;
/** Where more than this share of the notes would have to go, they say too little of the instrument to tell which are right. */
const MOST_LEFT = 1 / 2;

interface Told {
  readonly index: number;
  readonly covers: readonly number[];
  readonly register: number;
  readonly targetHz: number;
  /** Undefined without a resonance. */
  readonly cents: number | undefined;
}

/**
 * Indices of the fewest fingerings without which the rest contradict each other no more. Where either of two may go, it is the one that lies
 * farther from the notes that no other contradicts; else the flatter, since a register is sooner forgotten than made up.
 */
export function impossibleTogether({ fingerings, instrument: { body } }: Analysis): readonly number[] {
  const { hasRegisters, notesApart } = bodyTraits(body);
  if (notesApart) return [];
  const notes = fingerings.flatMap(({ fingering: { covers, register }, targetHz, cents }, index): readonly Told[] =>
    covers === undefined || targetHz === undefined
      ? []
      : [{ index, covers, register: hasRegisters ? register : 1, targetHz, cents }],
  );
  const left = new Set<Told>();
  const against = (note: Told) => notes.filter((other) => !left.has(other) && areImpossible(note, other)).length;
  const middle = middleOf(notes.filter((note) => against(note) === 0).flatMap(({ cents }) => cents ?? []));
  const apart = ({ cents }: Told) => (middle === undefined || cents === undefined ? 0 : Math.abs(cents - middle));
  while (left.size <= MOST_LEFT * notes.length) {
    const [first] = notes
      .filter((note) => !left.has(note))
      .map((note) => ({ note, count: against(note) }))
      .sort((a, b) => b.count - a.count || apart(b.note) - apart(a.note) || (a.note.cents ?? 0) - (b.note.cents ?? 0));
    if (first === undefined || first.count === 0) return [...left].map(({ index }) => index);
    left.add(first.note);
  }
  return [];
}

function areImpossible(one: Told, other: Told): boolean {
  if (one === other) return false;
  const isSame = isOpenToo(one, other) && isOpenToo(other, one);
  const between = one.cents === undefined || other.cents === undefined ? 0 : Math.abs(one.cents - other.cents);
  if (isSame && between > ANOTHER_REGISTER) return true;
  const isTooLow = (high: Told, low: Told) =>
    liesAbove(high, low) && centsAbove(low.targetHz, high.targetHz) > NO_MIDDLE;
  return isTooLow(one, other) || isTooLow(other, one);
}

/** Whether the one note sounds no lower than the other, whatever the dimensions. */
function liesAbove(one: Told, other: Told): boolean {
  return one.register >= other.register && isOpenToo(one, other);
}

/** Whether every hole is at least as open. */
function isOpenToo({ covers }: Told, other: Told): boolean {
  return covers.every((cover, hole) => cover <= (other.covers[hole] ?? cover));
}
