/** Oval, undercut and raised holes: how they reach the air column, and what cannot be made. */
import { describe, expect, it } from "vitest";
import { columnOf, expectFinding, expectNot, expectNothing, tube } from "../../support/marked.js";

const holes = (...entries: readonly string[]) =>
  tube(`holes:\n${entries.map((entry) => `  - { ${entry} }`).join("\n")}`);
const holeOf = (entry: string, rest = "") => columnOf(tube(`${rest}holes:\n  - { at: 170, ${entry} }`)).holes[0];

describe("a shaped hole as printed", () => {
  it("has its half-axes in metres, and equals a round one where nothing is written", () => {
    expect(holeOf("diameter: 6")).toEqual({ x: 0.17, radius: 0.003, chimney: 0.003, angle: 0 });
    expect(holeOf("diameter: 6, length: 6, undercut: 0, raised: 0")).toEqual(holeOf("diameter: 6"));
    const shaped = holeOf("diameter: 6, length: 8, undercut: 1, chimney: 5, raised: 2");
    expect(shaped?.radius).toBeCloseTo(0.003, 12);
    expect(shaped?.halfLength).toBeCloseTo(0.004, 12);
    expect(shaped?.undercut).toBeCloseTo(0.0005, 12);
    expect(shaped?.raised).toBeCloseTo(0.002, 12);
  });
  it("stands on the wall where its chimney is left out", () => {
    expect(holeOf("diameter: 6, raised: 2")?.chimney).toBeCloseTo(0.005, 12);
  });
  it("comes out narrower by the undersize all round, and as much undercut", () => {
    const shaped = holeOf("diameter: 6, length: 8, undercut: 1", "print: { holeUndersize: 0.2 }\n");
    expect(shaped?.radius).toBeCloseTo(0.0029, 12);
    expect(shaped?.halfLength).toBeCloseTo(0.0039, 12);
    expect(shaped?.undercut).toBeCloseTo(0.0005, 12);
  });
});

describe("shaped holes that cannot be made", () => {
  it("are wider than the bore by their undercut", () => {
    expectFinding(
      holes("name: L1, at: 170, diameter: 15, undercut: [[1.5]]"),
      "hole/wider-than-bore",
      "L1 is 16.5 mm wide at the bore, and the bore there is only 16 mm. Undercut it less.",
    );
    expectNot(holes("at: 170, diameter: 15, undercut: 1"), "hole/wider-than-bore");
  });
  it("stand up by more than their whole chimney", () => {
    expectFinding(holes("at: 170, diameter: 6, chimney: 4, raised: [[4]]"), "value/out-of-range", "make it longer");
    expectNothing(holes("at: 170, diameter: 6, chimney: 4, raised: 3"));
  });
  it("run into each other along the bore, not beside it", () => {
    expectFinding(
      holes("at: 170, diameter: 6, length: 10", "at: [[179]], diameter: 6, length: 10"),
      "hole/overlap",
      "overlap by 1 mm",
    );
    expectNothing(holes("at: 170, diameter: 6", "at: 179, diameter: 6"));
    expectNothing(holes("at: 170, diameter: 10, length: 6", "at: 179, diameter: 10, length: 6"));
  });
  it("run over the foot by their length", () => {
    expectFinding(holes("at: [[348]], diameter: 6, length: 10"), "hole/outside-bore", "Move it to 347 mm or less");
    expectNot(holes("at: 348, diameter: 6"), "hole/outside-bore");
  });
  it("have a negative undercut", () => {
    expectFinding(holes("at: 170, diameter: 6, undercut: [[-1]]"), "value/out-of-range");
  });
});

describe("shaped holes of a vessel", () => {
  const vessel = (hole: string) =>
    "borewright: 1\nfamily: vessel\nvessel: { shape: sphere, diameter: 60 }\nwall: 4\n" +
    `mouth: { window: { width: 8, cutUp: 5 } }\nholes:\n  - { diameter: 7${hole} }\n`;
  it("are reported as treated as round", () => {
    expectFinding(vessel(", length: [[9]]"), "model/out-of-range", "treated as round, by its `diameter` alone");
    expectFinding(vessel(", undercut: [[1]]"), "model/out-of-range", "not undercut");
    expectNothing(vessel(", undercut: 0, length: 7"));
  });
});
