/** The reflection at the jet, (Z−1)/(Z+1): smooth where the impedance has poles. */
import type { Sample } from "./response.js";

export interface Reflection {
  readonly re: number;
  readonly im: number;
}

/** Γ = (Z − 1) / (Z + 1), without a unit; Z over the reference impedance. */
export function reflectionOf({ resistance: r, reactance: x }: Sample): Reflection {
  const norm = (r + 1) ** 2 + x * x;
  return { re: (r * r + x * x - 1) / norm, im: (2 * x) / norm };
}

/** Z = (1 + Γ) / (1 − Γ), over the reference impedance. @param k wave number, 1/m */
export function sampleOf(k: number, { re, im }: Reflection): Sample {
  const norm = (1 - re) ** 2 + im * im;
  return { k, resistance: (1 - re * re - im * im) / norm, reactance: (2 * im) / norm };
}
