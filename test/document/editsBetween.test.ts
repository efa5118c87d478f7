/** What differs between two versions of a design, as edits of the first. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { applyEdits, setNumber } from "../../server/src/document/edits.js";
import { editsBetween } from "../../server/src/document/editsBetween.js";
import { documentOf, fileOf, WHISTLE } from "../support/designs.js";
import { designs, STYLE_NAMES, STYLES } from "../support/generated.js";

const read = (text: string) => documentOf(fileOf(text));

describe("edits between two versions", () => {
  it("are none where nothing changed, be it spaced otherwise", () => {
    const spaced = WHISTLE.replaceAll(", ", ",   ").replace("# harbour workshop\n", "");
    expect(editsBetween(read(WHISTLE), read(WHISTLE))).toEqual([]);
    expect(editsBetween(read(WHISTLE), read(spaced))).toEqual([]);
  });

  it("turn the first into the second, value by value, whatever was changed", () => {
    const changes = fc.array(fc.tuple(fc.nat(), fc.integer({ min: 1, max: 9999 })), { maxLength: 6 });
    fc.assert(
      fc.property(designs, fc.constantFrom(...STYLE_NAMES), changes, (data, style, wanted) => {
        const before = STYLES[style](data);
        let after = before;
        for (const [pick, value] of wanted) {
          const document = read(after);
          const { path } = document.resolution.numbers[pick % document.resolution.numbers.length] ?? { path: [] };
          after = applyEdits(after, setNumber(document, path, value, 0));
        }
        expect(applyEdits(before, editsBetween(read(before), read(after)))).toBe(after);
      }),
      { seed: 41, numRuns: 60 },
    );
  });

  it("leave aliases alone, and change their source once", () => {
    const text = "x: &h { diameter: 7 }\nholes: [*h, { <<: *h }, { diameter: 7 }]\n";
    const edits = editsBetween(read(text), read(text.replace("diameter: 7 }\n", "diameter: 8 }\n")));
    expect(applyEdits(text, edits)).toBe(text.replace("diameter: 7 }\n", "diameter: 8 }\n"));
    expect(edits).toHaveLength(1);
  });

  it("do not see what was added or taken out", () => {
    expect(editsBetween(read("a: 1\nb: 2\n"), read("a: 1\nc: 3\n"))).toEqual([]);
    expect(editsBetween(read("a: 1\n"), read("a: [1]\n"))).toEqual([]);
    expect(editsBetween(read(""), read("a: 1\n"))).toEqual([]);
  });
});
