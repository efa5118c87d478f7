import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { chaigneKergomardAir } from "../../server/src/acoustics/air.js";
import {
  coneInertance,
  type Frustum,
  frustaBetween,
  frustumMatrix,
  lossRadius,
  stepInertance,
} from "../../server/src/acoustics/bore.js";
import { waveConstants } from "../../server/src/acoustics/losses.js";
import { inputImpedance, registersOf } from "../../server/src/acoustics/resonance.js";
import { determinant, identity, multiplyRight, TWO_PORT } from "../../server/src/acoustics/twoPort.js";
import cones from "../reference/fem/cone.json" with { type: "json" };
import { cents, tube } from "./instruments.js";

const air = chaigneKergomardAir(20);
const AREA = 1e-4;

function matrixOf(frusta: readonly Frustum[], frequency: number, losses: boolean): Float64Array {
  const wave = new Float64Array(4);
  const next = new Float64Array(TWO_PORT);
  const whole = new Float64Array(TWO_PORT);
  identity(whole);
  for (const frustum of frusta) {
    waveConstants({ ...air, losses }, lossRadius(frustum), (2 * Math.PI * frequency) / air.soundSpeed, wave);
    frustumMatrix(frustum, AREA, wave, 0, next);
    multiplyRight(whole, 0, next, 0);
  }
  return whole;
}

const frusta = fc.record({
  length: fc.double({ min: 1e-5, max: 0.5, noNaN: true }),
  radius1: fc.double({ min: 0.002, max: 0.02, noNaN: true }),
  radius2: fc.double({ min: 0.002, max: 0.02, noNaN: true }),
});
const frequencies = fc.double({ min: 50, max: 4000, noNaN: true });

describe("a section of the bore", () => {
  it("has determinant 1", () => {
    fc.assert(
      fc.property(fc.array(frusta, { minLength: 1, maxLength: 4 }), frequencies, fc.boolean(), (list, f, losses) => {
        const matrix = matrixOf(list, f, losses);
        const { re, im } = determinant(matrix);
        // The two products cancel: rounding is relative to their size.
        const size = Math.max(1, Math.hypot(...matrix.subarray(0, 2)) * Math.hypot(...matrix.subarray(6, 8)));
        expect(Math.hypot(re - 1, im) / size).toBeLessThan(1e-12);
      }),
    );
  });

  it("is the same whole or cut in two, without losses", () => {
    fc.assert(
      fc.property(frusta, frequencies, fc.double({ min: 0.05, max: 0.95, noNaN: true }), (whole, f, share) => {
        const middle = whole.radius1 + share * (whole.radius2 - whole.radius1);
        const halves = [
          { length: whole.length * share, radius1: whole.radius1, radius2: middle },
          { length: whole.length * (1 - share), radius1: middle, radius2: whole.radius2 },
        ];
        const one = matrixOf([whole], f, false);
        const two = matrixOf(halves, f, false);
        const size = Math.max(...one.map(Math.abs));
        one.forEach((value, i) => {
          expect(Math.abs(value - (two[i] as number)) / size).toBeLessThan(1e-11);
        });
      }),
    );
  });

  it("goes over smoothly from cone to cylinder", () => {
    const cylinder = matrixOf([{ length: 0.02, radius1: 0.008, radius2: 0.008 }], 700, true);
    const nearly = matrixOf([{ length: 0.02, radius1: 0.008, radius2: 0.008 * (1 + 1e-11) }], 700, true);
    cylinder.forEach((value, i) => {
      expect(Math.abs((nearly[i] as number) - value)).toBeLessThan(1e-9);
    });
  });

  it("has no length where two stations make a step, but its near field, and takes each side's own radius", () => {
    const bore = [
      { x: 0, radius: 0.01 },
      { x: 0.1, radius: 0.01 },
      { x: 0.1, radius: 0.008 },
      { x: 0.2, radius: 0.007 },
    ];
    expect(frustaBetween(bore, -0.01, 0.15, false)).toEqual([
      { length: 0.01, radius1: 0.01, radius2: 0.01 },
      { length: 0.1, radius1: 0.01, radius2: 0.01 },
      {
        length: expect.closeTo(0.05, 12),
        radius1: 0.008,
        radius2: expect.closeTo(0.0075, 12),
        step: stepInertance(0.01, 0.008),
      },
    ]);
  });

  it.each([
    // Added length on the narrow duct over its radius: static mode matching, 300 modes, numpy and scipy (test/reference/fem/step.py).
    [0.3, 0.49588],
    [0.5, 0.29803],
    [0.7, 0.13235],
    [0.8, 0.06789],
    [0.9, 0.02096],
    [0.95, 0.00627],
  ])("a step to %f of the radius adds its near field's inertance, either way", (ratio, length) => {
    const found = stepInertance(1, ratio) * Math.PI * ratio;
    expect(Math.abs(found / length - 1)).toBeLessThan(0.02);
    expect(stepInertance(ratio, 1)).toBe(stepInertance(1, ratio));
    expect(stepInertance(ratio, ratio)).toBe(0);
  });

  it("a steep cone adds what static finite elements of it alone say, and a step is one without length", () => {
    // Added length on the narrow duct over its radius, `run` over the difference of the radii long: test/reference/fem/cone.py.
    for (const [key, length] of Object.entries(cones)) {
      const [ratio = 0, run = 0] = key.split(" ").flatMap((word) => (Number.isNaN(Number(word)) ? [] : [Number(word)]));
      const found = coneInertance(ratio, 1, run * (1 - ratio)) * Math.PI * ratio;
      // Slopes of 1 : 8 and steeper: all are.
      expect(Math.abs(found - length), key).toBeLessThan(0.005);
      expect(coneInertance(1, ratio, run * (1 - ratio))).toBe(coneInertance(ratio, 1, run * (1 - ratio)));
    }
    expect(coneInertance(1, 0.7, 0)).toBe(stepInertance(1, 0.7));
  });

  it("no note jumps where two stations become a step, where a cone becomes gentle, or where a hole passes one of these", () => {
    const note = (from: number, to: number, hole: number) => {
      const holes = [{ x: hole, radius: 0.003, chimney: 0.004, angle: 0 }];
      const bore = [
        { x: 0, radius: 0.0095 },
        { x: from, radius: 0.0095 },
        { x: to, radius: 0.0065 },
        { x: 0.38, radius: 0.0065 },
      ];
      return registersOf(tube(380, 19, { bore, holes }), { ...air, losses: false }, [1], 1)[0]?.frequency ?? 0;
    };
    const near = (one: number, other: number) => expect(Math.abs(1200 * Math.log2(one / other))).toBeLessThan(0.01);
    const hair = 1e-7;
    near(note(0.3, 0.3, 0.2), note(0.3, 0.3 + hair, 0.2));
    // 1 : 20, where nothing is left of it, and 1 : 10, from where on all is.
    near(note(0.3 - 0.06 + hair, 0.3, 0.2), note(0.3 - 0.06 - hair, 0.3, 0.2));
    near(note(0.3 - 0.03 + hair, 0.3, 0.2), note(0.3 - 0.03 - hair, 0.3, 0.2));
    for (const x of [0.298, 0.3]) near(note(0.298, 0.3, x - hair), note(0.298, 0.3, x + hair));
  });
});

