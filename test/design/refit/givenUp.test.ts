/** A refit that ends in no instrument changes nothing but the key, and says why in sizes that somebody could make. */
import { describe, expect, it } from "vitest";
import { rekey } from "../../../server/src/design/rekey/rekey.js";
import { parseNote } from "../../../server/src/music/note.js";
import { fileOf } from "../../support/designs.js";
import { foundIn } from "../../support/found.js";

/** In tune in D5; in G4 the tube, undivided, is longer than the bed. */
const SHORT_BED = `borewright: 1
family: duct
key: D5
air: { temperature: 20 }
mouth: { window: { width: 8.5, cutUp: 4 } }
bore: [{ at: 0, diameter: 13 }, { at: 263.1, diameter: 13 }]
wall: 1.5
holes: [{ name: R1, at: 183.9, diameter: 6.5 }, { name: R2, at: 200.9, diameter: 9.6 }, { name: R3, at: 228.3, diameter: 8 }]
fingerings:
  - { degree: 1, holes: xxx }
  - { degree: 2, holes: xxo }
  - { degree: 3, holes: xoo }
  - { degree: 4, holes: ooo }
print: { bed: [220, 220, 250], nozzle: 0.4 }
refit: { growth: 0.75 }
`;

describe("a rekey that the bed forbids", () => {
  it("does not grow the bore beyond holes that cannot follow", () => {
    const to = parseNote("G4");
    if (to === undefined) throw new Error("no note");
    const { text, moves, remarks } = foundIn(() => rekey(fileOf(SHORT_BED), 0, to, "refit"));
    expect(text).toBe(SHORT_BED.replace("key: D5", "key: G4"));
    expect(moves).toEqual([]);
    expect(remarks.join("\n")).toMatch(/Nothing is changed/);
    expect(remarks.join("\n")).toMatch(/the bed takes/);
    // As the product answers: refused.
    expect(() => rekey(fileOf(SHORT_BED), 0, to, "refit")).toThrow(
      /^A refit of this instrument cannot reach G4.*the bed takes 2\d\d mm/,
    );
    expect(remarks.join("\n")).not.toMatch(/only [01](\.\d)? mm wide/);
  });
});
