/** Where a note leaves its register: another resonance grows beside the one that sounds. */
import { zeroBetween } from "../bracket.js";
import { drivePhase, type Jet, leftover, type Resonance, smallGain } from "./jet.js";
import { frequencyWith, type Tone, threshold, toneAt } from "./tone.js";

/** Where the second tone is looked for, over its resonance. */
const NEAR = [0.6, 1.6] as const;
/** Of the loss by vortices, what a small second tone feels beside a large one: 2/π against 4/3π. */
const SECOND_LOSS = 1.5;
/** rad: nearer to a right angle nothing grows. */
const STEEPEST = 1.5;

/** Gain over loss of `other` while a tone sounds, less 1: above 0 it grows. Our own criterion: a small tone on a jet that swings. */
function growthBeside(jet: Jet, other: Resonance, { speed, velocity, swing }: Tone): number {
  const whole = other.resistance * jet.voicing.area + SECOND_LOSS * jet.loss * velocity;
  const frequency = frequencyWith(jet, other, speed, NEAR, () => whole);
  if (frequency === undefined) return -1;
  const phase = drivePhase(jet, frequency, speed);
  if (Math.abs(phase) > STEEPEST) return -1;
  return (Math.cos(phase) * smallGain(jet, other.frequency) * leftover(swing)) / whole - 1;
}

/** Steps of the search through the breath, and how closely the place is found; relative. */
const STEP = 1.12;
const TOLERANCE = 1e-4;
/** Above the threshold, where the tone is there. */
const START = 1.001;

/** Least breath at which `sounding` keeps its register, Pa: below it the lower one grows, or nothing sounds. Undefined up to `most`. */
export function fallPressure(jet: Jet, sounding: Resonance, lower: Resonance, most: number): number | undefined {
  return firstWhere(jet, sounding, most, (tone) => -growthBeside(jet, lower, tone));
}

/** Breath at which `sounding` gives way to the register above, Pa; undefined where it does not up to `most`. */
export function jumpPressure(jet: Jet, sounding: Resonance, upper: Resonance, most: number): number | undefined {
  return firstWhere(jet, sounding, most, (tone) => growthBeside(jet, upper, tone));
}

/** Least pressure at which `of` the tone is above 0. */
function firstWhere(jet: Jet, resonance: Resonance, most: number, of: (tone: Tone) => number): number | undefined {
  const start = threshold(jet, resonance);
  if (start === undefined) return undefined;
  const at = (pressure: number) => {
    const tone = toneAt(jet, resonance, pressure);
    return tone === undefined ? -1 : of(tone);
  };
  let before: readonly [number, number] | undefined;
  for (let pressure = START * start; pressure < most * STEP; pressure *= STEP) {
    const here: readonly [number, number] = [pressure, at(pressure)];
    if (here[1] > 0) return before === undefined ? start : zeroBetween(at, before, here, TOLERANCE);
    before = here;
  }
  return undefined;
}
