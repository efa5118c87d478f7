/** Fewer samples a second: a low pass of a windowed sinc, and every n-th sample of what it lets through, as a stream. */

/** Samples a second that keep every harmonic the pitch is taken from, Hz. */
const ENOUGH = 14_000;
/** Cut-off as a share of the new rate. */
const PASS = 0.43;
/** Length of the filter on either side, in samples of the new rate. */
const HALF_LENGTH = 12;

export class Decimator {
  readonly rate: number;
  private readonly factor: number;
  /** One side of the symmetric filter, the middle first. */
  private readonly half: Float64Array;
  private kept: number;
  /** What is kept, and what follows it; taken again by each piece, as is what comes out. */
  private line: Float32Array;
  private out = new Float32Array();
  /** Where the next output lies in the line. */
  private next = 0;

  constructor(rate: number) {
    this.factor = Math.max(1, Math.floor(rate / ENOUGH));
    this.rate = rate / this.factor;
    this.half = lowPass(this.factor);
    this.kept = 2 * (this.half.length - 1);
    this.line = new Float32Array(this.kept);
  }

  /** @param samples at the old rate; returns those at the new one, late by half the filter's length, overwritten by the next call */
  push(samples: Float32Array): Float32Array {
    if (this.factor === 1) return samples;
    const reach = this.half.length - 1;
    const length = this.kept + samples.length;
    if (this.line.length < length) {
      const longer = new Float32Array(length);
      longer.set(this.line.subarray(0, this.kept));
      this.line = longer;
    }
    const { line } = this;
    line.set(samples, this.kept);
    const last = length - 2 * reach;
    const count = Math.max(0, Math.ceil((last - this.next) / this.factor));
    if (this.out.length < count) this.out = new Float32Array(count);
    const out = this.out.subarray(0, count);
    let at = this.next;
    for (let i = 0; i < count; i++, at += this.factor) out[i] = this.filtered(line, at + reach);
    this.next = at - last;
    line.copyWithin(0, last, length);
    this.kept = length - last;
    return out;
  }

  private filtered(line: Float32Array, middle: number): number {
    let sum = (this.half[0] as number) * (line[middle] as number);
    for (let k = 1; k < this.half.length; k++)
      sum += (this.half[k] as number) * ((line[middle - k] as number) + (line[middle + k] as number));
    return sum;
  }
}

/** Blackman's window over a sinc, of unit gain at 0 Hz (Oppenheim and Schafer, Discrete-Time Signal Processing, 7.5). */
function lowPass(factor: number): Float64Array {
  if (factor === 1) return Float64Array.of(1);
  const reach = HALF_LENGTH * factor;
  const half = Float64Array.from({ length: reach + 1 }, (_, k) => {
    const x = (2 * Math.PI * PASS * k) / factor;
    const window =
      0.42 + 0.5 * Math.cos((Math.PI * k) / (reach + 1)) + 0.08 * Math.cos((2 * Math.PI * k) / (reach + 1));
    return (k === 0 ? 1 : Math.sin(x) / x) * window;
  });
  const gain = half.reduce((sum, value, k) => sum + (k === 0 ? value : 2 * value), 0);
  return half.map((value) => value / gain);
}
