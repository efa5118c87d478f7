/** Whether the mains hum in a recording, at 50 or at 60 Hz: their second and third harmonics beside references 7 Hz off. */

const FREQUENCIES = [50, 60] as const;
const HARMONICS = [2, 3];
const BESIDE = 7;
const BLOCK_SECONDS = 0.5;
/** A harmonic stands 10 dB over its references, and is above −90 dB of full scale. */
const OVER = 10;
const AUDIBLE = 1e-9;
/** In more than half of the blocks, and in two at least. */
const SHARE = 0.5;
const FEWEST_BLOCKS = 2;

interface Goertzel {
  readonly turn: number;
  a: number;
  b: number;
}

export class Mains {
  private readonly length: number;
  private readonly window: Float32Array;
  private readonly lines: readonly {
    readonly mains: number;
    readonly beside: readonly [Goertzel, Goertzel, Goertzel];
  }[];
  private at = 0;
  private blocks = 0;
  private readonly hits = new Map<number, number>();

  /** @param rate samples a second */
  constructor(rate: number) {
    this.length = Math.round(BLOCK_SECONDS * rate);
    this.window = Float32Array.from(
      { length: this.length },
      (_, i) => 1 - Math.cos((2 * Math.PI * (i + 0.5)) / this.length),
    );
    const line = (hz: number): Goertzel => ({ turn: 2 * Math.cos((2 * Math.PI * hz) / rate), a: 0, b: 0 });
    this.lines = FREQUENCIES.flatMap((mains) =>
      HARMONICS.map((harmonic) => {
        const hz = harmonic * mains;
        return { mains, beside: [line(hz - BESIDE), line(hz), line(hz + BESIDE)] as const };
      }),
    );
  }

  push(samples: Float32Array): void {
    for (let from = 0; from < samples.length; ) {
      const to = Math.min(samples.length, from + this.length - this.at);
      for (const { beside } of this.lines) for (const line of beside) this.follow(line, samples, from, to);
      this.at += to - from;
      from = to;
      if (this.at === this.length) this.endBlock();
    }
  }

  /** 50 or 60, Hz; undefined where nothing hums. */
  get hz(): number | undefined {
    if (this.blocks < FEWEST_BLOCKS) return undefined;
    return FREQUENCIES.find((mains) => (this.hits.get(mains) ?? 0) > SHARE * this.blocks);
  }

  private follow(line: Goertzel, samples: Float32Array, from: number, to: number): void {
    let { a, b } = line;
    for (let i = from, k = this.at; i < to; i++, k++) {
      const value = (samples[i] as number) * (this.window[k] as number) + line.turn * a - b;
      b = a;
      a = value;
    }
    line.a = a;
    line.b = b;
  }

  private endBlock(): void {
    this.at = 0;
    this.blocks++;
    const humming = new Set<number>();
    for (const { mains, beside } of this.lines) {
      const [below, here, above] = beside.map(power) as [number, number, number];
      if (here > (OVER * (below + above)) / 2 && here > AUDIBLE * this.length ** 2) humming.add(mains);
      for (const line of beside) line.a = line.b = 0;
    }
    for (const mains of humming) this.hits.set(mains, (this.hits.get(mains) ?? 0) + 1);
  }
}

/** Goertzel's recursion, its last step. */
function power({ turn, a, b }: Goertzel): number {
  return a * a + b * b - turn * a * b;
}
