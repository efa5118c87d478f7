/** Where the reactance at the jet vanishes, from samples on either side: most of what the answer takes is known from the scan. */
import { zeroBetween } from "./bracket.js";
import { RationalRun } from "./rationalRun.js";
import { reflectionOf, sampleOf } from "./reflection.js";
import type { Sample } from "./response.js";

/** Relative; 1e-10 is 2e-7 cent. */
const TOLERANCE = 1e-10;
/**
 * A function through a sample so near its zero (relative) has the zero by less than the tolerance: its slope need only be right by a
 * hundredth.
 */
const NEAR = 1e-8;
/** Relative step over which the slope of the reactance is taken. */
const SLOPE_STEP = 1e-5;
/** Samples that the function goes through at first: enough for two resonances beside each other. */
const KNOWN = 8;
/** A function through so many more that still misses is none for this: without losses a pole may lie beside the zero. */
const MOST_TRIED = 4;

export interface Zero {
  readonly sample: Sample;
  /** Of the reactance by k. */
  readonly slope: number;
}

/**
 * A rational function through the reflection at known samples says where the zero lies, and what is found there makes it better, until it
 * says the same again: as a rule two looks at the column. Where it does not, the zero is closed in on without it.
 * @param at looks at the column
 * @param between two samples between which the reactance rises through zero
 * @param known samples near, those two among them, each once
 */
export function zeroNear(
  at: (k: number) => Sample,
  between: readonly [Sample, Sample],
  known: readonly Sample[],
): Zero {
  let [below, above] = between;
  const middle = (below.k + above.k) / 2;
  const nearest = [...known].sort((a, b) => Math.abs(a.k - middle) - Math.abs(b.k - middle)).slice(0, KNOWN);
  const run = new RationalRun(KNOWN + MOST_TRIED);
  const add = (sample: Sample) => {
    const { re, im } = reflectionOf(sample);
    run.add(sample.k, re, im);
  };
  const guess = (k: number) => {
    run.at(k);
    return sampleOf(k, { re: run.valueRe, im: run.valueIm });
  };
  // The nearest last: the function is built from there.
  nearest.reverse().forEach(add);
  let last: Sample | undefined;
  for (let tried = 0; tried <= MOST_TRIED; tried++) {
    const k = zeroBetween((x) => reflectionOf(guess(x)).im, ends(below), ends(above), TOLERANCE);
    const step = k * SLOPE_STEP;
    if (last !== undefined && Math.abs(k - last.k) <= NEAR * k) {
      const slope = (guess(k + step).reactance - guess(k - step).reactance) / (2 * step);
      // At a sample itself there is nothing to guess.
      if (slope > 0) return { sample: k === last.k ? last : guess(k), slope };
    }
    if (tried === MOST_TRIED || !(k > below.k && k < above.k) || k === last?.k) break;
    const sample = at(k);
    if (!Number.isFinite(sample.reactance)) break;
    if (sample.reactance < 0) below = sample;
    else above = sample;
    last = sample;
    add(sample);
  }
  const [low, high] = [below, above];
  const k = zeroBetween((x) => at(x).reactance, [low.k, low.reactance], [high.k, high.reactance], TOLERANCE);
  const sample = at(k);
  const step = k * SLOPE_STEP;
  return { sample, slope: (at(k + step).reactance - sample.reactance) / step };
}

/** As `zeroBetween` takes them. */
function ends(sample: Sample): readonly [x: number, y: number] {
  return [sample.k, reflectionOf(sample).im];
}
