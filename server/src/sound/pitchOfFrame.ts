/** The pitch of each frame: which harmonic series its peaks belong to, and its frequency by the advance of their phases. */
import { MOST_PEAKS, type Peak, type Spectrum } from "./spectrum.js";

export interface Tone {
  /** Fundamental, Hz. */
  readonly hz: number;
  /** Decibels of full scale, of the harmonics together; of them over the noise; of the odd ones against all. */
  readonly level: number;
  readonly snr: number;
  readonly odd: number;
  /** Share of the peaks' amplitude that belongs to no harmonic of it. */
  readonly beside: number;
}

/** Frequencies looked for, Hz: lowest and highest. */
export type Range = readonly [number, number];
export const LOWEST_PITCH = 60;
/** From a bass flute's lowest to a whistle's highest note. */
export const WHOLE_RANGE: Range = [LOWEST_PITCH, 4_200];

/** Each of the strongest peaks may be the first, second or third harmonic. */
const STRONGEST = 4;
const MOST_DIVIDED = 3;
/** Missing harmonics up to this one count against a candidate. */
const JUDGED_HARMONICS = 5;
/** What each missing one costs, of a score whose best is 1; less where noise would have hidden it. */
const MISSING = 0.09;
const HIDDEN = 0.4;
/** The current note is preferred by this much within 3 %. */
const UNDER_WAY = 0.15;
const SAME_NOTE = 0.03;
/** Explained share below which a frame has no pitch. */
const CLEAR = 0.3;
/** How far a peak may lie from its harmonic: of the fundamental, and in bins. */
const AWAY = 0.02;
const AWAY_BINS = 0.35;
/** This many noise floors of a peak's power count as noise. */
const NOISE_SHARE = 8;
/** The pitch is taken from harmonics 1 to 6, each with its number squared as weight, up to 45 dB over the noise. */
const USED_HARMONICS = 6;
const MOST_SNR = 3e4;
const LEAST_SNR = 10;
/** A harmonic more than 1.2 % beside the others is something else. */
const AGREES = 0.012;

/** Follows the pitch from frame to frame. */
export class PitchOfFrame {
  private before: number | undefined;
  private hasPrevious = false;
  // Ten minutes have 37,500 frames with a dozen candidates each: what judging them needs is made once.
  private readonly weights = new Float64Array(MOST_PEAKS);
  /** Share of the peaks' amplitude that the candidate judged last explains. */
  private explained = 0;
  /** Pitch by each harmonic, and its weight. */
  private readonly byHarmonic = new Float64Array(USED_HARMONICS);
  private readonly harmonicWeights = new Float64Array(USED_HARMONICS);

  constructor(
    private readonly spectrum: Spectrum,
    private readonly range: Range = WHOLE_RANGE,
  ) {}

  /** The tone of the frame that begins at an index; undefined where none is heard. */
  tone(line: Float32Array, at: number): Tone | undefined {
    const heard = this.spectrum.take(line, at);
    const first = !this.hasPrevious;
    this.hasPrevious = true;
    const rough = heard && !first ? this.fundamental() : undefined;
    this.before = rough?.hz;
    return rough === undefined ? undefined : this.refined(rough.hz, 1 - rough.explained);
  }

  /** The candidate whose harmonics explain most of the peaks. */
  private fundamental(): { readonly hz: number; readonly explained: number } | undefined {
    const peaks = this.spectrum.peaks();
    const strongest = peaks[0]?.power;
    if (strongest === undefined) return undefined;
    for (let i = 0; i < peaks.length; i++) {
      const { hz, power } = peaks[i] as Peak;
      const noise = NOISE_SHARE * this.spectrum.floorAt(hz);
      this.weights[i] = Math.sqrt(Math.max(0, power - noise) / strongest);
    }
    let best = 0;
    let bestExplained = 0;
    let bestScore = CLEAR;
    for (let i = 0; i < Math.min(STRONGEST, peaks.length); i++) {
      for (let harmonic = 1; harmonic <= MOST_DIVIDED; harmonic++) {
        const candidate = (peaks[i] as Peak).hz / harmonic;
        if (candidate < this.range[0] || candidate > this.range[1]) continue;
        const score = this.score(candidate, peaks, strongest);
        if (score <= bestScore) continue;
        best = candidate;
        bestExplained = this.explained;
        bestScore = score;
      }
    }
    return best === 0 ? undefined : { hz: best, explained: bestExplained };
  }

