import { t } from "../words/translation.js";
import { falls, isCloseCall, rises } from "./excitation.js";
import type { PortStates } from "./portStates.js";
import { RationalRun } from "./rationalRun.js";
import { reflectionOf, sampleOf } from "./reflection.js";
import type { Response, Sample } from "./response.js";

/** Step of the common grid in k × (length of the air column): an ideal tube's registers lie π apart. */
const STEP = Math.PI / 32;
/** Where the grid begins, in steps: below the first register the phase hardly moves, so the points double their distance. */
const START = 1 / 64;
/** Between neighbouring samples the phase of the reflection at the jet may turn by this much, rad… */
const LARGEST_TURN = 1;
/** …and the turn may differ from that of the neighbour of equal length by this much. */
const LARGEST_CHANGE = 0.06;
/** Where the reactance of both is below this, over ρc/S, a slight ripple makes two more zeros: there the turn may differ by no more than that. */
const SMALL_REACTANCE = 0.15;
const LARGEST_CHANGE_NEAR_ZERO = 0.006;
/**
 * Where that of one is below this, the middle is sampled in any case: a turn may be as expected and yet go there and back. Not where the grid
 * begins: there the reactance is the air's inertia alone.
 */
const NEAR_ZERO = 0.05;
/** An interval is halved at most this often: 2^−16 of a step is 2e-6 of a register. */
const DEEPEST = 16;
/** Cut-on of the bore's first higher mode, ka: beyond it there is no one-dimensional bore. */
const CUT_ON = 1.841;
/** However thin the bore, the scan ends here (steps). */
const MOST_STEPS = 20_000;

/** This many steps of the grid are taken at once, at first and at most, where… */
const STRIDE = 4;
const LONGEST_STRIDE = 16;
/** …the reflection there is what a rational function through this many samples before, at least and at most, predicts, within… */
const ENOUGH_POINTS = 8;
const MOST_POINTS = 16;
/**
 * …this much, in a stride of four steps. What hides in a stride still shows at its end: a resonance whose circle in the reflection is wide
 * enough to make a zero (0.1 and more) would have to be narrower than any that losses leave (a quality of some thousand) to be seen there
 * by less. The farther the end, the less is seen: a stride twice as long allows half as much. Where the reflection is farther from
 * the real axis the circle must be as wide, and is seen by as much more.
 */
const LARGEST_SURPRISE = 1e-3;
const LEAST_CIRCLE = 0.1;
/** With this share of what is allowed, or less, a stride twice as long is tried next. */
const SMALL_SURPRISE = 1 / 4;

/**
 * Beyond this the reactance, over ρc/S, has left the resonance below for good: before it turns back through zero at less than ρc/S it
 * rises no farther than half the width of a circle in that plane, 0.5, and what the resonance below adds.
 */
const AWAY = 1;

/**
 * Two neighbouring samples between which the reactance
 * - `rises` through zero once,
 * - falls `back` through zero, the reflection's phase turning back through π, so that what rises next is of the same register,
 * - goes `away` from zero: no rival of the register below comes any more.
 */
export interface Crossing {
  readonly way: "rises" | "back" | "away";
  readonly samples: readonly [Sample, Sample];
  /** These and others near, each once. */
  readonly known: readonly Sample[];
  /** Whether it falls so near the limit between `back` and `away` that it might be the other. */
  readonly isCloseCall?: boolean;
}

/**
 * Zero crossings of the reactance from the lowest upward, none skipped: what two samples might hide shows as a turn of
 * the reflection's phase that is large or unlike its neighbours', and is refined. A pole's jump is `away`.
 * An undamped resonance, of a quality beyond some ten thousand, may still hide: found once, without losses, where the
 * stopper's cavity shorts a stopped bore (4 kHz, ka 0.76). Wall losses alone keep every quality below a few hundred.
 *
 * Undefined after every step on the way. Throws a RangeError where a sample is NaN.
 */
