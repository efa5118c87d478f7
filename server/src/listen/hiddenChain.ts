/**
 * Forward and backward pass of a hidden Markov chain with scaling (Rabiner, Proc. IEEE 77, 1989, III.A and V.A).
 */

export interface Chain {
  /** Probability of each state first. */
  readonly first: Float64Array;
  /** Probability of going from a state (row) to another. */
  readonly moves: readonly Float64Array[];
}

/** Passes over this many steps, reusing the same memory. */
export class HiddenChain {
  /** Step after step, the probability of each state given all that was seen in the latest pass. */
  readonly states: Float64Array;
  private readonly count: number;
  private readonly backward: Float64Array;
  private readonly ahead: Float64Array;

  constructor(
    private readonly chain: Chain,
    private readonly steps: number,
  ) {
    this.count = chain.first.length;
    this.states = new Float64Array(steps * this.count);
    this.backward = new Float64Array(this.count);
    this.ahead = new Float64Array(this.count);
  }

  /** @param seen step after step, the density of what was seen there in each state. @returns the logarithm of its probability */
  pass(seen: Float64Array): number {
    const logEvidence = this.passForward(seen);
    this.passBackward(seen);
    return logEvidence;
  }

  private passForward(seen: Float64Array): number {
    const { states, count, chain } = this;
    let logEvidence = 0;
    for (let step = 0; step < this.steps; step++) {
      const at = step * count;
      for (let to = 0; to < count; to++) {
        let reached = step === 0 ? (chain.first[to] as number) : 0;
        for (let from = 0; from < count && step > 0; from++)
          reached += (states[at - count + from] as number) * ((chain.moves[from] as Float64Array)[to] as number);
        states[at + to] = (seen[at + to] as number) * reached;
      }
      logEvidence += Math.log(normalise(states, at, count));
    }
    return logEvidence;
  }

  private passBackward(seen: Float64Array): void {
    const { states, count, chain, backward, ahead } = this;
    backward.fill(1);
    for (let step = this.steps - 1; step >= 0; step--) {
      const at = step * count;
      for (let state = 0; state < count; state++) {
        states[at + state] = (states[at + state] as number) * (backward[state] as number);
        ahead[state] = (seen[at + state] as number) * (backward[state] as number);
      }
      normalise(states, at, count);
      for (let from = 0; from < count; from++) backward[from] = dot(chain.moves[from] as Float64Array, ahead);
      normalise(backward, 0, count);
    }
  }
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += (a[i] as number) * (b[i] as number);
  return sum;
}

/** Scales the values to sum 1; returns the sum before. */
function normalise(values: Float64Array, from: number, count: number): number {
  let sum = 0;
  for (let i = from; i < from + count; i++) sum += values[i] as number;
  for (let i = from; i < from + count; i++) values[i] = (values[i] as number) / sum;
  return sum;
}
