/** Sizes that make no instrument: found where they stand, and no work is wasted on them. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { checked } from "../../support/designs.js";
import { expectFinding, expectNothing, tube } from "../../support/marked.js";

const hole = (diameter: string) => `holes:\n  - { name: A, at: 200, diameter: ${diameter} }\n`;

describe("sizes beyond any instrument", () => {
  it.each([
    ["mouth: { correction: [[1e9]] }\n", "at most 20000 mm"],
    ["mouth: { window: { width: 9, cutUp: [[1e-6]] } }\n", "at least 0.01 mm"],
    ["wall: [[1e6]]\n", "at most 20000 mm"],
    ["bore:\n  - { at: 0, diameter: 16 }\n  - { at: [[1e300]], diameter: 16 }\n", "decimal point missing"],
    [hole("[[1e-5]]"), "`diameter` of A must be at least 0.01 mm"],
  ])("%s", (changes, says) => {
    expectFinding(tube(changes), "value/out-of-range", says);
  });

  it("are given in the unit of the design", () => {
    expectFinding(tube("units: in\nwall: [[1000]]\n"), "value/out-of-range", "at most 787.4 in", { alone: false });
  });

  it("do not concern limits, hands or printer", () => {
    expectNothing(tube("print: { bed: [30000, 30000, 30000] }\n"));
  });

  it("whatever the numbers, the analysis comes to an end without an error", () => {
    const size = fc.double({ min: -1, max: 12, noNaN: true }).map((power) => (10 ** power / 1e4).toPrecision(4));
    fc.assert(
      fc.property(size, size, size, size, size, (bore, length, width, at, wall) => {
        const text = tube(
          `mouth: { window: { width: ${width}, cutUp: ${width} } }\nwall: ${wall}\nbore:\n  - { at: 0, diameter: ${bore} }\n  - { at: ${length}, diameter: ${bore} }\n` +
            `holes:\n  - { name: A, at: ${at}, diameter: ${width} }\nfingerings: [{ degree: 1, holes: ● }, { degree: 2, holes: ○ }]\n`,
        );
        expect(checked(text).analysis.fingerings.length).toBe(2);
      }),
      { numRuns: 150 },
    );
  });
});
