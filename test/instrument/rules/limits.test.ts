/** limits/reversed: a lower value above the upper one. */
import { describe, it } from "vitest";
import { expectFinding, expectNothing, tube } from "../../support/marked.js";

const hole = (limits: string) => tube(`holes:\n  - { name: L1, at: 200, diameter: 8, limits: ${limits} }\n`);

describe("limits/reversed", () => {
  it("marks the pair of a hole, with both numbers", () => {
    expectFinding(
      hole("{ diameter: [[[9, 7]]] }"),
      "limits/reversed",
      "`limits.diameter` of L1 runs from 9 mm to 7 mm",
    );
    expectFinding(hole('{ at: [[[210, "=200"]]], diameter: [7, 9] }'), "limits/reversed", "from 210 mm to 200 mm");
  });
  it("marks the pair of a station", () => {
    expectFinding(
      tube("bore:\n  - { at: 0, diameter: 16 }\n  - { at: 352, diameter: 16, limits: { at: [[[360, 340]]] } }\n"),
      "limits/reversed",
      "`limits.at` of station 2",
    );
  });
  it("accepts a pair of equal numbers, and ignores what cannot be read", () => {
    expectNothing(hole("{ diameter: [8, 8] }"));
    expectNothing(hole("{ diameter: [7, 9], at: [190, 210] }"));
  });
});
