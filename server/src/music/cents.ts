/** Cents: a hundredth of an equal-tempered semitone, 1/1200 octave. */

export function centsOfRatio(ratio: number): number {
  return 1200 * Math.log2(ratio);
}

export function ratioOfCents(cents: number): number {
  return 2 ** (cents / 1200);
}

/** How far `frequency` lies above `reference`, in cents; negative below. */
export function centsAbove(frequency: number, reference: number): number {
  return centsOfRatio(frequency / reference);
}

/** Half a semitone: beyond it a note is another one. Cents. */
export const ANOTHER_NOTE = 50;
