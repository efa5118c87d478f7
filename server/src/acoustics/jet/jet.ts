/**
 * The jet that drives a flute: breath makes it, the flow through the mouth's opening bends it at its root, the bend grows on its way to
 * the edge, where it sends the jet's flow in or out. An estimate: absolute pressures are good to a factor of 1.7, slopes to ±35 %
 * (docs/breath.md). SI units, factor exp(+jωt), velocities and flows as peaks.
 */

/** What shapes a jet. Compared with a model in time for `cutUp` 3.5…6 mm, `height` 0.7…1.4 mm, and cut-ups of 3…8 heights. */
export interface Voicing {
  /** From where the jet leaves the windway or the lips to the edge, m. */
  readonly cutUp: number;
  /** Breadth of the jet, m. */
  readonly width: number;
  /** Thickness of the jet where it leaves, m. */
  readonly height: number;
  /** By how much the edge lies off the jet's middle, m. */
  readonly offset: number;
  /** Of the opening that the sound's flow passes, m². */
  readonly area: number;
}

/** A resonance that may be blown. */
export interface Resonance {
  /** Hz. */
  readonly frequency: number;
  readonly quality: number;
  /** Left at the resonance, Pa s/m³. */
  readonly resistance: number;
}

/**
 * Speed of the bend over the jet's: 0.3 to 0.5 by experiments (de la Cuadra 2005, Nolle 1998, Fabre & Hirschberg 2000; from memory). Pressures
 * go with its inverse square.
 */
const BEND_SPEED = 0.4;
/** Growth of the bend over each height of the jet, 0.3 to 0.4 by the same; and where it ends, since the jet rolls up: our own limit. */
const GROWTH = 0.4;
const MOST_GROWTH = 2.2;
/** Half width of a jet's profile over its height, after Bickley (Verge 1994, from memory). */
const PROFILE = 0.4;
/** Narrowest section of a flow past a sharp edge over the opening (vena contracta: Verge, Fabre; from memory). */
const CONTRACTION = 0.6;
/** Exponent of our own fit to the first harmonic of tanh(a sin t): within 2.4 %, exact for small and large swings. */
const SATURATION = 2.4;

export interface Jet {
  readonly voicing: Voicing;
  /** kg/m³. */
  readonly density: number;
  /** Swing at the edge, in half widths of the profile, for each velocity in the opening over the jet's speed. */
  readonly swing: number;
  /** Loss by vortices at the edge, Pa s/m for each m/s in the opening: of (ρ/2)(v/contraction)² the first harmonic. */
  readonly loss: number;
}

/** @param contraction narrowest section past the edge over the opening, where it is known by measuring */
export function jetOf(voicing: Voicing, density: number, contraction = CONTRACTION): Jet {
  const { cutUp, height } = voicing;
  return {
    voicing,
    density,
    swing: Math.exp(Math.min((GROWTH * cutUp) / height, MOST_GROWTH)) / PROFILE,
    loss: (4 * density) / (3 * Math.PI * contraction ** 2),
  };
}

/** Speed of the jet's core by Bernoulli, m/s. @param pressure of the breath at the jet's exit, Pa */
export function jetSpeed({ density }: Jet, pressure: number): number {
  return Math.sqrt((2 * pressure) / density);
}

/** Pa. */
export function jetPressure({ density }: Jet, speed: number): number {
  return (density * speed * speed) / 2;
}

/** Air the jet takes, m³/s. */
export function jetFlow({ voicing: { height, width } }: Jet, speed: number): number {
  return height * width * speed;
}

/** Angle by which the drive leads the opening's flow, rad: 0 leaves the pitch where the column has it, above 0 it is flat. */
export function drivePhase({ voicing: { cutUp } }: Jet, frequency: number, speed: number): number {
  return Math.PI / 2 - (2 * Math.PI * frequency * cutUp) / (BEND_SPEED * speed);
}

/** Speed at which the drive has this phase at a frequency, m/s; the phase below π/2. */
export function speedAtPhase({ voicing: { cutUp } }: Jet, frequency: number, phase: number): number {
  return (2 * Math.PI * frequency * cutUp) / (BEND_SPEED * (Math.PI / 2 - phase));
}

/** Highest frequency of the first mode of the jet: half a wave between exit and edge, Hz. */
export function highestFrequency({ voicing: { cutUp } }: Jet, speed: number): number {
  return (BEND_SPEED * speed) / (2 * cutUp);
}

/**
 * Pressure of the source for each velocity in the opening, for small swings, Pa s/m: flow thrown in at the edge works on the inertance of
 * the opening, which acts as if it were (4/π)√(2hW) long (Verge 1994 and 1997, from memory).
 */
export function smallGain({ voicing, density, swing }: Jet, frequency: number): number {
  const { cutUp, height, offset } = voicing;
  const halfWidth = PROFILE * height;
  const length = (4 / Math.PI) * Math.sqrt(2 * height * cutUp);
  const source = 2 * Math.PI * frequency * density * (length / cutUp) * halfWidth;
  return (source * swing) / Math.cosh(offset / halfWidth) ** 2;
}

/** What is left of the gain with a swing of `a` half widths: the first harmonic of tanh(a sin t) over a; 1 for none. */
export function saturation(a: number): number {
  return (1 + ((Math.PI * a) / 4) ** SATURATION) ** (-1 / SATURATION);
}

/** What a swing of `a` half widths leaves of the gain to another, small tone, a share: the mean of sech²(a sin t). */
export function leftover(a: number): number {
  let sum = 0;
  for (let i = 0; i < MEANS; i++) sum += 1 / Math.cosh(a * Math.sin(((i + 0.5) * Math.PI) / (2 * MEANS))) ** 2;
  return sum / MEANS;
}
/** Over a quarter turn: enough for 0.1 % up to a = 10. */
const MEANS = 24;
