import { waterMoleFraction } from "./air.js";
import type { AirConditions } from "./airState.js";

export interface AirWarning {
  readonly quantity: "temperature" | "pressure" | "carbonDioxide" | "waterMoleFraction";
  readonly value: number;
  readonly least: number;
  readonly greatest: number;
}

/** Range of O. Cramer, J. Acoust. Soc. Am. 93 (1993) 2510, in °C, Pa and mole fractions; inside it is good to 0.5 cent. */
const CRAMER_RANGE = {
  temperature: [0, 30],
  pressure: [75_000, 102_000],
  carbonDioxide: [0, 0.01],
  waterMoleFraction: [0, 0.06],
} as const;

/**
 * Conditions beyond the range of the speed of sound's formula; none where the speed is given. Breath (up to 37 °C, 4 % carbon
 * dioxide) is beyond it and good to about a cent.
 */
export function airWarnings(conditions: AirConditions): AirWarning[] {
  if (conditions.soundSpeed !== undefined) return [];
  const values = { ...conditions, waterMoleFraction: waterMoleFraction(conditions) };
  const quantities = Object.keys(CRAMER_RANGE) as (keyof typeof CRAMER_RANGE)[];
  return quantities.flatMap((quantity) => {
    const [least, greatest] = CRAMER_RANGE[quantity];
    const value = values[quantity];
    return value >= least && value <= greatest ? [] : [{ quantity, value, least, greatest }];
  });
}
