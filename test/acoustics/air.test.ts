import { describe, expect, it } from "vitest";
import { airState, speedOfSound } from "../../server/src/acoustics/air.js";
import { airWarnings } from "../../server/src/acoustics/airRange.js";
import { ATMOSPHERE, airConstants, speedTable } from "../accuracy/air.js";
import { holdEach } from "../accuracy/hold.js";
import { cents } from "./instruments.js";

const conditions = { temperature: 20, humidity: 0.5, carbonDioxide: 0.0004, pressure: ATMOSPHERE, losses: true };

holdEach(speedTable);
holdEach(airConstants);

describe("speed of sound", () => {
  it("falls by 10.9 cents when breath brings 2.5 % of carbon dioxide", () => {
    // The same formula in Python, 25 °C, saturated: 347.984 and 345.804 m/s.
    const at = (carbonDioxide: number) =>
      speedOfSound({ temperature: 25, humidity: 1, carbonDioxide, pressure: ATMOSPHERE });
    expect(cents(at(0.025), at(0.0004))).toBeCloseTo(-10.9, 1);
  });
});

describe("the air a maker states", () => {
  it("sounds with the speed given, when one is given", () => {
    expect(airState({ ...conditions, soundSpeed: 343.37 }).soundSpeed).toBe(343.37);
    expect(airState(conditions).soundSpeed).toBe(speedOfSound(conditions));
  });

  it("is flagged as uncertain outside Cramer's range: 0–30 °C, 75–102 kPa, 1 % of carbon dioxide", () => {
    expect(airWarnings(conditions)).toEqual([]);
    const breath = airWarnings({ ...conditions, temperature: 34, humidity: 1, carbonDioxide: 0.04 });
    expect(breath.map(({ quantity }) => quantity)).toEqual(["temperature", "carbonDioxide"]);
    expect(airWarnings({ ...conditions, temperature: 34, soundSpeed: 350 })).toEqual([]);
    // The bounds themselves belong to it.
    const [cold, warm] = [
      { temperature: 0, humidity: 0, carbonDioxide: 0, pressure: 75_000, losses: true },
      { temperature: 30, humidity: 1, carbonDioxide: 0.01, pressure: 102_000, losses: true },
    ];
    expect([...airWarnings(cold), ...airWarnings(warm)]).toEqual([]);
    expect(airWarnings({ ...cold, temperature: -0.1, pressure: 74_900 })).toEqual([
      { quantity: "temperature", value: -0.1, least: 0, greatest: 30 },
      { quantity: "pressure", value: 74_900, least: 75_000, greatest: 102_000 },
    ]);
  });
});