describe("tubes with known answers", () => {
  it("closed cylinder of 7.62 mm radius, 300 mm: 282.59443 Hz, without losses 286.14168 Hz", () => {
    // tan(kL) → ∞ with scipy's exact constants, air of Chaigne & Kergomard at 20 °C; lossless c/4L.
    const column = tube(300, 15.24, { foot: "stopped" });
    const [lossy] = registersOf(column, air, [], 1);
    const [lossless] = registersOf(column, { ...air, losses: false }, [], 1);
    expect(Math.abs((lossy?.frequency ?? 0) - 282.59443)).toBeLessThan(1e-5);
    expect(Math.abs((lossless?.frequency ?? 0) - 286.14168)).toBeLessThan(1e-5);
  });

  it("cone from 9.5 to 6 mm radius, 300 mm, ideally open at both ends: 567.31519 Hz", () => {
    // Webster's equation with local Zwikker–Kosten losses, integrated by scipy's DOP853. Ideally open means no flow impedance at the
    // foot: the zero of B, read from our matrix.
    const bore = [
      { x: 0, radius: 0.0095 },
      { x: 0.3, radius: 0.006 },
    ];
    const reactanceAt = (f: number): number => {
      const m = matrixOf(frustaBetween(bore, 0, 0.3, true), f, true);
      const [br, bi, dr, di] = [m[2], m[3], m[6], m[7]] as [number, number, number, number];
      return (bi * dr - br * di) / (dr * dr + di * di);
    };
    let [low, high] = [550, 590];
    for (let i = 0; i < 60; i++) {
      const middle = (low + high) / 2;
      if (reactanceAt(middle) < 0) low = middle;
      else high = middle;
    }
    expect(Math.abs(cents(low, 567.31519))).toBeLessThan(0.2);
  });

  it("the same cone's matrix without losses at 440 Hz", () => {
    // Spherical-wave formulas worked out in numpy with the apex's distance: A, B, C, D.
    const m = matrixOf([{ length: 0.3, radius1: 0.0095, radius2: 0.006 }], 440, false);
    const unit = (air.density * air.soundSpeed) / AREA;
    expect(m[0]).toBeCloseTo(-0.37096004, 8);
    expect((m[3] as number) * unit).toBeCloseTo(1.5338879e6, -1);
    expect((m[5] as number) / unit).toBeCloseTo(3.26841119e-7, 15);
    expect(m[6]).toBeCloseTo(-1.34424819, 8);
  });

  it("a bore that begins above an ideal mouth counts only below it, from its width there", () => {
    const rest = [
      { x: 0.05, radius: 0.009 },
      { x: 0.3, radius: 0.007 },
    ];
    const from = (...stations: readonly { x: number; radius: number }[]) =>
      inputImpedance(tube(300, 14, { bore: [...stations, ...rest] }), air, [], [300, 900]);
    // A straight line from 6 mm to 9 mm, a third of the way.
    const cut = from({ x: 0, radius: 0.007 });
    for (const whole of [
      from({ x: -0.025, radius: 0.006 }),
      from({ x: -0.06, radius: 0.02 }, { x: -0.025, radius: 0.006 }),
      from({ x: -0.06, radius: 0.02 }, { x: 0, radius: 0.007 }),
    ])
      whole.forEach(({ re, im }, n) => {
        expect(re).toBeCloseTo(cut[n]?.re ?? 0, -2);
        expect(im).toBeCloseTo(cut[n]?.im ?? 0, -2);
      });
  });

  it("an ideal mouth shows the bore's own input impedance: −j ρc/S cot kL for a stopped cylinder", () => {
    // Textbook formula.
    const column = tube(300, 16, { foot: "stopped" });
    const [z] = inputImpedance(column, { ...air, losses: false }, [], [400]);
    const k = (2 * Math.PI * 400) / air.soundSpeed;
    const unit = (air.density * air.soundSpeed) / (Math.PI * 0.008 ** 2);
    expect(z?.re).toBeCloseTo(0, 3);
    expect((z?.im ?? 0) / unit).toBeCloseTo(-1 / Math.tan(k * 0.3), 9);
  });
});
