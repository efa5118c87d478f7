/** The fit of few unknowns to notes of which single ones may be wrong, on residuals that are plain numbers: what it must balance is known. */
import { describe, expect, it } from "vitest";
import { NO_NOTE } from "../../../server/src/design/calibrate/prints.js";
import { robustFit } from "../../../server/src/design/calibrate/robustFit.js";
import type { SharedUnknown } from "../../../server/src/design/calibrate/unknowns.js";

const unknown = (more: Partial<SharedUnknown> = {}): SharedUnknown => ({
  quantity: "mouth",
  path: [],
  before: 0,
  least: -100,
  greatest: 100,
  unit: 1,
  decimals: 4,
  apply: (trial) => trial,
  applyIn: [],
  ...more,
});
/** Cents that a mouth leaves from note to note, and the deviations beyond which a residual's pull grows no more (Huber 1964). */
const [SCATTER, HUBER] = [6, 1.5];
/** One unknown that moves every note by a cent for each of its units. */
const fitted = (cents: readonly number[], uncertainties: readonly number[], more: Partial<SharedUnknown> = {}) =>
  robustFit([unknown(more)], uncertainties, ([x = Number.NaN]) => cents.map((each) => each - x));

describe("a fit", () => {
  it.each<readonly [string, readonly number[], readonly number[]]>([
    ["alike", [3, 5, 7, 9], [0, 0, 0, 0]],
    ["of unlike certainty", [3, 5, 7, 9], [0, 2, 8, 20]],
    ["of which one is wrong", [3, 5, 4, 60], [2, 2, 2, 2]],
    ["of which one is wrong, and another not quite right", [0, 2, -14, 80], [1, 3, 5, 3]],
  ])("balances the pulls of notes %s", (_, cents, uncertainties) => {
    const { values, residuals } = fitted(cents, uncertainties);
    const [x = Number.NaN] = values;
    expect(residuals).toEqual(cents.map((each) => each - x));
    const pulls = residuals.map((cents, i) => {
      const scale = Math.hypot(uncertainties[i] ?? 0, SCATTER);
      return Math.min(HUBER, Math.max(-HUBER, cents / scale)) / scale;
    });
    // Weights count as settled within a hundredth.
    expect(Math.abs(pulls.reduce((sum, each) => sum + each, 0))).toBeLessThan(0.02);
  });

  it("says what is left for each degree of freedom, a wrong note counted less", () => {
    expect(fitted([-3, 0, 3], [0, 0, 0]).perFreedom).toBeCloseTo(3, 6);
    expect(fitted([-3, 0, 3], [5, 5, 5]).perFreedom).toBeCloseTo(3, 6);
    expect(fitted([4], [0]).perFreedom).toBeCloseTo(0, 3);
    const two = robustFit([unknown(), unknown()], [0, 0, 0, 0], ([x = 0, y = 0]) => [x - 1, y - 2, -3, 3]);
    // Two of four notes are met, two unknowns spent: 9 cents² and 9 over two.
    expect(two.perFreedom).toBeCloseTo(3, 6);
    expect(two.values).toEqual([1, 2]);
    const wild = fitted([0, 0, 0, 0, 300], [0, 0, 0, 0, 0]);
    expect(wild.perFreedom).toBeLessThan(0.5 * Math.sqrt(300 ** 2 / 4));
  });

  it("counts in full a note that does not sound, so that it is seen", () => {
    const { perFreedom, residuals } = robustFit([unknown()], [0, 0, 0], ([x = 0]) => [2 - x, 2 - x, NO_NOTE]);
    expect(residuals).toEqual([expect.closeTo(0, 2), expect.closeTo(0, 2), NO_NOTE]);
    expect(perFreedom).toBeCloseTo(NO_NOTE / Math.SQRT2, 0);
  });

  it("stays between the ends of the unknown, and is rounded as it is written", () => {
    expect(fitted([9, 9], [1, 1], { greatest: 5 }).values).toEqual([5]);
    expect(fitted([-9, -9], [1, 1], { least: -5 }).values).toEqual([-5]);
    expect(fitted([1.234567, 1.234567], [1, 1], { decimals: 2 })).toMatchObject({ values: [1.23] });
  });
});
