interface Pair {
  /** Acted on. */
  readonly i: number;
  /** Acting. */
  readonly j: number;
  readonly coupling: number;
}

/** What acts on each port, as plain numbers: a column of many holes has thousands of pairs, gone through at every frequency. */
export class CouplingList {
  readonly count: number;
  /** What acts on port i, from `starts[i]` to before `starts[i + 1]` in the lists below: which port, how strongly… */
  readonly starts: Int32Array;
  readonly from: Int32Array;
  readonly coupling: Float64Array;
  /** …and 1 where that may be calculated less exactly. */
  readonly slight: Uint8Array;

  /** @param ports how many there are @param bothWays whether the two of a pair act on each other equally */
  constructor(
    ports: number,
    pairs: readonly Pair[],
    bothWays: boolean,
    isSlight: (pair: Pair) => boolean = () => false,
  ) {
    this.starts = new Int32Array(ports + 1);
    const { starts } = this;
    const isBoth = ({ i, j }: Pair) => bothWays && i !== j;
    const more = (port: number) => {
      starts[port + 1] = (starts[port + 1] as number) + 1;
    };
    for (const pair of pairs) {
      more(pair.i);
      if (isBoth(pair)) more(pair.j);
    }
    for (let i = 0; i < ports; i++) starts[i + 1] = (starts[i + 1] as number) + (starts[i] as number);
    this.count = starts[ports] as number;
    this.from = new Int32Array(this.count);
    this.coupling = new Float64Array(this.count);
    this.slight = new Uint8Array(this.count);
    const next = starts.slice();
    const put = (to: number, from: number, coupling: number, slight: boolean) => {
      const at = next[to] as number;
      next[to] = at + 1;
      this.from[at] = from;
      this.coupling[at] = coupling;
      this.slight[at] = slight ? 1 : 0;
    };
    for (const pair of pairs) {
      const slight = isSlight(pair);
      put(pair.i, pair.j, pair.coupling, slight);
      if (isBoth(pair)) put(pair.j, pair.i, pair.coupling, slight);
    }
  }
}
