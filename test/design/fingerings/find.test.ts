/** Fingerings found for a note: what they promise, and that nothing better in every way is passed over. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it, vi } from "vitest";
import { drained } from "../../../server/src/acoustics/steps.js";
import { findFingerings } from "../../../server/src/design/fingerings/find.js";
import { patternSteps } from "../../../server/src/design/fingerings/patterns.js";
import { analyse } from "../../../server/src/design/predict/analyse.js";
import { soundingsOf } from "../../../server/src/design/predict/body.js";
import { strengthOf } from "../../../server/src/design/predict/response.js";
import { centsAbove } from "../../../server/src/music/cents.js";
import { parseNote } from "../../../server/src/music/note.js";
import { frequencyOf } from "../../../server/src/music/tuning.js";
import { documentOf, fileOf } from "../../support/designs.js";

const example = (name: string) => readFileSync(join(import.meta.dirname, "../../../examples", name), "utf8");
const QUAY = example("quay-whistle.bore.yaml");

function foundFor(text: string, notes: readonly string[], options: { most?: number; halfHoles?: boolean } = {}) {
  const analysis = analyse(documentOf(fileOf(text)).resolution.instrument);
  const wanted = notes.map((name) => parseNote(name) ?? expect.fail(name));
  const found = drained(findFingerings(analysis, wanted, { most: 3, halfHoles: true, ...options }));
  return { analysis, found: found ?? expect.fail("nothing to finger") };
}

describe("for a note", () => {
  it("are what players use: cross-fingerings, and the vented octave in the second register", () => {
    // Common practice on six-hole whistles, no source: the lowered seventh ○●●○○○, the octave with the first hole open.
    const { found } = foundFor(QUAY, ["F5", "G5"], { most: 5 });
    const [seventh, octave] = found.map(({ fingerings }) =>
      fingerings.map(({ pattern, register }) => `${pattern} ${register}`),
    );
    expect(seventh).toContain("○●●○○○ 1");
    expect(octave).toEqual(expect.arrayContaining(["●●●●●● 2", "○●●●●● 2"]));
  });

  it("sound as they say once the design has them, in the register that they name", () => {
    const notes = ["C#5", "F5", "Bb5", "Eb6"];
    const { found } = foundFor(QUAY, notes);
    const entries = found.flatMap(({ note, fingerings }) =>
      fingerings.map(
        ({ pattern, register }) => `  - { note: ${note.name}, holes: "${pattern}", register: ${register} }\n`,
      ),
    );
    expect(entries.length).toBe(3 * notes.length);
    const text = QUAY.replace(/fingerings:[^\n]*\n(?: {2}- .*\n)+/, `fingerings:\n${entries.join("")}`);
    const { fingerings } = analyse(documentOf(fileOf(text)).resolution.instrument);
    const promised = found.flatMap((each) => each.fingerings);
    const played = fingerings.map(({ cents = Number.NaN }) => Number(cents.toFixed(6)));
    expect(played).toEqual(promised.map(({ cents }) => Number(cents.toFixed(6))));
    expect(promised.some(({ pattern }) => pattern.includes("◐"))).toBe(true);
  });

  it.each(["quay-whistle.bore.yaml", "lantern-vessel.bore.yaml"])(
    "leave none that is better in every way: %s",
    (name) => {
      const { analysis, found } = foundFor(example(name), ["C5", "Eb5", "F#5", "A5"]);
      const { instrument, air } = analysis;
      const patterns = drained(patternSteps(instrument.holes.length, [], true));
      const queries = patterns.flatMap((covers) => [1, 2].map((register) => ({ index: 0, covers, register })));
      const all = soundingsOf(instrument.body, air, queries);
      for (const { note, fingerings } of found) {
        const [best] = fingerings;
        const hz = frequencyOf(note, instrument.tuning);
        const off = best === undefined ? 50 : Math.abs(best.cents);
        const nearer = queries.filter((query, i) => {
          const sounding = all[i];
          if (sounding === undefined || Math.abs(centsAbove(sounding.frequency, hz)) >= off - 1e-6) return false;
          if (best === undefined) return true;
          // As strong, no half hole, and the same fingers: nothing is left that could stand against it.
          return strengthOf(sounding).strength >= best.strength && query.covers.join() === best.covers.join();
        });
        expect(nearer, note.name).toEqual([]);
      }
    },
  );

  it("say which the design has, and how many fingers move from the note beside it", () => {
    const { found } = foundFor(QUAY, ["A4"], { most: 1 });
    // ●●●●●○ between ●●●●●● and ●●●●○○: one finger.
    expect(found[0]?.fingerings).toMatchObject([{ pattern: "●●●●●○", isInDesign: true, moves: 1 }]);
  });

  it("include no half holes when those are excluded", () => {
    const { found } = foundFor(QUAY, ["Eb5", "Ab4"], { halfHoles: false });
    expect(found[0]?.fingerings.length).toBeGreaterThan(0);
    expect(found.flatMap(({ fingerings }) => fingerings).filter(({ pattern }) => pattern.includes("◐"))).toEqual([]);
    // A lowest hole opened gives a whole tone: what lies between has no fingering of open and closed holes.
    expect(found[1]?.fingerings).toEqual([]);
  });

  it("are none in a pan pipe", () => {
    const { instrument } = documentOf(fileOf(example("breakwater-pipes.bore.yaml"))).resolution;
    expect(drained(findFingerings(analyse(instrument), [], { most: 1, halfHoles: true }))).toBeUndefined();
  });
});

describe("ways to cover the holes", () => {
  it.each([0, 1, 6, 8])("are all there are, with one half at most: %i holes", (holes) => {
    // Each open or closed: 2^n; one of n half, the others open or closed: n 2^(n−1).
    const all = drained(patternSteps(holes, [], true));
    expect(new Set(all.map(String)).size).toBe(2 ** holes + (holes * 2 ** holes) / 2);
    expect(all).toHaveLength(2 ** holes + (holes * 2 ** holes) / 2);
  });

  it("are kept to those near a known one where there are too many", () => {
    const forked = Array.from({ length: 16 }, (_, i) => i % 2);
    const all = drained(patternSteps(16, [forked], true)).map(String);
    expect(all.length).toBeLessThanOrEqual(3000);
    expect(new Set(all).size).toBe(all.length);
    for (const near of [forked, forked.with(3, 0), forked.with(0, 0.9).with(9, 0)]) expect(all).toContain(String(near));
    expect(all).toContain(String(Array.from({ length: 16 }, (_, i) => (i < 5 ? 1 : 0))));
  });
});

it("generates no more patterns of a hundred holes than it evaluates", () => {
  const known = Array.from({ length: 50 }, (_, n) => Array.from({ length: 100 }, (_, i) => (i < 2 * n ? 1 : 0)));
  const made = vi.spyOn(Array.prototype, "with");
  const all = drained(patternSteps(100, known, true));
  expect(all).toHaveLength(3000);
  expect(all.slice(0, 50)).toEqual(known);
  expect(made.mock.calls.length).toBeLessThan(20_000);
  made.mockRestore();
});
