/** The factor by which a design must grow for a key. */
import { expect, it } from "vitest";
import { Cancelled } from "../../../server/src/acoustics/cancelled.js";
import { sizeFactor } from "../../../server/src/design/rekey/sizeFactor.js";
import { checked, documentOf, fileOf, WHISTLE } from "../../support/designs.js";
import { note } from "../../support/vessel.js";

const { resolution } = documentOf(fileOf(WHISTLE));
const { analysis } = checked(WHISTLE);

it("is near the interval, and more for what is lost at the walls of a smaller one", () => {
  const octave = sizeFactor(resolution, analysis, { key: note("G5") });
  expect(octave).toBeLessThan(0.51);
  expect(octave).toBeGreaterThan(0.48);
});

it.each(["G5", "C4", "Ab4"])("is where the notes average zero in %s, to a hundredth of a cent", (key) => {
  const factor = sizeFactor(resolution, analysis, { key: note(key) });
  const there = checked(
    WHISTLE.replace("key: G4", `key: ${key}`)
      // The whistle's only note that is no degree is a fifth above its key.
      .replace("note: D5", "degree: 5")
      .concat(`print: { scale: ${100 * factor} }\n`),
  ).analysis;
  expect(Math.abs(there.summary?.meanCents ?? 99)).toBeLessThan(0.02);
});

it("counts the notes that are asked for, and none that does not sound", () => {
  const among = (...indices: readonly number[]) => sizeFactor(resolution, analysis, { among: new Set(indices) });
  const off = (index: number) => analysis.fingerings[index]?.cents ?? Number.NaN;
  // Pitch follows size by one cent a cent, or nearly so where walls and undersize stay.
  for (const index of [0, 4]) expect(1200 * Math.log2(among(index))).toBeCloseTo(off(index), 0);
  expect(1200 * Math.log2(among(0, 4))).toBeCloseTo((off(0) + off(4)) / 2, 0);
  const silent = { ...analysis, fingerings: analysis.fingerings.map((each) => ({ ...each, isBeyondBudget: true })) };
  expect(sizeFactor(resolution, silent, {})).toBe(1);
});

it("is the ratio of the targets where nothing sounds, and 1 where there are none", () => {
  const blank = WHISTLE.replace("at: 394.1", "at: ");
  const unknown = documentOf(fileOf(blank)).resolution;
  const silent = checked(blank).analysis;
  // Two whole tones of equal temperament: 2^(4/12).
  expect(sizeFactor(unknown, silent, { key: note("Eb4") })).toBeCloseTo(2 ** (4 / 12), 9);
  // By the first fingering that has a target.
  const first = {
    ...silent,
    fingerings: silent.fingerings.map((each, i) => (i === 0 ? { ...each, targetHz: undefined } : each)),
  };
  expect(sizeFactor(unknown, first, { key: note("Eb4") })).toBeCloseTo(2 ** (4 / 12), 9);
  expect(sizeFactor(unknown, { ...silent, fingerings: [] }, { key: note("Eb4") })).toBe(1);
});

it("is not worked out to the end where nobody waits for it", () => {
  const size = { key: note("G5"), shouldStop: () => true };
  expect(() => sizeFactor(resolution, analysis, size)).toThrow(Cancelled);
});
