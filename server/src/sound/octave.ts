/**
 * Whether a note is in the octave in which it was heard. Lines at odd halves of its pitch mean an octave lower; no line at odd multiples
 * an octave higher; none at multiples other than thirds a twelfth higher. Each line is followed along the note's own pitch, turned back
 * by the strongest line's phase, and compared with references a few hertz beside it: the breath's noise is coloured by the bore there.
 */

import { ratioOfCents } from "../music/cents.js";
import type { ToneFrame } from "./frames.js";
import { decibels } from "./pitchOfFrame.js";

export interface OctaveVerdict {
  /** To be added to the pitch, cents: 0, ±1200, or a twelfth. */
  readonly shift: number;
  /** How far it is from the opposite verdict, dB; below `DOUBTFUL` the sound leaves it open. */
  readonly margin: number;
}

export const DOUBTFUL = 3;

/** The sound of a note and the frames it was cut into. */
export interface FramedSound {
  readonly line: Float32Array;
  /** Index of the line's first sample in the recording. */
  readonly start: number;
  /** Samples a second; from frame to frame; of a frame; and the frame's window. */
  readonly rate: number;
  readonly hop: number;
  readonly length: number;
  readonly window: Float64Array;
}

/** Lines examined, in halves of the pitch. */
const HALVES = [1, 2, 3, 4, 5, 6, 8, 10];
const BELOW = [1, 3, 5];
const ODD = [2, 6, 10];
const NOT_THIRDS = [2, 4, 8, 10];
/** Hertz to either side at which a line's references stand. */
const BESIDE = [2.5, 3.7, 5, 6.5, 8];
/** Power over the references from which a line counts as there: a lower octave must be surer, for it is the rarer mistake. */
const THERE = 20;
const THERE_BELOW = 36;
/** Share of the strongest line below which a line is nothing, and of the sampling rate above which none is looked for. */
const NOTHING = 1e-5;
const HIGHEST = 0.42;
/** Seconds left off at the start of a long note, where a room's tail of the one before may sound; looked at at most; a long one. */
const TAIL = 0.3;
const LONGEST = 1.2;
const LONG = 0.8;
const FEWEST_FRAMES = 10;
const TWELFTH = 1200 * Math.log2(3);

/** @param mains frequency of a hum in the recording, Hz */
export function octaveOf(
  { steady, cents }: { readonly steady: readonly ToneFrame[]; readonly cents: number },
  sound: FramedSound,
  mains: number | undefined,
): OctaveVerdict {
  const track = trackOf(steady, sound);
  if (track === undefined) return { shift: 0, margin: 0 };
  const hz = 440 * ratioOfCents(cents);
  const lines = HALVES.filter((half) => (half * hz) / 2 < HIGHEST * sound.rate).map((half) =>
    demodulated(half, track, sound),
  );
  const reference = lines.filter(({ half }) => half % 2 === 0).reduce((a, b) => (b.power > a.power ? b : a));
  const phase = unwrapped(reference);
  const seconds = track.hz.length * (sound.hop / sound.rate);
  const strength = (half: number) => {
    const line = lines.find((each) => each.half === half);
    if (line === undefined || isMains((half * hz) / 2, mains, seconds)) return 0;
    const ratio = (first: number) => overReferences(line, reference, phase, first);
    const all = ratio(0);
    // The tail of the note before is loud at first only: a line must be there in the later half, too.
    return all < THERE / 4 ? all : Math.min(all, 2 * ratio(track.hz.length >> 1));
  };
  const sum = (halves: readonly number[]) => halves.reduce((total, half) => total + strength(half), 0);
  const below = sum(BELOW);
  const odd = sum(ODD);
  const notThirds = sum(NOT_THIRDS);
  if (below > THERE_BELOW) return { shift: -1200, margin: over(below, THERE_BELOW) };
  if (notThirds < THERE) return { shift: TWELFTH, margin: -over(notThirds, THERE) };
  if (odd < THERE) return { shift: 1200, margin: -over(odd, THERE) };
  return { shift: 0, margin: Math.min(over(odd, THERE), -over(below, THERE_BELOW), over(notThirds, THERE)) };
}

/** Decibels, but no less than 30 dB below. */
function over(ratio: number, threshold: number): number {
  return decibels(Math.max(ratio, 1e-3) / threshold);
}

interface Track {
  /** Index of the first frame, and the pitch in each, Hz. */
  readonly first: number;
  readonly hz: Float64Array;
}

