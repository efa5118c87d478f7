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

  it("has the constants of Chaigne & Kergomard 2016, chapter 5", () => {
    // ρ, c, μ, γ, Pr at 20 °C, worked out in Python.
    const { density, soundSpeed, viscosity, heatCapacityRatio, prandtl } = chaigneKergomardAir(20);
    expect(density).toBeCloseTo(1.20469, 5);
    expect(soundSpeed).toBeCloseTo(343.37, 2);
    expect(viscosity).toBeCloseTo(1.80706e-5, 10);
    expect(heatCapacityRatio).toBe(1.402);
    expect(prandtl).toBeCloseTo(0.705102, 6);
  });

  it("is questioned outside Cramer's range: 0–30 °C, 75–102 kPa, 1 % of carbon dioxide", () => {
    expect(airWarnings(conditions)).toEqual([]);
    const breath = airWarnings({ ...conditions, temperature: 34, humidity: 1, carbonDioxide: 0.04 });
    expect(breath.map(({ quantity }) => quantity)).toEqual(["temperature", "carbonDioxide"]);
    expect(airWarnings({ ...conditions, temperature: 34, soundSpeed: 350 })).toEqual([]);
  });
});
