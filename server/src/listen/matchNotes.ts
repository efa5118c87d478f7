/**
 * Which fingering each heard note was played with. Players go through a scale mostly step by step, and all notes are off alike by an
 * offset that nobody knows beforehand: a hidden chain over the fingerings is followed for every common offset, and the offsets are weighed
 * by how well they explain the whole. What comes out is a probability for each note; what is not sure is asked, never guessed.
 */
import { DOUBTFUL } from "../sound/octave.js";
import { apartFromOthers } from "./apartFromOthers.js";
import { type Chain, passChain } from "./hiddenChain.js";

/** What is heard, of each note. */
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

export interface Match {
  /** Index of the fingering; undefined where none is near. */
  readonly fingering: number | undefined;
  /** To be added to what was heard, cents: 0 or ±1200. */
  readonly octaveShift: number;
  readonly probability: number;
  /** Why it is not taken without asking. */
  readonly question: string | undefined;
}

export interface Matching {
  readonly matches: readonly Match[];
  /** Median of heard less predicted over the matched notes, cents. */
  readonly offset: number | undefined;
  /** More than a third of the notes are in question: this may be another instrument. */
  readonly doubtful: boolean;
}

/** Common offsets looked at, cents. */
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
/** A note that is no fingering's: how often, and its density for each cent. */
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
/** A match is taken from this probability on; a note whose octave the sound leaves open must be surer by its place. */
const SURE = 0.95;
const SURE_OPEN = 0.98;
/** Two fingerings within so many cents sound alike; an octave apart they are this near to it. */
const ALIKE = 12;
const OCTAVE_NEAR = 60;
const SHIFTS = [0, -1200, 1200] as const;
/** Share of notes in question from which the design itself is. */
const MANY = 1 / 3;

/** @param together how far all notes may be off alike, cents, as predictions state it */
export function matchNotes(heard: readonly Heard[], candidates: readonly Candidate[], together: number): Matching {
  if (heard.length === 0 || candidates.length === 0) return { matches: [], offset: undefined, doubtful: false };
  const posterior = weighOffsets(heard, candidates, together);
  const unsettled = heard.map((note, i) => decide(note, posterior[i] as Posterior, candidates));
  const matches = askOfThoseApart(unsettled, heard, candidates);
  const asked = matches.filter(({ question }) => question !== undefined).length;
  const differences = matches.flatMap(({ fingering, question, octaveShift }, i) =>
    fingering === undefined || question !== undefined
      ? []
      : [(heard[i] as Heard).cents + octaveShift - (candidates[fingering] as Candidate).cents],
  );
  differences.sort((a, b) => a - b);
  return { matches, offset: differences[differences.length >> 1], doubtful: asked > MANY * heard.length };
}

/** Probabilities of one note: of each fingering, the last for none; and of each fingering's octaves, as in `SHIFTS`. */
interface Posterior {
  readonly states: Float64Array;
  readonly octaves: readonly Float64Array[];
}

