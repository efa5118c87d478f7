/** The short-time spectrum of a recording, the noise beneath it, and the peaks that stand out of it. */
import FFT from "fft.js";
import { nthSmallest } from "./median.js";

/** Length of a frame and distance from one to the next, seconds: a vibrato of 8 Hz is still followed. */
const FRAME_SECONDS = 0.064;
const HOP_SECONDS = 0.016;
/** The noise floor is taken in bands between these, Hz: breath is coloured by the bore. */
const BAND_EDGES = [0, 300, 600, 950, 1400, 2000, 2800, 3900, 5200, 7000];
/** Share of the sorted powers taken as floor, below what harmonics add; and what that share is of the mean power of noise, −ln(1 − 0.3). */
const FLOOR_SHARE = 0.3;
const SHARE_OF_MEAN = -Math.log(1 - FLOOR_SHARE);
/** A peak stands out of the floor by 10 dB, and lies at most 50 dB below the strongest. */
const OVER_FLOOR = 10;
const BELOW_STRONGEST = 1e-5;
/** Only this many peaks, the strongest, are used. */
export const MOST_PEAKS = 10;
/** Below −80 dB of full scale nothing is heard. */
const AUDIBLE = 1e-8;
/** As a share of the sampling rate: above, the decimator lets nothing through. */
const HIGHEST = 0.43;

export interface Peak {
  /** Hz, between bins by a parabola through the logarithms. */
  readonly hz: number;
  readonly power: number;
}

export class Spectrum {
  /** Samples of a frame, and from one frame to the next. */
  readonly length: number;
  readonly hop: number;
  readonly window: Float64Array;
  /** Power of each bin of the latest frame, of the noise there, and of a full-scale tone. */
  readonly power: Float64Array;
  readonly floor: Float64Array;
  readonly fullScale: number;
  /** Hz of one bin. */
  readonly binWidth: number;
  /** The highest bin used. */
  readonly top: number;
  private readonly size: number;
  private readonly fft: FFT;
  private readonly samples: Float64Array;
  private readonly bands: readonly number[];
  private current: number[];
  private previous: number[];
  private readonly band: Float64Array;

  constructor(readonly rate: number) {
    this.length = Math.round(rate * FRAME_SECONDS);
    this.hop = Math.round(rate * HOP_SECONDS);
    this.size = 2 ** Math.ceil(Math.log2(this.length));
    this.fft = new FFT(this.size);
    this.binWidth = rate / this.size;
    this.window = blackman(this.length);
    this.fullScale = (this.window.reduce((sum, value) => sum + value, 0) / 2) ** 2;
    this.samples = new Float64Array(this.size);
    this.current = this.fft.createComplexArray();
    this.previous = this.fft.createComplexArray();
    this.power = new Float64Array(this.size / 2);
    this.floor = new Float64Array(this.size / 2);
    this.band = new Float64Array(this.size / 2);
    const highest = Math.min(BAND_EDGES.at(-1) as number, HIGHEST * rate);
    this.top = Math.floor(highest / this.binWidth);
    const edges = BAND_EDGES.map((hz) => Math.max(2, Math.round(hz / this.binWidth)));
    this.bands = [...edges.filter((bin) => bin < this.top), this.top];
  }

  /** Takes the frame that begins at an index. @returns whether anything is heard in it */
  take(line: Float32Array, at: number): boolean {
    [this.current, this.previous] = [this.previous, this.current];
    for (let i = 0; i < this.length; i++) this.samples[i] = (line[at + i] as number) * (this.window[i] as number);
    this.fft.realTransform(this.current, this.samples);
    let strongest = 0;
    for (let bin = 1; bin <= this.top; bin++) {
      const re = this.current[2 * bin] as number;
      const im = this.current[2 * bin + 1] as number;
      this.power[bin] = re * re + im * im;
      strongest = Math.max(strongest, this.power[bin] as number);
    }
    if (strongest < AUDIBLE * this.fullScale) return false;
    this.findFloor();
    return true;
  }

  /** Turns by which a bin's phase went on since the frame before, −0.5 to 0.5. */
  turnsSinceBefore(bin: number): number {
    const [a, b] = [this.current[2 * bin] as number, this.current[2 * bin + 1] as number];
    const [c, d] = [this.previous[2 * bin] as number, this.previous[2 * bin + 1] as number];
    return Math.atan2(b * c - a * d, a * c + b * d) / (2 * Math.PI);
  }

  /** The peaks that stand out of the floor, the strongest first. */
  peaks(): readonly Peak[] {
    const { power, floor } = this;
    let strongest = 0;
    for (let bin = 2; bin < this.top; bin++) strongest = Math.max(strongest, power[bin] as number);
    const found: Peak[] = [];
    for (let bin = 2; bin < this.top; bin++) {
      const here = power[bin] as number;
      if (here < OVER_FLOOR * (floor[bin] as number) || here < BELOW_STRONGEST * strongest) continue;
      if (here <= (power[bin - 1] as number) || here < (power[bin + 1] as number)) continue;
      found.push({ hz: this.between(bin) * this.binWidth, power: here });
    }
    return found.sort((a, b) => b.power - a.power).slice(0, MOST_PEAKS);
  }

  floorAt(hz: number): number {
    return this.floor[Math.min(this.top, Math.round(hz / this.binWidth))] as number;
  }

  private between(bin: number): number {
    const left = Math.log(this.power[bin - 1] as number);
    const here = Math.log(this.power[bin] as number);
    const right = Math.log(this.power[bin + 1] as number);
    return bin + (0.5 * (left - right)) / (left - 2 * here + right);
  }

  private findFloor(): void {
    for (let i = 0; i + 1 < this.bands.length; i++) {
      const [from, to] = [this.bands[i] as number, this.bands[i + 1] as number];
      const count = to - from;
      for (let k = 0; k < count; k++) this.band[k] = this.power[from + k] as number;
      const quiet = count === 0 ? 0 : nthSmallest(this.band, count, Math.floor(FLOOR_SHARE * count));
      this.floor.fill(quiet / SHARE_OF_MEAN + Number.MIN_VALUE, from, to + 1);
    }
  }
}

/** Blackman's window: side lobes 58 dB down, so that a strong harmonic hides no weak one (Harris, Proc. IEEE 66, 1978). */
function blackman(length: number): Float64Array {
  return Float64Array.from({ length }, (_, i) => {
    const turn = (2 * Math.PI * (i + 0.5)) / length;
    return 0.42 - 0.5 * Math.cos(turn) + 0.08 * Math.cos(2 * turn);
  });
}
