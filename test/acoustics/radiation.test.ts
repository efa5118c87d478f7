import { describe, expect, it } from "vitest";
import {
  bluntEnd,
  bluntLength,
  endImpedance,
  rectangleFactor,
  silvaEnd,
} from "../../server/src/acoustics/radiation.js";

describe("an unflanged end", () => {
  // H. Levine & J. Schwinger, Phys. Rev. 73 (1948) 383: their integrals by direct quadrature (scipy): ka, |R|, δ/a, Re and Im Zr/Zc.
  const levineSchwinger: [ka: number, modulus: number, length: number, re: number, im: number][] = [
    [0.01, 0.99995, 0.61268, 0.000025, 0.006127],
    [0.05, 0.99875, 0.61226, 0.000624, 0.030622],
    [0.1, 0.99507, 0.61099, 0.002482, 0.061175],
    [0.2, 0.98086, 0.60638, 0.009807, 0.121862],
    [0.3, 0.95868, 0.59961, 0.021795, 0.181765],
    [0.4, 0.93004, 0.59127, 0.038351, 0.240685],
    [0.5, 0.89644, 0.58184, 0.059486, 0.29844],
    [0.6, 0.85924, 0.57164, 0.0853, 0.354793],
    [0.8, 0.77853, 0.54993, 0.151592, 0.461826],
    [1, 0.6951, 0.52743, 0.238279, 0.557507],
    [1.2, 0.61362, 0.50481, 0.344844, 0.635445],
    [1.5, 0.50079, 0.47127, 0.532346, 0.70291],
    [2, 0.34618, 0.41694, 0.836022, 0.65454],
    [2.5, 0.23318, 0.36361, 1.005742, 0.480917],
    [3, 0.15433, 0.30828, 1.039756, 0.316058],
    [3.5, 0.10086, 0.24216, 1.004737, 0.203176],
  ];

  it.each(levineSchwinger)(
    "at ka = %f by the fit of Silva et al. 2009, within its stated error of 0.004 and 0.010",
    (ka, modulus, length) => {
      const end = silvaEnd("unflanged", 1, ka);
      expect(Math.abs(end.modulus - modulus)).toBeLessThan(0.004);
      // 0.010 is a rounded statement: at ka = 2.5 it is 0.0100 to four places.
      expect(Math.abs(end.length - length)).toBeLessThan(0.01005);
    },
  );

  it.each(levineSchwinger)("at ka = %f has the impedance of its reflection", (ka, modulus, length, re, im) => {
    const z = endImpedance({ modulus, length }, ka);
    // The table's own |R| and δ are rounded to 1e-5.
    expect(Math.abs(z.re - re)).toBeLessThan(5e-5);
    expect(Math.abs(z.im - im)).toBeLessThan(5e-5);
  });

  it("is what a blunt end becomes when its wall vanishes", () => {
    for (const [ka, modulus, length] of levineSchwinger.filter(([ka]) => ka <= 1)) {
      const end = bluntEnd(1, 1, ka);
      expect(Math.abs(end.modulus - modulus)).toBeLessThan(0.005);
      expect(Math.abs(end.length - length)).toBeLessThan(0.005);
    }
  });
});

describe("an end in an endless plane", () => {
  // Mode matching with 40 axisymmetric modes (numpy): ka, |R|, δ/a.
  it.each([
    [0.1, 0.99013, 0.8177],
    [0.2, 0.96206, 0.8055],
    [0.5, 0.81189, 0.7374],
    [1, 0.55115, 0.6051],
    [1.5, 0.37391, 0.5027],
    [2, 0.2571, 0.4265],
    [3, 0.12055, 0.3077],
  ])("at ka = %f", (ka, modulus, length) => {
    const end = silvaEnd("flanged", 1, ka);
    expect(Math.abs(end.modulus - modulus)).toBeLessThan(0.004);
    expect(Math.abs(end.length - length)).toBeLessThan(0.01);
  });
});

describe("a blunt end", () => {
  // J.-P. Dalmont, C. J. Nederveen & N. Joly, JSV 244 (2001) 505: inner over outer radius, δ/a at low frequency.
  it.each([
    [0.1, 0.8065],
    [0.25, 0.7838],
    [0.5, 0.7451],
    [0.6, 0.7282],
    [0.7, 0.709],
    [0.8, 0.6856],
    [0.9, 0.6551],
    [0.95, 0.636],
    [1, 0.6133],
  ])("with a = %f of the outer radius", (ratio, length) => {
    expect(bluntLength(1, 1 / ratio)).toBeCloseTo(length, 4);
    expect(bluntEnd(1, 1 / ratio, 1e-4).length).toBeCloseTo(length, 4);
  });
});

describe("a rectangular opening", () => {
  it("a square has the end correction of a uniform square piston", () => {
    // Closed form: mean of 1/r over two points of the unit square, 4[ln(1+√2) − (√2−1)/3] = 2.97321, over 2π; textbook
    // (potential of a uniformly charged square); circle of equal area 8/(3π√π).
    const square = (4 * (Math.log(1 + Math.SQRT2) - (Math.SQRT2 - 1) / 3)) / (2 * Math.PI);
    expect(rectangleFactor(1, 1)).toBeCloseTo(square / (8 / (3 * Math.PI * Math.sqrt(Math.PI))), 9);
  });

  it("the longer it is at equal area, the less it adds", () => {
    expect(rectangleFactor(2, 0.5)).toBeLessThan(rectangleFactor(1, 1));
    expect(rectangleFactor(8, 0.125)).toBeLessThan(rectangleFactor(2, 0.5));
    expect(rectangleFactor(9, 4)).toBeCloseTo(rectangleFactor(4, 9), 12);
  });
});
