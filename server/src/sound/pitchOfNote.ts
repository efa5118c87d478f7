/** One pitch for a note: a line through its steady part, with the vibrato taken off, and how sure it is. */

import type { ToneFrame } from "./frames.js";
import { dot, type RobustFit, robustLeastSquares, weightedLeastSquares } from "./leastSquares.js";
import { median, medianOver, robustDeviation } from "./median.js";

export interface Vibrato {
  /** Hz. */
  readonly rate: number;
  /** Cents to either side. */
  readonly extent: number;
}

export interface NotePitch {
  /** Above 440 Hz, cents, and its standard uncertainty. */
  readonly cents: number;
  readonly uncertainty: number;
  /** Cents a second. */
  readonly drift: number;
  readonly vibrato: Vibrato | undefined;
  /** How far frames lie from the fitted line, cents, as a standard deviation. */
  readonly scatter: number;
  /** The frames of the steady part, and how long they last, seconds. */
  readonly steady: readonly ToneFrame[];
  readonly seconds: number;
  /** Medians over the steady part, dB. */
  readonly level: number;
  readonly snr: number;
}

/** Seconds left off at both ends, where a tongue or a finger moves; of a short note less. */
const EDGE = 0.08;
const SHORT_EDGE = 0.03;
const SHORT = 0.4;
/** Frames so much quieter than the note's median are left off, dB. */
const QUIETER = 8;
/** Least frames for a fit, and for a steady part. */
const FEWEST = 4;
const FEWEST_STEADY = 8;
/** Cents: no frame is known better; frames farther off are left out at first. */
const FINEST = 0.2;
const NEAR = 30;
/** A player's vibrato, Hz (common practice, no source); kept where it explains 40 % of the scatter and is no less than 2.5 cents. */
const SLOWEST = 3;
const FASTEST = 8.5;
const EXPLAINS = 0.4;
const LEAST_EXTENT = 2.5;
/** Seconds a vibrato needs to be seen; turns of the slowest that it must make. */
const VIBRATO_SECONDS = 0.4;
const FEWEST_TURNS = 1.8;
/** Larger residuals are not vibrato, cents. */
const WILD = 60;
/** The steady part stays within 2.5 deviations of its middle, and between these bounds, cents; medians run over nine frames. */
const STEADY_DEVIATIONS = 2.5;
const STEADY_LEAST = 5;
const STEADY_MOST = 15;
const STEADY_REACH = 4;
/** Frames nearer than this depend on each other, seconds: scatter is counted between blocks of such a length. */
const BLOCK = 0.2;
/** Cents: what the method itself and a recorder's clock leave. */
const METHOD = 0.15;
/** Deviation between blocks where there are too few to tell, cents. */
const UNKNOWN_SCATTER = 1.5;

/** @param hop seconds from frame to frame */
export function pitchOfNote(frames: readonly ToneFrame[], hop: number): NotePitch {
  const loud = withoutEnds(frames);
  const whole = fitOf(loud);
  const steady = steadyPart(loud, whole);
  const { fit, vibrato, times } = steady === loud ? whole : fitOf(steady);
  const [offset, drift] = [fit.coefficients[0] as number, fit.coefficients[1] as number];
  const weight = fit.weights.reduce((sum, w) => sum + w, 0);
  const centre = times.reduce((sum, time, i) => sum + (fit.weights[i] as number) * time, 0) / weight;
  const seconds = (times.at(-1) as number) - (times[0] as number) + hop;
  return {
    cents: offset + drift * centre,
    uncertainty: Math.hypot(blockError(fit, times, seconds), (0.5 * Math.abs(drift) * seconds) / Math.sqrt(12), METHOD),
    drift,
    vibrato,
    scatter: fit.deviation,
    steady,
    seconds,
    level: median(frames.map(({ tone }) => tone.level)),
    snr: median(steady.map(({ tone }) => tone.snr)),
  };
}

function withoutEnds(frames: readonly ToneFrame[]): readonly ToneFrame[] {
  const [start, end] = [frames[0]?.time ?? 0, frames.at(-1)?.time ?? 0];
  const edge = end - start > SHORT ? EDGE : SHORT_EDGE;
  const quiet = median(frames.map(({ tone }) => tone.level)) - QUIETER;
  const kept = frames.filter(({ time, tone }) => tone.level > quiet && time >= start + edge && time <= end - edge);
  return kept.length < FEWEST ? frames : kept;
}

interface Fit {
  readonly fit: RobustFit;
  readonly vibrato: Vibrato | undefined;
  /** Of each frame, seconds from the middle. */
  readonly times: readonly number[];
}

function fitOf(frames: readonly ToneFrame[]): Fit {
  const middle = ((frames[0] as ToneFrame).time + (frames.at(-1) as ToneFrame).time) / 2;
  const times = frames.map(({ time }) => time - middle);
  const cents = frames.map(({ tone }) => tone.cents);
  const line = robustLeastSquares(
    times.map((t) => [1, t]),
    cents,
    FINEST,
    NEAR,
  );
  const vibrato = findVibrato(times, line.residuals);
  if (vibrato === undefined) return { fit: line, vibrato, times };
  const fit = robustLeastSquares(
    times.map((t) => wave(t, vibrato.rate)),
    cents,
    FINEST,
    NEAR,
  );
  return { fit, vibrato, times };
}

