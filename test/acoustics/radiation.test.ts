import { describe, expect, it } from "vitest";
import { bluntEnd, bluntLength, endImpedance, rectangleFactor } from "../../server/src/acoustics/radiation.js";
import { holdEach } from "../accuracy/hold.js";
import { LEVINE_SCHWINGER, radiationTables } from "../accuracy/radiation.js";

for (const table of radiationTables) holdEach(table);

describe("an unflanged end", () => {
  it.each(LEVINE_SCHWINGER)("at ka = %f has the impedance of its reflection", (ka, modulus, length, re, im) => {
    const z = endImpedance({ modulus, length }, ka);
    // The table's own |R| and δ are rounded to 1e-5.
    expect(Math.abs(z.re - re)).toBeLessThan(5e-5);
    expect(Math.abs(z.im - im)).toBeLessThan(5e-5);
  });
});

describe("a blunt end", () => {
  it.each([0.1, 0.5, 0.9])(
    "with a = %f of the outer radius is at low frequency as long as its own formula says",
    (ratio) => {
      expect(bluntEnd(1, 1 / ratio, 1e-4).length).toBeCloseTo(bluntLength(1, 1 / ratio), 4);
    },
  );
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
