/**
 * Which fingering each heard note was played with. Players go through a scale mostly step by step, and all notes are off by a common
 * offset that is not known beforehand: a hidden chain over the fingerings is followed for every common offset, and the offsets are weighed
 * by how well they explain the whole. The result is a probability for each note; what is not sure is questioned, never guessed.
 */
import { DOUBTFUL } from "../sound/octave.js";
import { apartFromOthers } from "./apartFromOthers.js";
import { type Candidate, type Heard, OCTAVE_SHIFTS, type Posterior, weighOffsets } from "./weighOffsets.js";

export interface Match {
  /** Index of the fingering; undefined where none is near. */
  readonly fingering: number | undefined;
  /** To be added to what was heard, cents: 0 or ±1200. */
  readonly octaveShift: number;
  readonly probability: number;
  /** Why it is in question. */
  readonly question: string | undefined;
}

export interface Matching {
  readonly matches: readonly Match[];
  /** Median of heard less predicted over the matched notes, cents. */
  readonly offset: number | undefined;
  /** More than a third of the notes are in question: this may be another instrument. */
  readonly doubtful: boolean;
}

/** A match is accepted from this probability on; a note whose octave the sound leaves open must be surer by its place. */
const SURE = 0.95;
const SURE_OPEN = 0.98;
/** Two fingerings within this many cents sound alike; an octave apart, within this of it. */
const ALIKE = 12;
const OCTAVE_NEAR = 60;
/** Share of notes in question from which the design itself is in question. */
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

function decide(note: Heard, { states, octaves }: Posterior, candidates: readonly Candidate[]): Match {
  const order = [...states.keys()].sort((a, b) => (states[b] as number) - (states[a] as number));
  const [best, second] = [order[0] as number, order[1] as number];
  const probability = states[best] as number;
  const played = candidates[best];
  if (played === undefined)
    return { fingering: undefined, octaveShift: 0, probability, question: "no fingering of the design is close to it" };
  const parts = octaves.subarray(best * OCTAVE_SHIFTS.length, (best + 1) * OCTAVE_SHIFTS.length);
  const octaveShift = OCTAVE_SHIFTS[parts.indexOf(Math.max(...parts))] ?? 0;
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
            ? `${played.name} and its octave sound together`
            : undefined;
  return { fingering: best, octaveShift, probability, question };
}

/** A note that lies apart from the others, once all have been moved together, is in question. */
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
      question: `${name} would be ${Math.abs(by).toFixed(0)} cents ${by > 0 ? "sharper" : "flatter"} than the others`,
    };
  });
}
