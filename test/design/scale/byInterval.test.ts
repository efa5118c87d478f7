/** Sizes by the interval alone. Outside value: a semitone of equal temperament is the twelfth root of two (ISO 16 for A4). */
import { describe, expect, it } from "vitest";
import { centsBetween, centsOfSize, percentByInterval, soundsAt } from "../../../server/src/design/scale/byInterval.js";
import { note } from "../../support/vessel.js";

const SEMITONE = 2 ** (1 / 12);

describe("a size by the interval", () => {
  it("is one over the frequency's growth for a tube, and follows the stated power", () => {
    expect(percentByInterval(note("G4"), note("G5"))).toBeCloseTo(50, 9);
    expect(percentByInterval(note("G4"), note("F#4"))).toBeCloseTo(100 * SEMITONE, 9);
    expect(percentByInterval(note("G4"), note("G5"), -1.5)).toBeCloseTo(100 * 2 ** (-1 / 1.5), 9);
    expect([centsBetween(note("G4"), note("G5")), centsBetween(note("G4"), note("F4"))]).toEqual([
      expect.closeTo(1200, 9),
      expect.closeTo(-200, 9),
    ]);
    expect([centsOfSize(50), centsOfSize(200), centsOfSize(50, -2)]).toEqual([
      expect.closeTo(1200, 9),
      expect.closeTo(-1200, 9),
      expect.closeTo(2400, 9),
    ]);
  });
  it("plays a note with its neighbours, or lies between two", () => {
    const told = (percent: number, power?: number) => {
      const found = soundsAt(note("G4"), percent, power);
      return found && [found.plays.name, Number(found.cents.toFixed(1)), found.sizes.map(({ to }) => to.name)];
    };
    expect(told(100 / SEMITONE)).toEqual(["Ab4", 0, ["G4", "Ab4", "A4"]]);
    // 1200 log₂ 0.97 = −52.7 cents, 47.3 flat of the semitone above.
    expect(told(97)).toEqual(["Ab4", -47.3, ["G4", "Ab4"]]);
    expect(told(103)).toEqual(["F#4", 48.8, ["F#4", "G4"]]);
    expect(told(100 * 2 ** (-4.9 / 1200))).toEqual(["G4", 4.9, ["F#4", "G4", "Ab4"]]);
    expect(told(100 * 2 ** (-5.1 / 1200))).toEqual(["G4", 5.1, ["G4", "Ab4"]]);
    expect(told(50, -2)).toEqual(["G6", 0, ["F#6", "G6", "Ab6"]]);
    expect(told(1e-6)).toBeUndefined();
    expect(soundsAt(note("G4"), 97)?.sizes.map(({ percent }) => percent)).toEqual([
      expect.closeTo(100, 9),
      expect.closeTo(100 / SEMITONE, 9),
    ]);
  });
});