function weighOffsets(
  heard: readonly Heard[],
  candidates: readonly Candidate[],
  together: number,
): readonly Posterior[] {
  const chain = chainOver(candidates.length);
  const lowest = Math.min(...candidates.map(({ cents }) => cents));
  const tried = offsets().map(({ offset, lean }) => {
    const expected = candidates.map(({ cents }) => {
      // An end correction moves a note in proportion to its frequency; 1.5 is the middle of an octave and a half.
      const leaning = 2 ** ((cents - lowest) / 1200) / 1.5;
      return cents + offset * (1 - lean + lean * leaning);
    });
    const densities = heard.map((note) => densitiesOf(note, candidates, expected, offset));
    const { states, logEvidence } = passChain(
      chain,
      densities.map(({ states: seen }) => seen),
    );
    return { states, densities, weight: logEvidence - 0.5 * (offset / together) ** 2 };
  });
  const best = Math.max(...tried.map(({ weight }) => weight));
  const weights = tried.map(({ weight }) => Math.exp(weight - best));
  const all = weights.reduce((sum, weight) => sum + weight, 0);
  return heard.map((_, note) => {
    const states = new Float64Array(candidates.length + 1);
    const octaves = candidates.map(() => new Float64Array(SHIFTS.length));
    tried.forEach((trial, i) => {
      const weight = (weights[i] as number) / all;
      const here = trial.states[note] as Float64Array;
      const density = trial.densities[note] as Densities;
      for (let state = 0; state < here.length; state++)
        states[state] = (states[state] as number) + weight * (here[state] as number);
      octaves.forEach((sums, state) => {
        const parts = density.octaves[state] as Float64Array;
        const share = (weight * (here[state] as number)) / (density.states[state] as number);
        for (let k = 0; k < sums.length; k++) sums[k] = (sums[k] as number) + share * (parts[k] as number);
      });
    });
    return { states, octaves };
  });
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

interface Densities {
  readonly states: Float64Array;
  readonly octaves: readonly Float64Array[];
}

function densitiesOf(
  note: Heard,
  candidates: readonly Candidate[],
  expected: readonly number[],
  offset: number,
): Densities {
  const open = note.changed ? OCTAVE_CHANGED : note.octave.margin < DOUBTFUL ? OCTAVE_OPEN : OCTAVE_CLEAR;
  const octaves = candidates.map(({ against }, i) => {
    const deviation = Math.hypot(against / BAND_TO_DEVIATION, PLAYER, note.uncertainty, OFFSET_SPREAD * offset);
    return Float64Array.from(SHIFTS, (shift) => {
      const away = note.cents + shift - (expected[i] as number);
      const density = (1 - WILD) * normal(away, deviation) + WILD * normal(away, WILDER * deviation);
      return (shift === 0 ? 1 - 2 * open : open) * density;
    });
  });
  return {
    octaves,
    states: Float64Array.from([...octaves.map((parts) => parts.reduce((a, b) => a + b)), STRAY_DENSITY]),
  };
}

function normal(away: number, deviation: number): number {
  return Math.exp(-0.5 * (away / deviation) ** 2) / (Math.sqrt(2 * Math.PI) * deviation);
}

function decide(note: Heard, { states, octaves }: Posterior, candidates: readonly Candidate[]): Match {
  const order = [...states.keys()].sort((a, b) => (states[b] as number) - (states[a] as number));
  const [best, second] = [order[0] as number, order[1] as number];
  const probability = states[best] as number;
  const played = candidates[best];
  if (played === undefined)
    return { fingering: undefined, octaveShift: 0, probability, question: "no fingering of the design is near it" };
  const parts = octaves[best] as Float64Array;
  const octaveShift = SHIFTS[parts.indexOf(Math.max(...parts))] ?? 0;
  const nameOf = (state: number) => candidates[state]?.name ?? "none of them";
  const open = note.octave.margin < DOUBTFUL;
  const alike = candidates.some(
    ({ cents }, i) => i !== best && Math.abs(cents - played.cents) < ALIKE && (states[i] as number) > 1 - SURE_OPEN,
  );
  const octaveToo = candidates.some(({ cents }) => Math.abs(Math.abs(cents - played.cents) - 1200) < OCTAVE_NEAR);
  const question = note.accompanied
    ? "two notes at once"
    : probability < (open ? SURE_OPEN : SURE)
      ? `${played.name} (${Math.round(100 * probability)} %) or ${nameOf(second)}`
      : alike
        ? "two fingerings sound alike"
        : octaveShift !== 0 && !open
          ? `heard an octave ${octaveShift < 0 ? "above" : "below"} ${played.name}`
          : note.changed && octaveToo
            ? `${played.name} and its octave sound in one`
            : undefined;
  return { fingering: best, octaveShift, probability, question };
}

/** A note that lies apart from the others, once all have been moved together, is asked about. */
function askOfThoseApart(
  matches: readonly Match[],
  heard: readonly Heard[],
  candidates: readonly Candidate[],
): readonly Match[] {
  const taken = matches.flatMap(({ fingering, question, octaveShift }, i) =>
    fingering === undefined || question !== undefined
      ? []
      : [{ i, fingering, cents: (heard[i] as Heard).cents + octaveShift }],
  );
  const apart = apartFromOthers(
    taken.map(({ fingering, cents }) => {
      const predicted = (candidates[fingering] as Candidate).cents;
      return { octaves: predicted / 1200, difference: cents - predicted };
    }),
  );
  return matches.map((match, i) => {
    const at = taken.findIndex((each) => each.i === i);
    const by = apart[at];
    if (by === undefined) return match;
    const name = candidates[match.fingering as number]?.name;
    return {
      ...match,
      question: `${name} would be ${Math.abs(by).toFixed(0)} cents ${by > 0 ? "sharp" : "flat"} of the others`,
    };
  });
}
