/** Searches over keys and sizes, asked of made-up instruments. */
import { describe, expect, it } from "vitest";
import type { Analysis } from "../../../server/src/design/predict/analysis.js";
import { rivalOf } from "../../../server/src/design/predict/rival.js";
import { bestSize, staysAsItIs } from "../../../server/src/design/rekey/bestSize.js";
import { nearestKey, type Prospect } from "../../../server/src/design/rekey/nearestKey.js";
import { note } from "../../support/vessel.js";

describe("the nearest possible key", () => {
  function search(own: string, asked: string, prospect: (midi: number) => Prospect) {
    const seen: string[] = [];
    const key = nearestKey(note(own), note(asked), (each) => {
      seen.push(each.name);
      return prospect(each.midi);
    });
    return { key: key?.name, seen };
  }
  const only =
    (name: string, otherwise: Prospect = "cannot") =>
    (midi: number) =>
      midi === note(name).midi ? "can" : otherwise;

  it("is looked for on both sides, the design's own first", () => {
    expect(search("G4", "C5", only("Eb5"))).toEqual({ key: "Eb5", seen: ["B4", "C#5", "Bb4", "D5", "A4", "Eb5"] });
    expect(search("G5", "C5", only("Bb4"))).toEqual({ key: "Bb4", seen: ["C#5", "B4", "D5", "Bb4"] });
    // Of two equally near the one toward its own.
    expect(search("G4", "C5", () => "can").key).toBe("B4");
    expect(search("G5", "C5", () => "can").key).toBe("C#5");
    expect(search("C5", "C5", () => "can").key).toBe("C#5");
  });
  it("is not sought farther where it is hopeless, but toward the design's own key", () => {
    const { key, seen } = search("Bb4", "C5", (midi) =>
      midi === note("G4").midi ? "can" : midi > note("C5").midi ? "hopeless" : "cannot",
    );
    expect({ key, seen }).toEqual({ key: "G4", seen: ["B4", "C#5", "Bb4", "A4", "Ab4", "G4"] });
    // Hopeless on the way home ends nothing; beyond home it does.
    expect(search("Bb4", "C5", () => "hopeless").seen).toEqual(["B4", "C#5", "Bb4", "A4"]);
    expect(search("D5", "C5", () => "hopeless").seen).toEqual(["C#5", "B4", "D5", "Eb5"]);
  });
  it("is no more than an octave away", () => {
    expect(search("G4", "C5", only("C4")).key).toBe("C4");
    expect(search("G4", "C5", only("B3")).key).toBeUndefined();
    expect(search("G4", "C5", only("C6")).key).toBe("C6");
  });
});

describe("the best size", () => {
  const sized = (mean: (factor: number) => number | undefined) => {
    const asked: number[] = [];
    const found = bestSize((factor) => {
      asked.push(factor);
      const meanCents = mean(factor);
      return { after: { summary: meanCents === undefined ? undefined : { meanCents } } as Analysis };
    }, 1);
    return { factor: found?.factor, asked };
  };
  /** Cents of a tube whose length goes by the factor. */
  const tube = (factor: number) => 100 - 1200 * Math.log2(factor);

  it("is where the notes are right on average, found by the cents that they are off", () => {
    const { factor, asked } = sized(tube);
    expect(factor).toBeCloseTo(2 ** (1 / 12), 6);
    expect(asked).toHaveLength(2);
    // Undersized holes make it follow by less.
    const slow = sized((each) => 0.8 * tube(each));
    expect(slow.factor).toBeCloseTo(2 ** (1 / 12), 5);
    expect(slow.asked.length).toBeLessThan(9);
  });
  it("stays where it is right at once, within half a cent", () => {
    expect(sized(() => 0.49)).toEqual({ factor: 1, asked: [1] });
    expect(sized((factor) => 0.6 - 1200 * Math.log2(factor)).asked).toHaveLength(2);
  });
  it("is sought around where roundings let it jump, by steps of 0.4 cents to 3.2 either way", () => {
    const cents = (factor: number) => 1200 * Math.log2(factor);
    // Five cents sharp everywhere but at one size: eight rounds lead to 40 cents.
    const jumping = (right: number) => sized((factor) => (Math.abs(cents(factor) - right) < 0.1 ? 0.1 : 5));
    for (const [right, asked] of [
      [41.2, 6],
      [38.8, 5],
      [36.8, 15],
      [43.2, 16],
    ] as const) {
      const found = jumping(right);
      expect(cents(found.factor ?? 0)).toBeCloseTo(right, 6);
      expect(found.asked).toHaveLength(8 + asked);
    }
    expect(jumping(43.6)).toMatchObject({ factor: 1, asked: { length: 8 + 16 } });
  });
  it("is none where nothing sounds", () => expect(sized(() => undefined).factor).toBeUndefined());
  it("is as it is within what is right on average, of a redraw within what its roundings leave", () => {
    const stays = (meanCents: number | undefined, by: "print-scale" | "redraw") =>
      staysAsItIs({ summary: meanCents === undefined ? undefined : { meanCents } } as Analysis, by);
    expect([0.5, -0.5, 0.51, undefined].map((cents) => stays(cents, "print-scale"))).toEqual([true, true, false, true]);
    expect([3, -3, 3.1].map((cents) => stays(cents, "redraw"))).toEqual([true, true, false]);
  });
});

describe("a second resonance", () => {
  const rival = (resistance: number, frequency = 880) =>
    rivalOf({ resonance: { frequency: 440, resistance: 3, rival: { frequency, resistance } } as never });
  it("is reported up to twice the resistance, an octave being 1200 cents", () => {
    expect(rival(6)).toEqual({ frequency: 880, cents: expect.closeTo(1200, 9), isStronger: false });
    expect(rival(2.9, 220)).toEqual({ frequency: 220, cents: expect.closeTo(-1200, 9), isStronger: true });
    expect(rival(3)?.isStronger).toBe(false);
    expect(rival(6.01)).toBeUndefined();
    expect(rivalOf({ resonance: { frequency: 440, resistance: 3 } as never })).toBeUndefined();
    expect(rivalOf({ resonance: undefined })).toBeUndefined();
  });
});
