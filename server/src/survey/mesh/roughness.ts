/**
 * How far a bumpy surface moves what is read from it. What a round or oval outline leaves of a measured one is split into waves round it: its
 * own size, place and ovalness are the waves 0 to 2, and a bumpy surface has as much of those as of the next ones, which no model explains.
 */
import { directionsOf } from "./profile.js";

/** Waves round the outline that tell the noise of a slower one. Flat sides, of which round outlines have more, are none of them. */
const WAVES = [3, 4, 5, 6, 7, 8] as const;

/** Standard deviations, in the units of the residuals. */
export interface Unsure {
  /** Of the mean radius. */
  readonly radius: number;
  /** Of the middle's place in either direction, and of half the difference of an ellipse's half-axes. */
  readonly wave: number;
}

export const SURE: Unsure = { radius: 0, wave: 0 };

/** @param residuals by direction, all round; not a number where nothing was seen */
export function unsureOf(residuals: Float64Array): Unsure {
  const rays = residuals.length;
  const { cos, sin } = directionsOf(rays);
  let seen = 0;
  for (let k = 0; k < rays; k++) if (!Number.isNaN(residuals[k] as number)) seen++;
  if (seen === 0) return SURE;
  let power = 0;
  for (const wave of WAVES) {
    let [c, s] = [0, 0];
    for (let k = 0, at = 0; k < rays; k++, at = (at + wave) % rays) {
      const value = residuals[k] as number;
      if (Number.isNaN(value)) continue;
      c += value * (cos[at] as number);
      s += value * (sin[at] as number);
    }
    power += c * c + s * s;
  }
  // Each of the two amplitudes of a wave is 2/n times its sum.
  const wave = (2 / seen) * Math.sqrt(power / (2 * WAVES.length));
  return { wave, radius: wave / Math.SQRT2 };
}
