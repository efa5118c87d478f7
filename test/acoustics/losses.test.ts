import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { wallLayer, wallLayerByFraction, wallLayerBySeries } from "../../server/src/acoustics/besselRatio.js";
import { impedanceAngles, lossTable, waveAt } from "../accuracy/air.js";
import { holdEach } from "../accuracy/hold.js";

holdEach(lossTable);
holdEach(impedanceAngles);

describe("a cylinder with losses", () => {
  it("scaled 1.5 times, a bore of 9.5 mm at 440 Hz carries sound 2.56 cents faster", () => {
    // The same calculation in scipy: losses do not scale.
    const speed = (radius: number, f: number) => (2 * Math.PI * f) / waveAt(radius, f).beta;
    const rise = 1200 * Math.log2(speed(0.01425, 440 / 1.5) / speed(0.0095, 440));
    expect(rise).toBeCloseTo(2.56, 2);
  });
});

describe("the wall layer's Bessel ratio", () => {
  it("has the values of J1(z)/J0(z) on the ray at −45°", () => {
    // scipy.special.jv; F = 2/z · J1/J0 with 2/z = 2 e^(jπ/4)/s.
    const known: [s: number, re: number, im: number][] = [
      [0.5, 0.17103254, -0.18206134],
      [5, 0.07505513, -0.92923311],
      [13, 0.02797525, -0.97285139],
      [130, 0.00272708, -0.9972804],
    ];
    for (const [s, re, im] of known) {
      const out = new Float64Array(2);
      wallLayer(s, out);
      const unit = (2 * Math.SQRT1_2) / s;
      expect((out[0] as number) / unit).toBeCloseTo(re - im, 7);
      expect((out[1] as number) / unit).toBeCloseTo(re + im, 7);
    }
  });

  it("is the same by continued fraction and by series where both hold", () => {
    fc.assert(
      fc.property(fc.double({ min: 26, max: 400, noNaN: true }), (s) => {
        const fraction = new Float64Array(2);
        const series = new Float64Array(2);
        wallLayerByFraction(s, fraction);
        wallLayerBySeries(s, series);
        const size = Math.hypot(fraction[0] as number, fraction[1] as number);
        const apart = Math.hypot(
          (fraction[0] as number) - (series[0] as number),
          (fraction[1] as number) - (series[1] as number),
        );
        expect(apart / size).toBeLessThan(1e-14);
      }),
    );
  });
});
