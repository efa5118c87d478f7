/** Why one dimension alone may not take a value: bounds worked out by hand from the drawing. */
import { describe, expect, it } from "vitest";
import { constraintsOf } from "../../../server/src/design/constraints/constraints.js";
import { forbidden, forbiddenWidths, nameOf } from "../../../server/src/design/constraints/forbidden.js";
import type { Unknown, UnknownKind } from "../../../server/src/design/constraints/unknowns.js";
import { checked, documentOf, fileOf } from "../../support/designs.js";
import { vessel } from "../../support/families.js";
import { tube } from "../../support/marked.js";

const HOLES =
  "holes:\n  - { name: L1, at: 120, diameter: 6 }\n  - { name: L2, at: 150, diameter: 8 }\nprint: { holeGap: 10 }\n";
const unknown = (kind: UnknownKind, index: number): Unknown => ({
  kind,
  index,
  path: kind.startsWith("hole") ? ["holes", index, "at"] : ["bore", index, "at"],
});
const said = (text: string, kind: UnknownKind, index: number, mm: number) =>
  forbidden(checked(text).analysis, constraintsOf(documentOf(fileOf(text))), unknown(kind, index), mm / 1e3);

describe("a dimension of a tube", () => {
  it("may take what leaves wall enough, and not more", () => {
    const text = tube(HOLES);
    // 10 mm of wall beside radii of 3 and 4.
    expect(said(text, "hole-place", 0, 133)).toBeUndefined();
    expect(said(text, "hole-place", 0, 133.01)).toMatch(/^L1 and L2 would have only 10 mm of wall between them$/);
    expect(said(text, "hole-place", 0, 135)).toBe("L1 and L2 would have only 8 mm of wall between them");
    expect(said(text, "hole-radius", 1, 17 - 0.001)).toMatch(/wide/);
  });
  it("that exceeds a limit already may not exceed it further", () => {
    const text = tube(HOLES.replace("at: 120", "at: 135"));
    expect(said(text, "hole-place", 0, 134)).toBeUndefined();
    expect(said(text, "hole-place", 0, 135)).toBeUndefined();
    expect(said(text, "hole-place", 0, 135.1)).toMatch(/only 7\.9 mm of wall/);
  });
  it("that lies beside another under one finger may widen until they meet, in two steps of words", () => {
    const text = tube(
      "holes:\n  - { name: L1, at: 150, diameter: 5, angle: -30 }\n  - { name: L2, at: 150, diameter: 6, angle: 30 }\nprint: { holeGap: 2 }\nhands: { fingertip: 14 }\n",
    );
    // A sixth of the way round a bore of 16 mm: 8.38 mm from middle to middle.
    expect(said(text, "hole-radius", 0, 3.37)).toBeUndefined();
    expect(said(text, "hole-radius", 0, 4)).toBe("L1 and L2 would have only 1.4 mm of wall between them");
    expect(said(text, "hole-radius", 0, 5.4)).toBe("L1 and L2 would run into each other");
  });
  it("is reached from the middle of what one finger covers", () => {
    const text = tube(
      "holes:\n  - { name: L1, at: 150, diameter: 5 }\n  - { name: L2, at: 180, diameter: 4, angle: -30 }\n  - { name: L3, at: 180, diameter: 4, angle: 30 }\nhands: { reach: 34 }\n",
    );
    expect(said(text, "hole-place", 2, 187.9)).toBeUndefined();
    expect(said(text, "hole-place", 2, 188.2)).toMatch(
      /^L1 to L2.* would need 34\.1 mm of reach, but the reach is 34 mm$/,
    );
  });
  it("of a bore keeps the slope of each of its sections, which is named", () => {
    const text = tube(
      "bore:\n  - { at: 0, diameter: 16 }\n  - { at: 100, diameter: 15 }\n  - { at: 352, diameter: 14 }\n",
    );
    expect(said(text, "station-radius", 1, 7.55)).toBeUndefined();
    expect(said(text, "station-radius", 1, 7.7)).toBe("the taper above station 2 would have to change its slope");
    expect(said(text, "station-radius", 2, 7.2)).toBe("the taper above the foot would have to change its slope");
  });
  it("stays where it is `fixed`, whatever its name", () => {
    const fixed = tube(HOLES.replace("diameter: 6 }", "diameter: 6, fixed: true }"));
    expect(said(fixed, "hole-place", 0, 120)).toBe("L1 is `fixed`");
    expect(said(fixed, "hole-place", 1, 151)).toBeUndefined();
    const bore = tube(
      "bore:\n  - { at: 0, diameter: 16 }\n  - { at: 100, diameter: 15, fixed: true }\n  - { at: 352, diameter: 14, fixed: true }\n",
    );
    expect(said(bore, "station-place", 1, 100)).toBe("station 2 is `fixed`");
    expect(said(bore, "station-place", 2, 352)).toBe("the foot is `fixed`");
  });
  it("is named as it is called", () => {
    const { analysis } = checked(tube(HOLES));
    expect(
      (["hole-place", "hole-radius", "station-place", "station-radius"] as const).map((kind) =>
        nameOf(analysis, unknown(kind, 1)),
      ),
    ).toEqual(["L2", "L2", "the foot", "the foot"]);
    expect(nameOf(analysis, unknown("station-place", 0))).toBe("station 1");
  });
  it("of what has no tube forbids nothing", () => {
    expect(said(vessel("holes: [{ diameter: 6, angle: 90 }]"), "hole-place", 0, 500)).toBeUndefined();
  });
});

describe("the width of a vessel's hole", () => {
  const widths = (holes: string, hole = 0) => {
    const text = vessel(
      `holes: [${holes}]\nprint: { holeGap: 3 }\nhands: { fingertip: 11 }\n`,
      "shape: sphere, diameter: 60",
    );
    const find = forbiddenWidths(checked(text).analysis, constraintsOf(documentOf(fileOf(text))), hole);
    return (mm: number) => find(mm / 1e3);
  };

  it("is between what is too narrow and what a fingertip closes", () => {
    const of = widths("{ name: A, diameter: 6, angle: 120 }");
    expect([2, 6, 11].map(of)).toEqual([undefined, undefined, undefined]);
    expect(of(1.99)).toMatch(/^A would have to be narrower than 2 mm/);
    expect(of(11.01)).toMatch(/^A would have to be wider than 11 mm, the most that a fingertip covers/);
  });
  it("leaves wall to its neighbour, as wide as that is drawn", () => {
    // 18° of a sphere of 60 mm are 9.39 mm straight; less 3 of wall and a radius of 2 there are 8.77 across.
    const of = widths("{ name: A, diameter: 4, angle: 120 }, { name: B, diameter: 4, angle: 138 }");
    expect(of(8.7)).toBeUndefined();
    expect(of(8.8)).toBe("A and B would have less than 3 mm of wall between them".replace("A and B", "B and A"));
  });
  it("stays where it is `fixed`", () => {
    expect(widths("{ name: A, diameter: 6, angle: 120, fixed: true }")(6)).toBe("A is `fixed`");
  });
});
