/** Probability that each heard note was played with each fingering, over all offsets by which the whole instrument may be off. */
import { DOUBTFUL } from "../sound/octave.js";
import { type Chain, HiddenChain } from "./hiddenChain.js";

/** What was heard of each note. */
export interface Heard {
  /** Above 440 Hz, cents, and standard uncertainty. */
  readonly cents: number;
  readonly uncertainty: number;
  /** How sure the octave is, dB; whether the note and its octave may sound in one. */
  readonly octave: { readonly margin: number };
  readonly changed: boolean;
  /** Another note sounded with it. */
  readonly accompanied?: boolean;
}

/** A fingering that may have been played. */
export interface Candidate {
  readonly name: string;
  /** Predicted, above 440 Hz, cents. */
  readonly cents: number;
  /** How far it may lie off against the other notes, cents, as predictions state it. */
  readonly against: number;
}

/** Common offsets tried, cents. */
const MOST_OFFSET = 150;
const OFFSET_STEP = 4;
/** A mouth's error grows with pitch, a temperature's does not: shares of the offset that lean that way. */
const LEANS = [0, 0.3, 0.6];
/** Lips and breath from note to note, cents (common practice, no source); a stated band holds two notes of three. */
const PLAYER = 7;
const BAND_TO_DEVIATION = 1.5;
/** A share of the common offset by which notes differ. */
const OFFSET_SPREAD = 0.15;
/** Weights of going to the next fingering in the list, of staying, of skipping one, of any other. */
const NEXT = 1;
const SAME = 0.35;
const SKIP = 0.12;
const ANY = 0.05;
/** A note that belongs to no fingering: how often, and its density per cent. */
const STRAY = 0.03;
const STRAY_DENSITY = 1e-4;
/** Most players begin with the first fingering. */
const BEGIN_FIRST = 4;
/** One note in fifty lies three times as far as it should. */
const WILD = 0.02;
const WILDER = 3;
/** Probability that the octave was heard wrongly to one side: clear, open, and where it changed within the note. */
const OCTAVE_CLEAR = 1e-5;
const OCTAVE_OPEN = 0.1;
const OCTAVE_CHANGED = 0.3;
/** Octave errors with which a note may have been heard, cents. */
export const OCTAVE_SHIFTS = [0, -1200, 1200] as const;

/** Probabilities of one note: of each fingering, the last for none; and of each fingering's octaves, as in `OCTAVE_SHIFTS`, one fingering after another. */
export interface Posterior {
  readonly states: Float64Array;
  readonly octaves: Float64Array;
}

/**
 * A hidden chain over the fingerings is followed for each common offset, and each counts by how well it explains the whole. One is followed at
 * a time and added to what is kept: ten minutes have 440 notes, and there are 228 offsets.
 * @param together how far all notes may be off alike, cents, as predictions state it
 */
export function weighOffsets(
  heard: readonly Heard[],
  candidates: readonly Candidate[],
  together: number,
): readonly Posterior[] {
  const chain = new HiddenChain(chainOver(candidates.length), heard.length);
  const densities = new Densities(heard, candidates);
  const posterior = heard.map(() => ({
    states: new Float64Array(candidates.length + 1),
    octaves: new Float64Array(candidates.length * OCTAVE_SHIFTS.length),
  }));
  const scale = (by: number) => {
    for (const { states, octaves } of posterior) for (const sums of [states, octaves]) multiply(sums, by);
  };
  const lowest = Math.min(...candidates.map(({ cents }) => cents));
  let heaviest = Number.NEGATIVE_INFINITY;
  let all = 0;
  for (const { offset, lean } of offsets()) {
    const expected = candidates.map(({ cents }) => {
      // An end correction moves a note in proportion to its frequency; 1.5 is the middle of an octave and a half.
      const leaning = 2 ** ((cents - lowest) / 1200) / 1.5;
      return cents + offset * (1 - lean + lean * leaning);
    });
    densities.take(expected, offset);
    const weight = chain.pass(densities.states) - 0.5 * (offset / together) ** 2;
    if (weight > heaviest) {
      // Kept relative to the heaviest, since the likelihood of hundreds of notes is beyond a number's range.
      scale(Math.exp(heaviest - weight));
      all *= Math.exp(heaviest - weight);
      heaviest = weight;
    }
    const share = Math.exp(weight - heaviest);
    all += share;
    posterior.forEach((sums, note) => {
      densities.addTo(sums, note, share, chain.states);
    });
  }
  scale(1 / all);
  return posterior;
}