function wave(time: number, rate: number): readonly number[] {
  return [1, time, Math.cos(2 * Math.PI * rate * time), Math.sin(2 * Math.PI * rate * time)];
}

/** The sinusoid that explains most of what the line left. */
function findVibrato(times: readonly number[], residuals: readonly number[]): Vibrato | undefined {
  const span = (times.at(-1) as number) - (times[0] as number);
  if (span < VIBRATO_SECONDS) return undefined;
  const values = residuals.map((value) => (Math.abs(value) < WILD ? value : 0));
  const all = values.reduce((sum, value) => sum + value * value, 0);
  const weights = values.map(() => 1);
  // Rewritten for each rate: some 40 are tried.
  const rows = times.map((time) => [1, time, 0, 0]);
  const explained = (rate: number) => {
    rows.forEach((row, i) => {
      const turn = 2 * Math.PI * rate * (times[i] as number);
      row[2] = Math.cos(turn);
      row[3] = Math.sin(turn);
    });
    const found = weightedLeastSquares(rows, values, weights);
    const left = values.reduce((sum, value, i) => sum + (value - dot(rows[i] as readonly number[], found)) ** 2, 0);
    return { rate, share: 1 - left / all, extent: Math.hypot(found[2] as number, found[3] as number) };
  };
  const step = Math.min(0.4, 0.25 / span);
  const slowest = Math.max(SLOWEST, FEWEST_TURNS / span);
  const count = Math.max(0, Math.floor((FASTEST - slowest) / step) + 1);
  const best = greatest(Array.from({ length: count }, (_, i) => explained(slowest + i * step)));
  if (best === undefined) return undefined;
  const fine = Array.from({ length: 9 }, (_, i) => explained(best.rate + ((i - 4) * step) / 5));
  const { rate, extent, share } = greatest(fine) ?? best;
  return share > EXPLAINS && extent > LEAST_EXTENT ? { rate, extent } : undefined;
}

function greatest<T extends { readonly share: number }>(all: readonly T[]): T | undefined {
  return all.reduce<T | undefined>(
    (best, each) => (best !== undefined && best.share >= each.share ? best : each),
    undefined,
  );
}

/** The longest run of frames whose moving median stays near the middle: all frames where there is none long enough. */
function steadyPart(frames: readonly ToneFrame[], { fit, vibrato, times }: Fit): readonly ToneFrame[] {
  const still = frames.map(({ tone }, i) => {
    if (vibrato === undefined) return tone.cents;
    const [, , cosine, sine] = wave(times[i] as number, vibrato.rate) as [number, number, number, number];
    return tone.cents - (fit.coefficients[2] as number) * cosine - (fit.coefficients[3] as number) * sine;
  });
  const middle = median(still);
  const allowed = Math.min(STEADY_MOST, Math.max(STEADY_LEAST, STEADY_DEVIATIONS * robustDeviation(still, middle)));
  const near = still.map((_, i) => {
    const first = Math.max(0, i - STEADY_REACH);
    const count = Math.min(still.length, i + STEADY_REACH + 1) - first;
    const moving = medianOver(count, (k) => still[first + k] as number);
    return Math.abs(moving - middle) <= allowed;
  });
  const [from, to] = longestRun(near);
  return to - from >= FEWEST_STEADY && to - from < frames.length ? frames.slice(from, to) : frames;
}

function longestRun(flags: readonly boolean[]): readonly [number, number] {
  let best: readonly [number, number] = [0, 0];
  let from = 0;
  for (let i = 0; i <= flags.length; i++) {
    if (flags[i]) continue;
    if (i - from > best[1] - best[0]) best = [from, i];
    from = i + 1;
  }
  return best;
}

/** Standard error of the mean, from the scatter between blocks that no longer depend on each other. */
function blockError({ residuals, weights, deviation }: RobustFit, times: readonly number[], seconds: number): number {
  const count = Math.max(1, Math.floor(seconds / BLOCK));
  const sums = new Float64Array(count);
  const blockWeights = new Float64Array(count);
  residuals.forEach((residual, i) => {
    const since = (times[i] as number) - (times[0] as number);
    const block = Math.min(count - 1, Math.floor((since / seconds) * count));
    sums[block] = (sums[block] as number) + (weights[i] as number) * residual;
    blockWeights[block] = (blockWeights[block] as number) + (weights[i] as number);
  });
  const means = [...sums].map((sum, i) => sum / (blockWeights[i] as number)).filter(Number.isFinite);
  // Two degrees of freedom went into the line.
  const between =
    means.length > 2
      ? Math.sqrt(means.reduce((sum, mean) => sum + mean * mean, 0) / (means.length - 2))
      : Math.max(deviation, UNKNOWN_SCATTER) / Math.sqrt(2);
  return between / Math.sqrt(Math.max(1, means.length));
}
