import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { centsAbove, centsOfRatio } from "../../server/src/music/cents.js";
import { noteFromMidi, parseNote } from "../../server/src/music/note.js";
import { TEMPERAMENT_NAMES, temperamentCents } from "../../server/src/music/temperament.js";
import { frequencyOf, ISO_16_HZ, nearestNote, type Tuning } from "../../server/src/music/tuning.js";

const equal: Tuning = { cents: temperamentCents("equal"), root: 0, pitchStandard: ISO_16_HZ };

const hz = (name: string, tuning: Tuning = equal) => {
  const note = parseNote(name);
  if (note === undefined) throw new Error(name);
  return frequencyOf(note, tuning);
};

describe("frequencies", () => {
  it("sets A4 to 440 Hz (ISO 16:1975)", () => {
    expect(hz("A4")).toBe(440);
  });

  it("keeps A4 at the pitch standard in every temperament and on every root", () => {
    for (const name of TEMPERAMENT_NAMES)
      for (let root = 0; root < 12; root++)
        expect(hz("A4", { cents: temperamentCents(name), root, pitchStandard: 415 })).toBeCloseTo(415, 9);
  });

  it("makes a pure 5:4 third on the root of just intonation, 13.686 cents narrower than the equal one", () => {
    const just: Tuning = { cents: temperamentCents("just"), root: 7, pitchStandard: 440 };
    const pure = centsAbove(hz("B4", just), hz("G4", just));
    expect(pure).toBeCloseTo(centsOfRatio(5 / 4), 9);
    expect(centsAbove(hz("B4"), hz("G4")) - pure).toBeCloseTo(13.686, 3);
  });

  it("makes a minor seventh of 9:5 and a minor third of 6:5 on that root, and on no other", () => {
    for (const [root, from, third, seventh] of [
      [2, "D4", "F4", "C5"],
      [10, "Bb4", "Db5", "Ab5"],
    ] as const) {
      const just: Tuning = { cents: temperamentCents("just"), root, pitchStandard: 440 };
      expect(centsAbove(hz(third, just), hz(from, just))).toBeCloseTo(centsOfRatio(6 / 5), 9);
      expect(centsAbove(hz(seventh, just), hz(from, just))).toBeCloseTo(centsOfRatio(9 / 5), 9);
    }
  });
});

describe("nearest note", () => {
  it("is undefined for what is not a frequency and beyond the range of notes", () => {
    for (const hertz of [0, -1, Number.NaN, Number.POSITIVE_INFINITY, 1e-3, 1e6])
      expect(nearestNote(hertz, equal)).toBeUndefined();
  });

  it("finds the note and the deviation from it", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 40, max: 100 }),
        fc.double({ min: -39, max: 39, noNaN: true }),
        fc.constantFrom(...TEMPERAMENT_NAMES),
        fc.integer({ min: 0, max: 11 }),
        (midi, cents, name, root) => {
          const tuning: Tuning = { cents: temperamentCents(name), root, pitchStandard: 442 };
          const note = noteFromMidi(midi);
          if (note === undefined) return;
          const near = nearestNote(frequencyOf(note, tuning) * 2 ** (cents / 1200), tuning);
          // The narrowest semitone of these rows (quarter-comma meantone) is 76 cents, so that 38 either way is certain.
          if (Math.abs(cents) > 38) return;
          expect(near?.note.midi).toBe(midi);
          expect(near?.cents).toBeCloseTo(cents, 6);
        },
      ),
    );
  });

  it("is the nearest in the temperament, though another is nearer in the equal one", () => {
    for (const name of TEMPERAMENT_NAMES) {
      const tuning: Tuning = { cents: temperamentCents(name), root: 0, pitchStandard: ISO_16_HZ };
      const all = Array.from({ length: 24 }, (_, i) => noteFromMidi(60 + i)).flatMap((note) => note ?? []);
      for (let cents = 300; cents < 1700; cents += 7) {
        const frequency = hz("C4") * 2 ** (cents / 1200);
        const least = Math.min(...all.map((note) => Math.abs(centsAbove(frequency, frequencyOf(note, tuning)))));
        expect(Math.abs(nearestNote(frequency, tuning)?.cents ?? Number.NaN)).toBeCloseTo(least, 9);
      }
    }
  });

  it.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY, 1e-9, 1e9])("knows no note at %f Hz", (frequency) => {
    expect(nearestNote(frequency, equal)).toBeUndefined();
  });
});