function multiply(values: Float64Array, by: number): void {
  for (let i = 0; i < values.length; i++) values[i] = (values[i] as number) * by;
}

function offsets(): readonly { readonly offset: number; readonly lean: number }[] {
  const count = Math.floor((2 * MOST_OFFSET) / OFFSET_STEP) + 1;
  return Array.from({ length: count }, (_, i) => i * OFFSET_STEP - MOST_OFFSET).flatMap((offset) =>
    LEANS.map((lean) => ({ offset, lean })),
  );
}

function chainOver(count: number): Chain {
  const weight = (from: number, to: number) => [SAME, NEXT, SKIP][Math.abs(from - to)] ?? ANY;
  const spread = (weights: readonly number[]) => {
    const sum = weights.reduce((total, each) => total + each, 0);
    return Float64Array.from([...weights.map((each) => ((1 - STRAY) * each) / sum), STRAY]);
  };
  const all = Array.from({ length: count }, (_, i) => i);
  return {
    first: spread(all.map((i) => (i === 0 ? BEGIN_FIRST : 1))),
    // After a stray note any fingering may follow.
    moves: [...all.map((from) => spread(all.map((to) => weight(from, to)))), spread(all.map(() => 1))],
  };
}

/** How likely each note is to be heard as it was, by each fingering and by none, at one common offset. */
class Densities {
  /** Note after note, of each fingering, the last for none. */
  readonly states: Float64Array;
  /** Note after note, fingering after fingering, as in `OCTAVE_SHIFTS`. */
  private readonly octaves: Float64Array;
  private readonly stateCount: number;

  constructor(
    private readonly heard: readonly Heard[],
    private readonly candidates: readonly Candidate[],
  ) {
    this.stateCount = candidates.length + 1;
    this.states = new Float64Array(heard.length * this.stateCount);
    this.octaves = new Float64Array(heard.length * candidates.length * OCTAVE_SHIFTS.length);
  }

  /** @param expected pitch of each fingering with the offset, cents above 440 Hz */
  take(expected: readonly number[], offset: number): void {
    this.heard.forEach((note, i) => {
      this.takeNote(note, i, expected, offset);
    });
  }

  private takeNote(note: Heard, index: number, expected: readonly number[], offset: number): void {
    const open = note.changed ? OCTAVE_CHANGED : note.octave.margin < DOUBTFUL ? OCTAVE_OPEN : OCTAVE_CLEAR;
    const alike = note.uncertainty ** 2 + (OFFSET_SPREAD * offset) ** 2;
    const first = index * this.stateCount;
    const firstOctave = index * this.candidates.length * OCTAVE_SHIFTS.length;
    for (let state = 0; state < this.candidates.length; state++) {
      const { against } = this.candidates[state] as Candidate;
      const deviation = Math.sqrt((against / BAND_TO_DEVIATION) ** 2 + PLAYER ** 2 + alike);
      let sum = 0;
      for (let k = 0; k < OCTAVE_SHIFTS.length; k++) {
        const shift = OCTAVE_SHIFTS[k] as number;
        const away = note.cents + shift - (expected[state] as number);
        const density = (1 - WILD) * normal(away, deviation) + WILD * normal(away, WILDER * deviation);
        const part = (shift === 0 ? 1 - 2 * open : open) * density;
        this.octaves[firstOctave + state * OCTAVE_SHIFTS.length + k] = part;
        sum += part;
      }
      this.states[first + state] = sum;
    }
    this.states[first + this.candidates.length] = STRAY_DENSITY;
  }

  /** Adds a share of what the chain found for a note. @param found as `states` */
  addTo({ states, octaves }: Posterior, note: number, share: number, found: Float64Array): void {
    const first = note * this.stateCount;
    const firstOctave = note * octaves.length;
    for (let state = 0; state < states.length; state++)
      states[state] = (states[state] as number) + share * (found[first + state] as number);
    for (let i = 0; i < octaves.length; i++) {
      const state = first + Math.floor(i / OCTAVE_SHIFTS.length);
      const part = (this.octaves[firstOctave + i] as number) / (this.states[state] as number);
      octaves[i] = (octaves[i] as number) + share * (found[state] as number) * part;
    }
  }
}

function normal(away: number, deviation: number): number {
  return Math.exp(-0.5 * (away / deviation) ** 2) / (Math.sqrt(2 * Math.PI) * deviation);
}
