import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { chaigneKergomardAir } from "../../server/src/acoustics/air.js";
import { wallLayer, wallLayerByFraction, wallLayerBySeries } from "../../server/src/acoustics/besselRatio.js";
import { waveConstants } from "../../server/src/acoustics/losses.js";

const air = chaigneKergomardAir(20);

function constantsAt(radius: number, frequency: number) {
  const out = new Float64Array(4);
  waveConstants(air, radius, (2 * Math.PI * frequency) / air.soundSpeed, out);
  const [alpha, beta, re, im] = [...out] as [number, number, number, number];
  const unit = (air.density * air.soundSpeed) / (Math.PI * radius ** 2);
  return { alpha, beta, size: Math.hypot(re, im) * unit, degrees: (Math.atan2(im, re) * 180) / Math.PI };
}

describe("a cylinder with losses", () => {
  // Zwikker & Kosten 1949 with the complex Bessel functions of scipy, air of Chaigne & Kergomard at 20 °C.
  it.each([
    [2, 100, 0.160238, 1.977019, 3.386949e7, -1.9761],
    [2, 440, 0.32215, 8.361133, 3.336768e7, -0.8564],
    [2, 1000, 0.479422, 18.765819, 3.321543e7, -0.5505],
    [2, 3000, 0.821525, 55.705262, 3.308923e7, -0.3094],
    [5, 100, 0.061053, 1.888944, 5.327168e6, -0.7079],
    [5, 440, 0.12593, 8.175383, 5.295501e6, -0.3237],
    [5, 1000, 0.188873, 18.485547, 5.285828e6, -0.2119],
    [5, 3000, 0.325743, 55.219596, 5.277787e6, -0.121],
    [9.5, 100, 0.031648, 1.860972, 1.467727e6, -0.3588],
    [9.5, 440, 0.065801, 8.116651, 1.463129e6, -0.1672],
    [9.5, 1000, 0.098932, 18.396991, 1.461722e6, -0.1102],
    [9.5, 3000, 0.170971, 55.0662, 1.460551e6, -0.0632],
  ])("of %f mm radius at %f Hz", (radius, frequency, alpha, beta, size, degrees) => {
    const found = constantsAt(radius / 1000, frequency);
    expect(Math.abs(found.alpha / alpha - 1)).toBeLessThan(2e-5); // printed to 5 digits
    expect(Math.abs(found.beta / beta - 1)).toBeLessThan(1e-5);
    expect(Math.abs(found.size / size - 1)).toBeLessThan(1e-5);
    expect(Math.abs(found.degrees - degrees)).toBeLessThan(1e-4);
  });

  it("scaled 1.5 times, a bore of 9.5 mm at 440 Hz carries sound 2.56 cents faster", () => {
    // The same calculation in scipy: losses do not scale.
    const speed = (radius: number, f: number) => (2 * Math.PI * f) / constantsAt(radius, f).beta;
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
