/** The air a design is played with, in SI units but for the temperature. */
import { AIR_PRESETS, DEFAULTS } from "./defaults.js";
import type { Instrument } from "./model.js";
import type { Numbers } from "./numbers.js";
import { own } from "./path.js";

export function readAir(data: unknown, numbers: Numbers): Instrument["air"] {
  const air = own(data, "air");
  const preset = airPreset(data);
  const stated: Partial<Record<string, number>> = preset === undefined ? {} : AIR_PRESETS[preset];
  const number = (name: string) => numbers.at(["air", name]) ?? stated[name];
  const soundSpeed = number("speedOfSound");
  return {
    temperature: number("temperature"),
    humidity: (number("humidity") ?? DEFAULTS.humidity) / 100,
    carbonDioxide: (number("carbonDioxide") ?? DEFAULTS.carbonDioxide) / 100,
    pressure: (number("pressure") ?? DEFAULTS.pressure) * 1000,
    losses: own(air, "losses") !== false,
    ...(soundSpeed === undefined ? {} : { soundSpeed }),
  };
}

/** The word that stands for the air, where it is one. */
export function airPreset(data: unknown): keyof typeof AIR_PRESETS | undefined {
  const air = own(data, "air");
  return typeof air === "string" && Object.hasOwn(AIR_PRESETS, air) ? (air as keyof typeof AIR_PRESETS) : undefined;
}
