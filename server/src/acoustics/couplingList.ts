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
  /** Of what acts on port i: from `starts[i]` to before `starts[i + 1]` in the lists below, which port, how strongly… */
  readonly starts: Int32Array;
  readonly from: Int32Array;
  readonly coupling: Float64Array;
  /** …and 1 where that may be reckoned less exactly. */
  readonly slight: Uint8Array;

  constructor(ports: number, pairs: readonly Pair[], isSlight: (pair: Pair) => boolean) {
    const sorted = [...pairs].sort((a, b) => a.i - b.i || a.j - b.j);
    this.count = sorted.length;
    this.starts = new Int32Array(ports + 1);
    for (const { i } of sorted) this.starts[i + 1] = (this.starts[i + 1] as number) + 1;
    for (let i = 0; i < ports; i++) this.starts[i + 1] = (this.starts[i + 1] as number) + (this.starts[i] as number);
    this.from = Int32Array.from(sorted, ({ j }) => j);
    this.coupling = Float64Array.from(sorted, ({ coupling }) => coupling);
    this.slight = Uint8Array.from(sorted, (pair) => (isSlight(pair) ? 1 : 0));
  }
}
