/** What a long windway takes off the breath before it becomes a jet. */

/** A flat channel that leads the breath to the jet's exit, straight in plan. */
export interface Windway {
  /** m. */
  readonly length: number;
  /** Height where the breath comes in and where it leaves, m. */
  readonly entry: number;
  readonly exit: number;
}

/** Length of channel over h²U/ν that the flow needs until friction has reached its middle: 0.04 (laminar flow between plates; from memory). */
const INLET = 0.04;
/** Mean speed over the core's once it has. */
const MEAN = 2 / 3;

/**
 * Pressure lost to friction by a jet of `speed` m/s, Pa: plane Poiseuille flow, 12µq∫dx/h³, over what is longer than the inlet. In a channel
 * that narrows evenly ∫dx/h³ is L(h₁+h₂)/(2h₁²h₂²).
 */
export function frictionIn(
  { length, entry, exit }: Windway,
  speed: number,
  { density, viscosity }: { readonly density: number; readonly viscosity: number },
): number {
  const inlet = (INLET * exit * exit * speed * density) / viscosity;
  const share = Math.max(0, 1 - inlet / length);
  const flow = MEAN * speed * exit;
  return (12 * viscosity * flow * share * length * (entry + exit)) / (2 * (entry * exit) ** 2);
}
