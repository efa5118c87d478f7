/** The worst deviation brought nearest, and dimensions put on the steps of a drawing. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { minimaxFit } from "../../../server/src/design/refit/minimax.js";
import type { Inequality } from "../../../server/src/design/refit/quadraticProgram.js";
import { roundTogether } from "../../../server/src/design/refit/rounding.js";
import { roundOneByOne } from "../../../server/src/design/refit/roundOneByOne.js";

interface Notes {
  readonly x: readonly number[];
  readonly cents: readonly number[];
}
const linear = (slopes: readonly (readonly number[])[], offsets: readonly number[]) => ({
  at: (x: readonly number[]): Notes => ({
    x,
    cents: offsets.map((offset, note) =>
      (slopes[note] ?? []).reduce((sum, slope, i) => sum + slope * (x[i] ?? 0), offset),
    ),
  }),
  slopes: () => slopes,
});
const largest = (cents: readonly number[]) => Math.max(...cents.map(Math.abs));

describe("the least worst deviation", () => {
  it("of a constant among three numbers is half their range, not their mean (Chebyshev; any textbook of approximation)", () => {
    const listener = linear([[1], [1], [1]], [0, 0, -3]);
    const [x] = minimaxFit(listener, [1], [], [1e-4], 0);
    expect(x).toBeCloseTo(1.5, 1);
    const held: Inequality = { row: new Map([[0, -1]]), least: -1.2 };
    expect(minimaxFit(listener, [1], [held], [1e-4], 0)[0]).toBeCloseTo(1.2, 6);
  });

  it("of the best line through x² on 0…1 is 1/8 (Chebyshev: x − 1/8)", () => {
    const places = Array.from({ length: 41 }, (_, i) => i / 40);
    const listener = linear(
      places.map((t) => [1, t]),
      places.map((t) => -t * t),
    );
    const [constant = 0, slope = 0] = minimaxFit(listener, [-0.16, 1], [], [1e-6, 1e-6], 0);
    const worst = largest(places.map((t) => constant + slope * t - t * t));
    expect(worst).toBeGreaterThanOrEqual(1 / 8 - 1e-9);
    expect(worst).toBeLessThan(1 / 8 + 0.004);
  });
});

describe("rounding one dimension after another", () => {
  const STEPS = [0.1, 0.05, 0.1, 0.05].map((step, i) => ({ step, offset: i === 1 ? 0.075 : 0 }));
  const number = fc.double({ min: -8, max: 8, noNaN: true });
  const row = fc.array(number, { minLength: 4, maxLength: 4 });

  it("puts each on a step, keeps every limit, and leaves less than rounding each by itself would", () => {
    const gains: number[] = [];
    fc.assert(
      fc.property(
        fc.array(row, { minLength: 3, maxLength: 3 }),
        fc.array(fc.double({ min: 5, max: 9, noNaN: true }), { minLength: 4, maxLength: 4 }),
        (slopes, x) => {
          const limits: Inequality[] = [
            { row: new Map([[0, 1]]), least: x[0] ?? 0 },
            { row: new Map([[1, -1]]), least: -(x[1] ?? 0) },
          ];
          for (const aim of ["worst", "squares"] as const) {
            const drawn = roundOneByOne(x, [0, 0, 0], slopes, STEPS, limits, aim);
            if (drawn === undefined) throw new Error("two limits of one dimension each always leave a step");
            drawn.forEach((value, i) => {
              const { step, offset } = STEPS[i] ?? { step: 1, offset: 0 };
              expect(Math.abs((value + offset) / step - Math.round((value + offset) / step))).toBeLessThan(1e-6);
            });
            expect(drawn[0]).toBeGreaterThanOrEqual((x[0] ?? 0) - 1e-9);
            expect(drawn[1]).toBeLessThanOrEqual((x[1] ?? 0) + 1e-9);
            const left = (there: readonly number[]) =>
              largest(
                slopes.map((each) => each.reduce((sum, slope, i) => sum + slope * ((there[i] ?? 0) - (x[i] ?? 0)), 0)),
              );
            const [up, down] = [
              Math.ceil((x[0] ?? 0) * 10 - 1e-9) / 10,
              Math.floor(((x[1] ?? 0) + 0.075) * 20 + 1e-9) / 20 - 0.075,
            ];
            const plain = [up, down, Math.round((x[2] ?? 0) * 10) / 10, Math.round((x[3] ?? 0) * 20) / 20];
            gains.push(left(plain) - left(drawn));
          }
        },
      ),
      { numRuns: 200, seed: 3 },
    );
    // Not in every case, as steps taken are not taken back; on the whole by far.
    const better = gains.filter((gain) => gain > -1e-9).length;
    expect(better / gains.length).toBeGreaterThan(0.8);
  });
});

it("where slopes lead to where a note is another one, a drawing stays at the dimensions it draws", () => {
  const x = [100.03, 50.04];
  const steps = x.map(() => ({ step: 0.1, offset: 0 }));
  // By the slopes the second would go on for 10 mm or more; half a millimetre on, another resonance is the third note.
  const at = ([first = 0, second = 0]: readonly number[]) => {
    const [a, b] = [first - 100.03, second - 50.04];
    return { cents: [20 - b, b - 20, b > 0.5 ? 90 : 3 * a] };
  };
  const slopes = [
    [0, -1],
    [0, 1],
    [3, 0],
  ];
  const drawn = roundTogether({ at, slopes: () => slopes }, x, steps, [], 1.5);
  expect(largest(at(drawn).cents)).toBeLessThan(21);
});

it("where drawing leaves a note off, no step of one dimension or of two at a time would bring it nearer", () => {
  const steps = [0.1, 0.05, 0.1, 0.05].map((step) => ({ step, offset: 0 }));
  const number = fc.integer({ min: -20, max: 20 });
  const place = fc.double({ min: 5, max: 9, noNaN: true });
  const four = <T>(one: fc.Arbitrary<T>) => fc.array(one, { minLength: 4, maxLength: 4 });
  fc.assert(
    fc.property(fc.array(four(number), { minLength: 4, maxLength: 4 }), four(place), (slopes, x) => {
      const at = (there: readonly number[]) => ({
        cents: slopes.map((row) => row.reduce((sum, slope, i) => sum + slope * ((there[i] ?? 0) - (x[i] ?? 0)), 0)),
      });
      const drawn = roundTogether({ at, slopes: () => slopes }, x, steps, [], 0);
      const worst = (there: readonly number[]) => Math.max(...at(there).cents.map(Math.abs));
      // Nearly as good as the exact dimensions: then nothing more is sought.
      if (worst(drawn) <= 0.15) return;
      const high = (there: readonly number[]) => at(there).cents.reduce((sum, cents) => sum + Math.abs(cents) ** 8, 0);
      for (const [i, first] of steps.entries()) {
        for (const [j, second] of steps.entries()) {
          for (const [a, b] of [
            [0, 1],
            [1, 1],
            [1, -1],
            [-1, 1],
            [-1, -1],
          ] as const) {
            const moved = drawn.map((value, k) => value + (k === i ? a * first.step : k === j ? b * second.step : 0));
            expect(high(moved)).toBeGreaterThan(high(drawn) * 0.998);
          }
        }
      }
    }),
    { numRuns: 40, seed: 5 },
  );
});