export function* crossings(response: Response, states: PortStates): Generator<Crossing | undefined, void, undefined> {
  const { length, largestRadius } = response.geometry;
  const steps = Math.min(MOST_STEPS, (CUT_ON * length) / (largestRadius * STEP));
  const low = Math.round(Math.log2(1 / START));
  const at = (n: number) => {
    const place = n <= low ? START * 2 ** n : n - low + 1;
    return response.onGrid(2 * n, (STEP * place) / length, states);
  };
  // What only radiates may be narrower than any stride.
  const strides = response.geometry.air.losses;
  const run = new Run();
  let last = at(0);
  run.add(last);
  let slope = Number.NaN;
  /** The last ones before the current interval. */
  const before: Sample[] = [];
  const goneTo = (sample: Sample) => {
    before.push(last);
    if (before.length > ENOUGH_POINTS) before.shift();
    last = sample;
  };
  /** Sampled ahead, by their places. */
  const ahead = new Map<number, Sample>();
  let stride = STRIDE;
  for (let n = 1; n <= low + steps; n++) {
    yield undefined;
    // Strides end at the same places for all fingerings, whatever their lengths.
    while (stride > STRIDE && ((n - low) % stride !== 1 || n + stride - 1 > low + steps)) stride /= 2;
    if (strides && run.isFull && (n - low) % stride === 1 && n + stride - 1 <= low + steps) {
      const end = n + stride - 1;
      const to = ahead.get(end) ?? at(end);
      const passed = run.passedTo(last, to, slope, stride);
      if (passed !== undefined) {
        slope = turn(passed, to) / (to.k - passed.k);
        // Even turns far from zero do not go back: what falls here is a pole's jump.
        if (falls(last.reactance, to.reactance) || to.reactance > AWAY)
          yield { way: "away", samples: [last, to], known: [] };
        goneTo(to);
        n = end;
        if (run.surprise < SMALL_SURPRISE) stride = Math.min(2 * stride, LONGEST_STRIDE);
        continue;
      }
      ahead.set(end, to);
      if (stride > STRIDE) {
        stride /= 2;
        n--;
        continue;
      }
    }
    const next = ahead.get(n) ?? at(n);
    run.add(next);
    const samples: Sample[] = [last];
    closer(response, states, n, last, next, n <= low ? Number.NaN : slope, 0, samples);
    for (let i = 1; i < samples.length; i++) {
      const pair = [samples[i - 1] as Sample, samples[i] as Sample] as const;
      const way = wayOf(pair);
      if (way !== undefined)
        yield {
          way,
          samples: pair,
          known: [...before, ...samples],
          isCloseCall: falls(pair[0].reactance, pair[1].reactance) && isCloseCall(resistanceAtZero(pair)),
        };
    }
    const beforeLast = samples[samples.length - 2] as Sample;
    slope = turn(beforeLast, next) / (next.k - beforeLast.k);
    goneTo(next);
  }
}

/** Between two samples on either side of it, along the chord of the reflection, which a pole's jump has on the far side from −1. */
function resistanceAtZero([from, to]: readonly [Sample, Sample]): number {
  const [a, b] = [reflectionOf(from), reflectionOf(to)];
  const share = a.im / (a.im - b.im);
  const there = a.re + share * (b.re - a.re);
  return (1 + there) / (1 - there);
}

function wayOf([from, to]: readonly [Sample, Sample]): Crossing["way"] | undefined {
  const [before, after] = [from.reactance, to.reactance];
  if (rises(before, after)) return "rises";
  if (falls(before, after)) return Math.abs(phase(from)) + Math.abs(phase(to)) > Math.PI ? "back" : "away";
  return after > AWAY ? "away" : undefined;
}

/** The samples on the grid so far, and whether a stride ahead holds nothing unexpected. */
class Run {
  private readonly reflections = new RationalRun(MOST_POINTS, ENOUGH_POINTS);
  /** How far the last sample asked about lay from what was expected, as a share of what is allowed. */
  surprise = Number.NaN;

  get isFull(): boolean {
    return this.reflections.isFull;
  }

  add(sample: Sample): void {
    const { re, im } = reflectionOf(sample);
    this.reflections.add(sample.k, re, im);
  }