/** The pitch frame by frame; undefined where the note is too short or its sound is no longer kept. */
function trackOf(steady: readonly ToneFrame[], { line, start, hop, length, rate }: FramedSound): Track | undefined {
  const step = hop / rate;
  const long = steady.length * step > LONG;
  const skipped = long ? Math.min(Math.ceil(TAIL / step), steady.length - Math.ceil(0.5 / step)) : 0;
  const kept = steady.slice(skipped);
  const first = kept[0]?.index ?? 0;
  const last = Math.min(kept.at(-1)?.index ?? 0, first + Math.ceil(LONGEST / step));
  const count = last - first + 1;
  if (count < FEWEST_FRAMES || first * hop < start || last * hop + length - start > line.length) return undefined;
  const known = new Map(kept.map(({ index, tone }) => [index, tone.cents]));
  const hz = new Float64Array(count);
  let cents = kept[0]?.tone.cents ?? 0;
  for (let i = 0; i < count; i++) {
    cents = known.get(first + i) ?? cents;
    hz[i] = 440 * ratioOfCents(cents);
  }
  return { first, hz };
}

interface Line {
  readonly half: number;
  readonly re: Float64Array;
  readonly im: Float64Array;
  readonly power: number;
}

/** One line frame by frame, turned back by the phase that the track has run through. */
function demodulated(half: number, { first, hz }: Track, sound: FramedSound): Line {
  const { line, start, rate, hop, length, window } = sound;
  const count = hz.length;
  const re = new Float64Array(count);
  const im = new Float64Array(count);
  let turns = 0;
  let power = 0;
  for (let frame = 0; frame < count; frame++) {
    const here = hz[frame] as number;
    if (frame > 0) turns = (turns + ((half / 2) * here * hop) / rate) % 1;
    const step = (-2 * Math.PI * (half / 2) * ((here + (hz[frame + 1] ?? here)) / 2)) / rate;
    const at = (first + frame) * hop - start;
    const turnRe = Math.cos(step);
    const turnIm = Math.sin(step);
    const begin = -2 * Math.PI * turns - (step * length) / 2;
    let cosine = Math.cos(begin);
    let sine = Math.sin(begin);
    let x = 0;
    let y = 0;
    for (let i = 0; i < length; i++) {
      const value = (line[at + i] as number) * (window[i] as number);
      x += value * cosine;
      y += value * sine;
      const next = cosine * turnRe - sine * turnIm;
      sine = sine * turnRe + cosine * turnIm;
      cosine = next;
    }
    re[frame] = x;
    im[frame] = y;
    power += (x * x + y * y) / count;
  }
  return { half, re, im, power };
}

/** The phase of the strongest line, without jumps. */
function unwrapped({ re, im }: Line): Float64Array {
  const phase = new Float64Array(re.length);
  let sum = 0;
  let before = 0;
  for (let i = 0; i < re.length; i++) {
    const here = Math.atan2(im[i] as number, re[i] as number);
    const change = here - before;
    sum += change - 2 * Math.PI * Math.round(change / (2 * Math.PI));
    before = here;
    phase[i] = sum;
  }
  return phase;
}

/** Power of a line over the mean of its references, from a frame on. */
function overReferences(line: Line, reference: Line, phase: Float64Array, first: number): number {
  const count = phase.length - first;
  // Hann's window over the frames; an offset is counted in turns over the whole.
  const at = (offset: number) => {
    let x = 0;
    let y = 0;
    for (let i = 0; i < count; i++) {
      const weight = 1 - Math.cos((2 * Math.PI * (i + 0.5)) / count);
      const angle = (-(phase[first + i] as number) * line.half) / reference.half - (2 * Math.PI * offset * i) / count;
      const cosine = Math.cos(angle);
      const sine = Math.sin(angle);
      const re = line.re[first + i] as number;
      const im = line.im[first + i] as number;
      x += weight * (re * cosine - im * sine);
      y += weight * (re * sine + im * cosine);
    }
    return (x * x + y * y) / (count * count);
  };
  const here = at(0);
  if (here < NOTHING * reference.power) return 0;
  const beside = BESIDE.reduce((sum, offset) => sum + at(offset) + at(-offset), 0) / (2 * BESIDE.length);
  return here / beside;
}

/** Whether a frequency is a harmonic of the mains' hum as nearly as the note is long. */
function isMains(hz: number, mains: number | undefined, seconds: number): boolean {
  if (mains === undefined) return false;
  const harmonic = Math.round(hz / mains);
  return harmonic <= 12 && Math.abs(hz - harmonic * mains) < 2.5 / seconds;
}
