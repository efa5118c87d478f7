/** What a textbook tube plays at a size, and the sizes of the keys beside it. */
import { describe, expect, it } from "vitest";
import { Cancelled } from "../../../server/src/acoustics/cancelled.js";
import { sizesOf } from "../../../server/src/design/scale/atSize.js";
import { checked, documentOf, fileOf } from "../../support/designs.js";
import { note } from "../../support/vessel.js";

/** Three cents flat as drawn. */
const TEXT = `borewright: 1
family: duct
key: G4
mouth: ideal
bore: [{ at: 0, diameter: 16 }, { at: 431, diameter: 16 }]
wall: 3
fingerings: [{ degree: 1 }]
print: { nozzle: 0.4 }
`;
const sizes = (shouldStop?: () => boolean) =>
  sizesOf(documentOf(fileOf(TEXT)).resolution, checked(TEXT).analysis, shouldStop);

describe("at a size", () => {
  const { at, percentFor } = sizes();
  const told = (percent: number) => {
    const { plays, keys } = at(percent);
    return [plays?.key.name, keys.map(({ key }) => key.name)];
  };

  it("on the note it plays that key, and those beside it are told, the lowest first", () => {
    expect(told(100)).toEqual(["G4", ["F#4", "G4", "Ab4"]]);
    expect(told(percentFor(note("A4")))).toEqual(["A4", ["Ab4", "A4", "Bb4"]]);
  });
  it("between two keys both are told, the lower first", () => {
    expect(told(98)).toEqual(["G4", ["G4", "Ab4"]]);
    expect(told(96)).toEqual(["Ab4", ["G4", "Ab4"]]);
  });
  it("each key has the size at which it plays in tune, a semitone for a semitone", () => {
    for (const { key, percent } of at(98).keys) {
      expect(percent).toBe(percentFor(key));
      expect(Math.abs(at(percent).plays?.cents ?? 99)).toBeLessThan(0.2);
    }
    expect(percentFor(note("F#4")) / percentFor(note("G4"))).toBeCloseTo(2 ** (1 / 12), 2);
  });
  it("where nothing sounds no key is told, but how long it is", () => {
    const { plays, keys, length } = at(1);
    expect([plays, keys]).toEqual([undefined, []]);
    expect(length).toBeCloseTo(0.00431, 9);
  });
  it("hands and printer are told what they find at that size, and nothing else of the design", () => {
    const text = TEXT.replace("fingerings: [{ degree: 1 }]", "nme: Mole\nfingerings: [{ degree: 1 }]");
    const { resolution } = documentOf(fileOf(text));
    const own = sizesOf(resolution, checked(text).analysis);
    expect(resolution.findings.map(({ code }) => code)).toContain("schema/unknown-property");
    expect(own.at(100).findings).toEqual([]);
    // A wall of 0.3 mm, under a nozzle of 0.4.
    expect(own.at(10).findings.map(({ code }) => code)).toEqual(["print/wall-too-thin"]);
  });
  it("stops when told to", () => {
    expect(() => sizes(() => true).at(98)).toThrow(Cancelled);
  });
});