  /**
   * Accepts `to`, a stride beyond `from`, where it is as expected, no zero is near on the way, and the phase turns as evenly from step
   * to step as single steps require; then the step before it, as the function gives it. Undefined, and nothing accepted, where each step must be sampled.
   * @param slope of the phase before `from` @param stride steps from `from` to `to`
   */
  passedTo(from: Sample, to: Sample, slope: number, stride: number): Sample | undefined {
    if (!isFarFromZero(from)) return undefined;
    const offAxis = Math.min(Math.abs(reflectionOf(from).im), Math.abs(reflectionOf(to).im));
    const circle = Math.max(1, offAxis / LEAST_CIRCLE);
    this.surprise = this.surpriseAt(to) / ((circle * LARGEST_SURPRISE * STRIDE) / stride);
    if (!(this.surprise < 1)) return undefined;
    const step = (to.k - from.k) / stride;
    let before = from;
    let beforeLast = from;
    let expected = slope * step;
    for (let n = 1; n <= stride; n++) {
      const next = n === stride ? to : this.between(from.k + n * step);
      const turned = turn(before, next);
      const isEven = Math.abs(turned) < LARGEST_TURN && Math.abs(turned - expected) < LARGEST_CHANGE;
      if (!isEven || !isFarFromZero(next) || rises(before.reactance, next.reactance)) return undefined;
      expected = turned;
      beforeLast = before;
      before = next;
    }
    this.add(to);
    return beforeLast;
  }

  private surpriseAt(sample: Sample): number {
    const { reflections } = this;
    reflections.at(sample.k);
    const { re, im } = reflectionOf(sample);
    return Math.hypot(reflections.valueRe - re, reflections.valueIm - im);
  }

  private between(k: number): Sample {
    const { reflections } = this;
    reflections.at(k);
    const { valueRe: re, valueIm: im } = reflections;
    return sampleOf(k, { re, im });
  }
}

const isFarFromZero = ({ reactance }: Sample): boolean => Math.abs(reactance) > SMALL_REACTANCE;

/** Appends to `found` all samples after `from` up to `to` that are needed between them, in the grid's nth interval. */
function closer(
  response: Response,
  states: PortStates,
  n: number,
  from: Sample,
  to: Sample,
  slope: number,
  depth: number,
  found: Sample[],
): void {
  const [nearer, farther] = [Math.abs(from.reactance), Math.abs(to.reactance)].sort((a, b) => a - b) as [
    number,
    number,
  ];
  const largest = farther < SMALL_REACTANCE ? LARGEST_CHANGE_NEAR_ZERO : LARGEST_CHANGE;
  const expected = slope * (to.k - from.k);
  const turned = turn(from, to);
  // Each half of such an interval would be refined too, 2^16 times.
  if (Number.isNaN(turned)) throw new RangeError(t("a dimension is too large or too small to calculate with"));
  const asExpected = Math.abs(turned) < LARGEST_TURN && !(Math.abs(turned - expected) > largest);
  if (depth === DEEPEST || (asExpected && (depth > 0 || nearer > NEAR_ZERO || Number.isNaN(slope)))) {
    found.push(to);
    return;
  }
  const k = (from.k + to.k) / 2;
  // Many fingerings ask for the middle of an interval of the grid.
  const middle = depth === 0 ? response.onGrid(2 * n - 1, k, states) : response.at(k, states);
  const first = turn(from, middle);
  const second = turn(middle, to);
  const plain = Math.max(Math.abs(first), Math.abs(second)) < LARGEST_TURN && Math.abs(first - second) < largest;
  if (plain) {
    found.push(middle, to);
    return;
  }
  const half = middle.k - from.k;
  closer(response, states, n, from, middle, second / half, depth + 1, found);
  closer(response, states, n, middle, to, first / half, depth + 1, found);
}

/** How far the phase of the reflection (Z−1)/(Z+1) turns from one sample to the next, −π…π. */
function turn(from: Sample, to: Sample): number {
  const d = phase(to) - phase(from);
  return d - 2 * Math.PI * Math.round(d / (2 * Math.PI));
}

function phase({ resistance: r, reactance: x }: Sample): number {
  return Math.atan2(2 * x, r * r + x * x - 1);
}
