/** From reactances to cents: what a small change of a column does to its resonance. */

/** Relative step of frequency for the slope of the reactance. */
const FREQUENCY_STEP = 1e-6;
const CENTS_PER_LOG = 1200 / Math.LN2;

/** ∂X/∂ln f at `frequency` (Hz), in the unit of X, by a central difference of relative step 1e-6. */
export function reactanceSlope(reactanceAt: (frequency: number) => number, frequency: number): number {
  const above = reactanceAt(frequency * (1 + FREQUENCY_STEP));
  return (above - reactanceAt(frequency * (1 - FREQUENCY_STEP))) / (2 * FREQUENCY_STEP);
}

/** Cents by which a resonance rises where its reactance changes by `change`: −ΔX/(∂X/∂ln f), to first order. */
export function centsOfReactance(change: number, slope: number): number {
  return (-change / slope) * CENTS_PER_LOG;
}
