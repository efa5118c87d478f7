/** Notes that are all off alike: made up analyses, of which only the deviations count. */
import { describe, expect, it } from "vitest";
import { drained } from "../../../server/src/acoustics/steps.js";
import type { Analysis } from "../../../server/src/design/predict/analysis.js";
import {
  besideShift,
  commonShift,
  factorSteps,
  scatterBeyond,
  soundingKey,
} from "../../../server/src/design/rekey/commonShift.js";
import { sizeFactor } from "../../../server/src/design/rekey/sizeFactor.js";
import { checked, documentOf, fileOf, WHISTLE } from "../../support/designs.js";
import { note } from "../../support/vessel.js";

const analysis = (...cents: (number | undefined)[]) =>
  ({
    instrument: { key: note("G4") },
    fingerings: cents.map((each) => ({ cents: each, targetHz: each === undefined ? undefined : 440 })),
  }) as unknown as Analysis;

describe("a common shift", () => {
  it("is the median of notes off alike by more than a quarter tone, those that share it by name", () => {
    expect(commonShift(analysis(60, 52, undefined, 70, 56))).toEqual({ cents: 58, fingerings: [0, 1, 3, 4], count: 4 });
    expect(commonShift(analysis(-60, -52, -70))).toEqual({ cents: -60, fingerings: [0, 1, 2], count: 3 });
    // Three quarters of them are enough, and the others are told one by one.
    expect(commonShift(analysis(60, 61, 62, 0))).toEqual({ cents: 60.5, fingerings: [0, 1, 2], count: 4 });
  });
  it("is none for few notes, small shifts, or notes that scatter", () => {
    expect(commonShift(analysis(80, 80))).toBeUndefined();
    expect(commonShift(analysis(50, 50, 50))).toBeUndefined();
    expect(commonShift(analysis(51, 51, 51))?.cents).toBe(51);
    expect(commonShift(analysis(60, 60, 0, 0))).toBeUndefined();
    // 25 cents from the median share it, and of a far one a quarter of the shift.
    expect(commonShift(analysis(60, 60, 60, 85))?.fingerings).toEqual([0, 1, 2, 3]);
    expect(commonShift(analysis(60, 60, 60, 86))?.fingerings).toEqual([0, 1, 2]);
    expect(commonShift(analysis(-400, -400, -400, -499))?.fingerings).toEqual([0, 1, 2, 3]);
    expect(commonShift(analysis(-400, -400, -400, -501))?.fingerings).toEqual([0, 1, 2]);
  });
  it("tells its scatter where a change of size leaves more than it may", () => {
    const far = analysis(-400, -400, -400, -459);
    expect(scatterBeyond(far, { cents: -400, fingerings: [0, 1, 2, 3], count: 4 })).toBe(59);
    expect(scatterBeyond(far, { cents: -400, fingerings: [0, 1, 2], count: 4 })).toBeUndefined();
    expect(scatterBeyond(analysis(75), { cents: 100, fingerings: [0], count: 1 })).toBeUndefined();
  });
  it("moves every target, so that what is left is off against the others", () => {
    const beside = besideShift(analysis(1260, 1190, undefined), 1200);
    // 1200 cents are an octave.
    expect(beside.fingerings.map(({ cents, targetHz }) => [cents, targetHz])).toEqual([
      [60, expect.closeTo(880, 9)],
      [-10, expect.closeTo(880, 9)],
      [undefined, undefined],
    ]);
  });
  it("asks for the size at which the notes that share it come right", () => {
    const { resolution } = documentOf(fileOf(WHISTLE));
    const whole = checked(WHISTLE).analysis;
    const shift = { cents: 0, fingerings: [2], count: whole.fingerings.length };
    const factor = drained(factorSteps(resolution, whole, shift));
    expect(factor).toBe(sizeFactor(resolution, whole, { among: new Set([2]) }));
    expect(factor).not.toBeCloseTo(sizeFactor(resolution, whole, {}), 4);
  });
  it("names the key that the instrument sounds in, where it is near one", () => {
    const shift = (cents: number) => soundingKey(analysis(), { cents, fingerings: [], count: 0 })?.name;
    expect([shift(110), shift(-80), shift(225), shift(226), shift(-150)]).toEqual([
      "Ab4",
      "F#4",
      "A4",
      undefined,
      undefined,
    ]);
    const keyless = { instrument: {}, fingerings: [] } as unknown as Analysis;
    expect(soundingKey(keyless, { cents: 100, fingerings: [], count: 0 })).toBeUndefined();
  });
});
