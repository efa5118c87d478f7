/** The tone of one resonance at a given breath: frequency and strength at which the jet's drive balances the losses. */
import { zeroBetween } from "../bracket.js";
import {
  drivePhase,
  highestFrequency,
  type Jet,
  jetPressure,
  jetSpeed,
  type Resonance,
  saturation,
  smallGain,
  speedAtPhase,
} from "./jet.js";

export interface Tone {
  /** Hz. */
  readonly frequency: number;
  /** Above the resonance. */
  readonly cents: number;
  /** In the mouth's opening, m/s, peak. */
  readonly velocity: number;
  /** Of the jet, m/s. */
  readonly speed: number;
  /** Swing of the jet at the edge, in half widths of its profile. */
  readonly swing: number;
  /** Quality of the resonance with the losses at the edge. */
  readonly workingQuality: number;
}

/** Where a tone is looked for, over the resonance's frequency. */
const NEAR = [0.7, 1.3] as const;
/** Of the highest frequency of the jet's first mode: there the drive takes energy. */
const BELOW_HIGHEST = 0.995;
const TOLERANCE = 1e-9;

/** The tone at a breath of `pressure` Pa at the jet's exit; undefined where the resonance does not sound. */
export function toneAt(jet: Jet, resonance: Resonance, pressure: number): Tone | undefined {
  const { quality } = resonance;
  const speed = jetSpeed(jet, pressure);
  const r = resonance.resistance * jet.voicing.area;
  const frequency = frequencyWith(jet, resonance, speed, NEAR, (f) => lossesAt(jet, r, f, speed).whole);
  if (frequency === undefined) return undefined;
  const { swing, whole } = lossesAt(jet, r, frequency, speed);
  if (swing === 0) return undefined;
  return {
    frequency,
    cents: 1200 * Math.log2(frequency / resonance.frequency),
    velocity: (swing * speed) / jet.swing,
    speed,
    swing,
    workingQuality: (quality * r) / whole,
  };
}

/**
 * Where the reactance of a resonance is tan φ times the resistance that `losses` gives, Pa s/m; undefined where that is nowhere near.
 * The reactance is linear in ln f: within 1.5 cents of the whole curve.
 */
export function frequencyWith(
  jet: Jet,
  { frequency, quality, resistance }: Resonance,
  speed: number,
  [least, most]: readonly [number, number],
  losses: (frequency: number) => number,
): number | undefined {
  const slope = 2 * quality * resistance * jet.voicing.area;
  const excess = (f: number) => slope * Math.log(f / frequency) - Math.tan(drivePhase(jet, f, speed)) * losses(f);
  const low = least * frequency;
  const high = Math.min(most * frequency, BELOW_HIGHEST * highestFrequency(jet, speed));
  if (!(high > low)) return undefined;
  const [below, above] = [excess(low), excess(high)];
  return below < 0 && above > 0 ? zeroBetween(excess, [low, below], [high, above], TOLERANCE) : undefined;
}

/** Swing that the drive keeps up at a frequency, 0 where it cannot, and the resistance in all, Pa s/m. */
function lossesAt(jet: Jet, r: number, frequency: number, speed: number) {
  const gain = smallGain(jet, frequency) * Math.cos(drivePhase(jet, frequency, speed));
  const perSwing = (jet.loss * speed) / jet.swing;
  const excess = (a: number) => gain * saturation(a) - r - perSwing * a;
  if (!(gain > r)) return { swing: 0, whole: r };
  const most = gain / perSwing;
  const swing = zeroBetween(excess, [0, gain - r], [most, excess(most)], TOLERANCE);
  return { swing, whole: r + perSwing * swing };
}

/** Least breath that makes the resonance sound, Pa; undefined where none does. */
export function threshold(jet: Jet, { frequency, quality, resistance }: Resonance): number | undefined {
  const r = resistance * jet.voicing.area;
  let sounding = frequency;
  let lag = 0;
  // It lies a few percent under the resonance, where the drive is a little weaker.
  for (let n = 0; n < ROUNDS; n++) {
    const share = r / smallGain(jet, sounding);
    if (!(share < 1)) return undefined;
    lag = Math.acos(share);
    sounding = frequency * Math.exp(-Math.tan(lag) / (2 * quality));
  }
  return jetPressure(jet, speedAtPhase(jet, sounding, -lag));
}
/** Each step reduces the error to a twentieth. */
const ROUNDS = 8;

/** Breath between two at which the tone is `cents` above the resonance, Pa; undefined where there is none. */
export function pressureFor(
  jet: Jet,
  resonance: Resonance,
  cents: number,
  [least, most]: readonly [number, number],
): number | undefined {
  const off = (logarithm: number) => (toneAt(jet, resonance, Math.exp(logarithm))?.cents ?? Number.NaN) - cents;
  const [low, high] = [Math.log(least), Math.log(most)];
  const [below, above] = [off(low), off(high)];
  if (!(below <= 0 && above >= 0)) return undefined;
  return Math.exp(zeroBetween(off, [low, below], [high, above], TOLERANCE));
}