  /** How well a pitch explains the peaks; leaves in `explained` which share of them. */
  private score(hz: number, peaks: readonly Peak[], strongest: number): number {
    /** A bit for each harmonic that is judged. */
    let seen = 0;
    let explained = 0;
    let all = 0;
    let highest = 0;
    for (let i = 0; i < peaks.length; i++) {
      const peak = peaks[i] as Peak;
      const weight = this.weights[i] as number;
      all += weight;
      highest = Math.max(highest, peak.hz);
      const harmonic = Math.round(peak.hz / hz);
      const allowed = Math.max(AWAY * hz * Math.sqrt(harmonic), AWAY_BINS * this.spectrum.binWidth);
      if (harmonic < 1 || Math.abs(peak.hz - harmonic * hz) >= allowed) continue;
      explained += weight;
      if (harmonic <= JUDGED_HARMONICS) seen |= 1 << harmonic;
    }
    let missing = 0;
    const judged = Math.min(JUDGED_HARMONICS, Math.floor(highest / hz + 0.1));
    for (let harmonic = 1; harmonic <= judged; harmonic++) {
      if ((seen & (1 << harmonic)) !== 0) continue;
      missing += 6 * this.spectrum.floorAt(harmonic * hz) < 1e-3 * strongest ? 1 : HIDDEN;
    }
    const underWay = this.before !== undefined && Math.abs(hz / this.before - 1) < SAME_NOTE ? UNDER_WAY : 0;
    this.explained = explained / all;
    return this.explained - MISSING * missing + underWay;
  }

  private refined(rough: number, beside: number): Tone | undefined {
    const { spectrum } = this;
    const { power, floor, hop, rate } = spectrum;
    const { byHarmonic, harmonicWeights } = this;
    let found = 0;
    let surest = 0;
    let tone = 0;
    let noise = 0;
    let odd = 0;
    for (let harmonic = 1; harmonic <= USED_HARMONICS; harmonic++) {
      const bin = nearestPeak(power, Math.round((harmonic * rough) / spectrum.binWidth));
      if (bin >= spectrum.top - 1) break;
      const here = power[bin] as number;
      tone += here;
      noise += floor[bin] as number;
      if (harmonic % 2 === 1) odd += here;
      const snr = here / (floor[bin] as number);
      if (snr < LEAST_SNR || here < (power[bin - 1] as number) || here < (power[bin + 1] as number)) continue;
      const turns = spectrum.turnsSinceBefore(bin);
      const expected = (harmonic * rough * hop) / rate;
      const hz = ((turns + Math.round(expected - turns)) * rate) / hop;
      if (Math.abs(hz / (harmonic * rough) - 1) > SAME_NOTE) continue;
      byHarmonic[found] = hz / harmonic;
      harmonicWeights[found] = harmonic ** 2 * Math.min(snr, MOST_SNR);
      if ((harmonicWeights[found] as number) > (harmonicWeights[surest] as number)) surest = found;
      found++;
    }
    if (found === 0) return undefined;
    let sum = 0;
    let weights = 0;
    for (let i = 0; i < found; i++) {
      const hz = byHarmonic[i] as number;
      if (Math.abs(hz / (byHarmonic[surest] as number) - 1) >= AGREES) continue;
      sum += hz * (harmonicWeights[i] as number);
      weights += harmonicWeights[i] as number;
    }
    return {
      hz: sum / weights,
      level: decibels(tone / spectrum.fullScale),
      snr: decibels(tone / noise),
      odd: decibels(odd / tone),
      beside,
    };
  }
}

function nearestPeak(power: Float64Array, bin: number): number {
  const here = power[bin] as number;
  if ((power[bin - 1] as number) > here) return bin - 1;
  return (power[bin + 1] as number) > here ? bin + 1 : bin;
}

export function decibels(ratio: number): number {
  return 10 * Math.log10(ratio);
}
