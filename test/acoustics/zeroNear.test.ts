/** The zero of the reactance from samples beside it, against a line whose impedance is known in closed form. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Sample } from "../../server/src/acoustics/response.js";
import { zeroNear } from "../../server/src/acoustics/zeroNear.js";

/** Open at its far end: Z = tanh(b + ika) over its own impedance (Chaigne & Kergomard 2016, §4), with the same loss at every frequency. */
function line(length: number, b: number) {
  const looks: number[] = [];
  const at = (k: number): Sample => {
    looks.push(k);
    const a = k * length;
    const norm = Math.cos(2 * a) + Math.cosh(2 * b);
    return { k, resistance: Math.sinh(2 * b) / norm, reactance: Math.sin(2 * a) / norm };
  };
  return { at, looks };
}

const STEP = Math.PI / 32;
/** Where the second resonance from 0 lies between samples, as a share of a step; on them, too. */
const offset = fc.oneof(fc.constantFrom(0.5, 1e-9), fc.double({ min: 1e-6, max: 1 - 1e-6, noNaN: true }));

describe("zeroNear", () => {
  it("finds zero, resistance and slope of a straight line in two or three evaluations", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 2, noNaN: true }),
        fc.double({ min: 0.01, max: 0.8, noNaN: true }),
        offset,
        (length, b, share) => {
          const { at, looks } = line(length, b);
          const samples = [-5, -4, -3, -2, -1, 0, 1].map((n) => at((Math.PI + STEP * (n + 1 - share - 1)) / length));
          looks.length = 0;
          const [below, above] = samples.slice(-2) as [Sample, Sample];
          const { sample, slope } = zeroNear(at, [below, above], samples);
          expect(Math.abs((sample.k * length) / Math.PI - 1)).toBeLessThan(1e-9);
          expect(sample.resistance).toBeCloseTo(Math.tanh(b), 7);
          expect(slope).toBeCloseTo(length / Math.cosh(b) ** 2, 4);
          expect(looks.length).toBeLessThan(4);
        },
      ),
    );
  });

  it("closes in on the zero where the function through the samples is not the column's", () => {
    const { at } = line(1, 0.05);
    const broken = (k: number) => ({ ...at(k), reactance: at(k).reactance + 0.02 * Math.sign(k - 3.1401) });
    const samples = [3, 3.05, 3.1, 3.15].map(broken);
    const { sample } = zeroNear(broken, [samples[2] as Sample, samples[3] as Sample], samples);
    // There it jumps through zero.
    expect(sample.k).toBeCloseTo(3.1401, 8);
  });
});
