/**
 * Forward and backward pass of a hidden Markov chain with scaling (Rabiner, Proc. IEEE 77, 1989, III.A and V.A).
 */

export interface Chain {
  /** Probability of each state first. */
  readonly first: Float64Array;
  /** Probability of going from a state (row) to another. */
  readonly moves: readonly Float64Array[];
}

export interface Passed {
  /** Probability of each state at each step, given all that was seen. */
  readonly states: readonly Float64Array[];
  /** Logarithm of the probability of what was seen. */
  readonly logEvidence: number;
}

/** @param seen for each step the density of what was seen there, state by state */
export function passChain({ first, moves }: Chain, seen: readonly Float64Array[]): Passed {
  let logEvidence = 0;
  const forward: Float64Array[] = [];
  seen.forEach((density, step) => {
    const before = forward[step - 1];
    const now = density.map(
      (value, to) => value * (before === undefined ? (first[to] as number) : reached(before, moves, to)),
    );
    logEvidence += Math.log(normalise(now));
    forward.push(now);
  });
  const states: Float64Array[] = new Array(seen.length);
  let backward = new Float64Array(first.length).fill(1);
  for (let step = seen.length - 1; step >= 0; step--) {
    const both = (forward[step] as Float64Array).map((value, state) => value * (backward[state] as number));
    normalise(both);
    states[step] = both;
    const ahead = (seen[step] as Float64Array).map((value, state) => value * (backward[state] as number));
    backward = backward.map((_, from) => dot(moves[from] as Float64Array, ahead));
    normalise(backward);
  }
  return { states, logEvidence };
}

function reached(before: Float64Array, moves: readonly Float64Array[], to: number): number {
  let sum = 0;
  for (let from = 0; from < before.length; from++)
    sum += (before[from] as number) * ((moves[from] as Float64Array)[to] as number);
  return sum;
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += (a[i] as number) * (b[i] as number);
  return sum;
}

/** Makes the sum 1; returns what it was. */
function normalise(values: Float64Array): number {
  let sum = 0;
  for (const value of values) sum += value;
  for (let i = 0; i < values.length; i++) values[i] = (values[i] as number) / sum;
  return sum;
}
