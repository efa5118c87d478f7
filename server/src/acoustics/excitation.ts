/**
 * The condition on which an air jet makes a resonance sound. A jet is driven by the flow through the mouth: it sounds where the impedance that it works against,
 * Z = R + jX, is least, which is where X vanishes and rises with the frequency, and R is small (Chaigne & Kergomard, chapter 10). R and X are
 * over ρc/S. Another excitation would need another such module: a reed is driven by pressure and sounds where Z is greatest.
 */
import type { Sounding } from "./answer.js";

/**
 * Where more resistance than ρc/S is left, the reflection at the jet no longer turns round: the reactance grazes zero, but nothing
 * resonates. Our own limit; the weakest minimum of the finite-element cases has half of it.
 */
const LARGEST_RESISTANCE = 1;
/** Far beyond the range of their formulas (ka > 1) openings can give out energy: such a place gives no answer. */
const ROUNDING = 1e-6;
/**
 * Resistances within this factor of ρc/S may as well lie on its other side, since losses are not known better. Then a weak resonance may count
 * or not, and two may be one register or two, and every register above is another. Our own limit.
 */
const CLOSE_CALL = 1.25;

/** Whether a resonance may lie between two frequencies. @param below the reactance at the lower one @param above at the higher one */
export function rises(below: number, above: number): boolean {
  return below < 0 && above >= 0;
}

/** Whether what lies between two frequencies is not a resonance: the reactance returns to below zero, or jumps there at a pole. */
export function falls(below: number, above: number): boolean {
  return below >= 0 && above < 0;
}

/** Whether the jet holds the zero to which the reactance leads. @param slope of the reactance by the frequency */
export function isHeld(slope: number): boolean {
  return slope > 0;
}

/** Whether something resonates where the reactance vanishes. @param resistance left there, over ρc/S of the bore at the mouth */
export function isResonance(resistance: number): boolean {
  return resistance >= -ROUNDING && resistance < LARGEST_RESISTANCE;
}

/** Whether it is so near to the limit of `isResonance` that a small change decides. @param resistance over ρc/S of the bore at the mouth */
export function isCloseCall(resistance: number): boolean {
  return resistance > LARGEST_RESISTANCE / CLOSE_CALL && resistance < LARGEST_RESISTANCE * CLOSE_CALL;
}

/** What is known of a zero of the reactance; undefined where the model would create energy. @param k 1/m @param resistance and reactance are over ρc/S of the bore at the mouth @param slope of the reactance by `k`, m */
export function strengthAt(k: number, resistance: number, slope: number): Omit<Sounding, "frequency"> | undefined {
  if (resistance < -ROUNDING) return undefined;
  const left = Math.max(0, resistance);
  return { resistance: left, quality: (k * slope) / (2 * left) };
}

/** The one that needs the least breath; the first of equals. */
export function strongest(soundings: readonly Sounding[]): Sounding {
  return soundings.reduce((best, other) => (other.resistance < best.resistance ? other : best));
}
