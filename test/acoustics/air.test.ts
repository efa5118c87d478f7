import { describe, expect, it } from "vitest";
import { airState, chaigneKergomardAir, speedOfSound } from "../../server/src/acoustics/air.js";
import { airWarnings } from "../../server/src/acoustics/airRange.js";
import { cents } from "./instruments.js";

const ATMOSPHERE = 101_325;
const conditions = { temperature: 20, humidity: 0.5, carbonDioxide: 0.0004, pressure: ATMOSPHERE, losses: true };

describe("speed of sound", () => {
  // O. Cramer, JASA 93 (1993) 2510, eq. (15), worked out independently in Python; columns: dry with 314 ppm, 50 % and 100 % with 400 ppm.
  it.each([
    [0, 331.455, 331.6035, 331.7594],
    [10, 337.4669, 337.7811, 338.1026],
    [15, 340.431, 340.8756, 341.3275],
    [20, 343.3672, 343.9867, 344.6132],
    [25, 346.2755, 347.1265, 347.984],
    [26.85, 347.3445, 348.2984, 349.2584],
    [30, 349.156, 350.3097, 351.4689],
    [35, 352.0085, 353.5537, 355.1024],
  ])("at %f °C", (temperature, dry, half, full) => {
    const at = (humidity: number, carbonDioxide: number) =>
      speedOfSound({ temperature, humidity, carbonDioxide, pressure: ATMOSPHERE });
    expect(Math.abs(at(0, 0.000314) - dry)).toBeLessThan(1e-3);
    expect(Math.abs(at(0.5, 0.0004) - half)).toBeLessThan(1e-3);
    expect(Math.abs(at(1, 0.0004) - full)).toBeLessThan(1e-3);
  });

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

  // ρ, μ · 1e5, Pr and c by the formulas of Chaigne & Kergomard 2016, chapter 5, worked out in Python.
  it.each([
    [15, 1.2256, 1.7823, 0.7064, 340.429],
    [20, 1.20469, 1.80706, 0.7051, 343.37],
    [25, 1.18449, 1.83183, 0.7039, 346.286],
    [26.85, 1.17719, 1.84099, 0.7034, 347.359],
    [30, 1.16495, 1.8566, 0.7027, 349.177],
  ])("has the constants of Chaigne & Kergomard at %f °C", (temperature, density, viscosity, prandtl, soundSpeed) => {
    const found = chaigneKergomardAir(temperature);
    expect(Math.abs(found.density - density)).toBeLessThan(1e-5);
    expect(Math.abs(found.viscosity * 1e5 - viscosity)).toBeLessThan(1e-5);
    expect(Math.abs(found.prandtl - prandtl)).toBeLessThan(1e-4);
    expect(Math.abs(found.soundSpeed - soundSpeed)).toBeLessThan(1e-3);
    expect(found.heatCapacityRatio).toBe(1.402);
  });

  it("is questioned outside Cramer's range: 0–30 °C, 75–102 kPa, 1 % of carbon dioxide", () => {
    expect(airWarnings(conditions)).toEqual([]);
    const breath = airWarnings({ ...conditions, temperature: 34, humidity: 1, carbonDioxide: 0.04 });
    expect(breath.map(({ quantity }) => quantity)).toEqual(["temperature", "carbonDioxide"]);
    expect(airWarnings({ ...conditions, temperature: 34, soundSpeed: 350 })).toEqual([]);
  });
});
