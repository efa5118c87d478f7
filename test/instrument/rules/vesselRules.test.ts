/** vessel/… and what of hole/… and mouth/… is a vessel's own: each at its place, with its numbers. */
import { describe, expect, it } from "vitest";
import { vessel } from "../../support/families.js";
import { codesOf, expectFinding, expectNot } from "../../support/marked.js";

const among = { alone: false };
const withMouth = (mouth: string, entries = "holes: []") =>
  vessel(entries).replace("window: { width: 9, cutUp: 5 }", mouth);

describe("vessel/size", () => {
  const EACH = "`length: 90`, `width: 60` and `height: 45`";
  it.each([
    ["[[shape]]: sphere", "A sphere is measured by its inner `diameter: 58`; or give the `volume` alone."],
    ["[[shape]]: tube, length: 90", "A tube is measured by its inner `length: 90` and `diameter: 40`"],
    ["[[shape]]: cylinder, diameter: 90", "A tube is measured by"],
    ["[[shape]]: ellipsoid, width: 50", `An ellipsoid is measured by its inner ${EACH}`],
    ["[[shape]]: box, length: 50", `A box is measured by its inner ${EACH}`],
  ])("{ %s }", (sizes, says) => expectFinding(vessel("", sizes), "vessel/size", says));
  it.each(["length", "width", "height", "diameter"])("has no volume and a lone %s besides", (name) => {
    const [shape, other] = name === "diameter" ? ["tube", "length"] : ["sphere", "diameter"];
    expectFinding(vessel("", `volume: 80, [[shape]]: ${shape}, ${name}: 50`), "vessel/size");
    expectNot(vessel("", `volume: 80, shape: ${shape}, ${name}: 50, ${other}: 50`), "vessel/size");
    expectNot(vessel("", `volume: 80, shape: ${shape}`), "vessel/size");
  });
  it("is asked for where there is neither", () => {
    expectFinding(
      vessel("").replace(/vessel: \{.*\}/, "[[vessel]]: { mouthAt: side }"),
      "vessel/size",
      "How large is the chamber?",
    );
    expect(codesOf(vessel("", "diameter: 60"))).toEqual([]);
  });
});

describe("vessel/opening-too-wide", () => {
  it("marks a mouth as wide as the chamber, window or hole", () => {
    const says = "The mouth is 45 mm wide and the chamber itself only 45 mm. Make the opening narrower.";
    expectFinding(withMouth("window: [[{ width: 45, cutUp: 5 }]]"), "vessel/opening-too-wide", says, among);
    expectFinding(withMouth("hole: [[{ length: 5, width: 45 }]]"), "vessel/opening-too-wide", says, among);
    expectNot(withMouth("window: { width: 44.9, cutUp: 5 }"), "vessel/opening-too-wide");
  });
  it("marks a hole as wide as a tube is, whatever its length", () => {
    const tube = "shape: tube, length: 90, diameter: 20";
    const hole = (diameter: string) => vessel(`holes: [{ name: A, at: 40, diameter: ${diameter} }]`, tube);
    expectFinding(hole("[[20]]"), "vessel/opening-too-wide", "A is 20 mm wide", among);
    expectNot(hole("19.9"), "vessel/opening-too-wide");
  });
});

describe("hole/overlap round a vessel", () => {
  const two = (one: string, other: string) =>
    vessel(`holes:\n  - { name: A, angle: 90, diameter: ${one} }\n  - { name: B, ${other} }`);
  it("marks the later of two, and a hole that the mouth runs into", () => {
    const says = "B and A run into each other. Give them other `angle`s round the vessel, or make one smaller.";
    expectFinding(two("6", "angle: 100, diameter: [[6]]"), "hole/overlap", says, among);
    expectFinding(two("6", "angle: 8, diameter: [[6]]"), "hole/overlap", "B and the mouth run into", among);
    // Apart by their elevation.
    expectNot(two("6", "angle: 100, elevation: 60, diameter: 6"), "hole/overlap");
  });
  it("does not depend on directions in a tube", () => {
    const tube = "shape: tube, length: 90, diameter: 40";
    const text = "holes:\n  - { at: 20, angle: 90, diameter: 6 }\n  - { at: 60, angle: 90, diameter: 6 }";
    expectNot(vessel(text, tube), "hole/overlap");
  });
});

describe("mouth/kind of a vessel", () => {
  it.each([
    ["window: { width: 9, cutUp: 5 }, [[hole]]: { diameter: 9 }", "`window` and `hole` exclude each other"],
    ["window: { width: 9, cutUp: 5 }, [[correction]]: 20", "`window` and `correction` exclude each other"],
    ["[[correction]]: 20", "how wide and how deep it is decides the pitch"],
  ])("{ %s }", (mouth, says) => expectFinding(withMouth(mouth), "mouth/kind", says));
  it("is asked for where nothing is said about it", () => {
    expectFinding(vessel("holes: []").replace(/mouth: .*/, "mouth: [[{ extra: 0 }]]"), "mouth/kind", "by `window:");
  });
});

describe("vessel/hole-place and model/out-of-range", () => {
  it("mark what does nothing where the hole is", () => {
    expectFinding(vessel("holes: [{ name: A, diameter: 6, [[at]]: 20 }]"), "vessel/hole-place", "`at` of A");
    const tube = "shape: tube, length: 90, diameter: 40";
    const raised = "holes: [{ name: A, at: 20, diameter: 6, [[elevation]]: 20 }]";
    expectFinding(vessel(raised, tube), "vessel/hole-place", "`elevation` of A does nothing in a tube");
  });
  it("mark shapes that are treated as round and straight", () => {
    const hole = (more: string) => vessel(`holes: [{ name: A, diameter: 6, ${more} }]`);
    expectFinding(hole("length: [[8]]"), "model/out-of-range", "by its `diameter` alone", among);
    expectFinding(hole("undercut: [[0.5]]"), "model/out-of-range", "and not undercut", among);
    expectNot(hole("length: 6"), "model/out-of-range");
  });
});
