import type { AirConditions, AirState } from "./airState.js";

/** Ice point, K. */
const ICE_POINT = 273.15;
const CALORIE = 4.184;

/**
 * Cramer's coefficients a0…a15: O. Cramer, J. Acoust. Soc. Am. 93 (1993) 2510–2516, eq. (15) and table III.
 * Good for 0…30 °C, 75…102 kPa, water mole fraction up to 0.06, carbon dioxide up to 0.01; uncertainty 300 ppm (0.5 cent).
 */
const CRAMER = [
  331.5024, 0.603055, -0.000528, 51.471935, 0.1495874, -0.000782, -1.82e-7, 3.73e-8, -2.93e-10, -85.20931, -0.228525,
  5.91e-5, -2.835149, -2.15e-13, 29.179762, 0.000486,
] as const;

export interface AirMixture {
  /** °C. */
  readonly temperature: number;
  /** Relative humidity, 0…1. */
  readonly humidity: number;
  /** Mole fraction, 0…1. */
  readonly carbonDioxide: number;
  /** Pa. */
  readonly pressure: number;
}

/** Mole fraction of water vapour, from the saturation pressure Cramer 1993 uses (Giacomo 1982). */
export function waterMoleFraction({ temperature, humidity, pressure }: Omit<AirMixture, "carbonDioxide">): number {
  const kelvin = temperature + ICE_POINT;
  const saturation = Math.exp(1.2811805e-5 * kelvin ** 2 - 1.9509874e-2 * kelvin + 34.04926034 - 6353.6311 / kelvin);
  const enhancement = 1.00062 + 3.14e-8 * pressure + 5.6e-7 * temperature ** 2;
  return (humidity * enhancement * saturation) / pressure;
}

/** Speed of sound in humid air with carbon dioxide, m/s (Cramer 1993). Beyond the range of `CRAMER` it extrapolates; see `airWarnings` in airRange.ts. */
export function speedOfSound(air: AirMixture): number {
  const { temperature: t, pressure: p, carbonDioxide: xc } = air;
  const xw = waterMoleFraction(air);
  const a = CRAMER;
  return (
    a[0] +
    a[1] * t +
    a[2] * t * t +
    (a[3] + a[4] * t + a[5] * t * t) * xw +
    (a[6] + a[7] * t + a[8] * t * t) * p +
    (a[9] + a[10] * t + a[11] * t * t) * xc +
    a[12] * xw * xw +
    a[13] * p * p +
    a[14] * xc * xc +
    a[15] * xw * p * xc
  );
}

/**
 * Dry air at one atmosphere by the formulas of A. Chaigne & J. Kergomard, Acoustics of Musical Instruments, Springer 2016,
 * chapter 5 (coefficients from memory). The speed of sound is theirs too: c = 331.45 √(T/T0).
 * @param temperature °C
 */
export function chaigneKergomardAir(temperature: number, losses = true): AirState {
  const ratio = (temperature + ICE_POINT) / ICE_POINT;
  const viscosity = 1.708e-5 * (1 + 0.0029 * temperature);
  const conductivity = 5.77e-3 * CALORIE * (1 + 0.0033 * temperature);
  const heatCapacity = 240 * CALORIE;
  return {
    soundSpeed: 331.45 * Math.sqrt(ratio),
    density: 1.2929 / ratio,
    viscosity,
    heatCapacityRatio: 1.402,
    prandtl: (viscosity * heatCapacity) / conductivity,
    losses,
  };
}

/** The air the maker states: speed of sound by Cramer unless given, the constants of the wall losses by Chaigne & Kergomard. */
export function airState(conditions: AirConditions): AirState {
  const dry = chaigneKergomardAir(conditions.temperature, conditions.losses);
  return { ...dry, soundSpeed: conditions.soundSpeed ?? speedOfSound(conditions) };
}
