/** hole/…: holes that cannot be drilled where they stand, and names that mean two things. */

import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { sharedColumn } from "../../../server/src/instrument/body.js";
import { codesOf, columnOf, expectFinding, expectNothing, instrumentOf, tube } from "../../support/marked.js";

/** Hands and a printer that take any hole: theirs are other rules. */
const ROOMY = "print: { holeGap: 0 }\nhands: { fingertip: 30, spacing: 1 }\n";
const holes = (...entries: readonly string[]) =>
  tube(`${ROOMY}holes:\n${entries.map((entry) => `  - { ${entry} }`).join("\n")}`);

describe("schema/missing-property of a hole", () => {
  it("marks a hole of a tube that has no place, and one without a diameter", () => {
    expectFinding(tube("holes:\n  - [[{ diameter: 7 }]]"), "schema/missing-property", "A hole needs `at`");
    expectFinding(tube("holes:\n  - [[{ at: 170 }]]"), "schema/missing-property", "A hole needs `diameter`");
    expectFinding(tube("holes:\n  - [[name]]: L1\n    diameter: 7"), "schema/missing-property", "needs `at`");
  });
  it("accepts a vessel's holes, which have no place", () => {
    const vessel =
      "borewright: 1\nfamily: vessel\nvessel: { shape: sphere, diameter: 60 }\nwall: 4\n" +
      "mouth: { window: { width: 8, cutUp: 5 } }\nholes:\n  - { diameter: 7 }\n";
    expect(codesOf(vessel)).toEqual([]);
  });
});

describe("holes that are not a list", () => {
  it("make no tube: nobody knows what it would be", () => {
    expectFinding(tube("holes: [[3]]"), "schema/wrong-kind", "`holes` takes a list, not `3`");
    expectFinding(tube("[[holes]]:"), "value/missing", "`holes` has no value yet: it takes a list");
    const many = Array.from({ length: 101 }, (_, i) => `{ at: ${100 + i}, diameter: 0.5 }`).join(", ");
    expectFinding(tube(`[[holes]]: [${many}]`), "schema/wrong-count", "at most 100 entries, not 101");
    for (const holes of ["3", "", `[${many}]`, "[4]", "[null]"])
      expect(sharedColumn(instrumentOf(tube(`holes: ${holes}`)).body)).toBeUndefined();
    expect(sharedColumn(instrumentOf(tube("holes: []")).body)?.holes).toEqual([]);
    const most = many.slice(0, many.lastIndexOf(", {"));
    expect(sharedColumn(instrumentOf(tube(`holes: [${most}]`)).body)?.holes).toHaveLength(100);
  });
});

describe("hole/order", () => {
  it("marks a hole nearer the mouth than the one listed before it, and names both", () => {
    const text = holes("name: L2, at: 200, diameter: 7", "name: L1, at: [[170]], diameter: 7");
    expectFinding(text, "hole/order", "L1 lies 30 mm nearer the mouth than L2, which is listed before it");
  });
  it("calls holes without names by their number", () => {
    expectFinding(
      holes("at: 200, diameter: 7", "at: [[170]], diameter: 7"),
      "hole/order",
      "Hole 2 lies 30 mm nearer the mouth than hole 1",
    );
  });
  it("accepts holes at one place on both sides", () => {
    expectNothing(holes("at: 170, diameter: 7", "at: 170, diameter: 7, side: back"));
  });
  it("makes no tube, since its signs would mean other holes", () => {
    expect(sharedColumn(instrumentOf(holes("at: 200, diameter: 7", "at: 170, diameter: 7")).body)).toBeUndefined();
  });
});

describe("hole/outside-bore", () => {
  it("marks a hole that runs over the foot", () => {
    expectFinding(
      holes("name: R3, at: [[349]], diameter: 7"),
      "hole/outside-bore",
      /R3 at 349 mm runs over the foot at 352 mm\. Move it to 348\.5 mm or less/,
    );
    expectNothing(holes("at: 348.5, diameter: 7"));
  });
  it("marks a hole that runs into the mouth", () => {
    expectFinding(holes("name: T, at: [[3]], diameter: 7"), "hole/outside-bore", "Move it to 3.5 mm or further down");
    expectNothing(holes("at: 3.5, diameter: 7"));
    const flute =
      "family: transverse\nmouth: { hole: { length: 12, width: 10 } }\nbore: [{ at: -20, diameter: 19 }, { at: 500, diameter: 19 }]\n";
    expectFinding(tube(`${flute}holes:\n  - { at: [[9]], diameter: 7 }`), "hole/outside-bore", "Move it to 9.5 mm");
  });
  it("waits for the numbers that it needs", () => {
    expectFinding(holes("at: 400, diameter: [[wide]]"), "schema/wrong-kind");
  });
});

describe("hole/wider-than-bore", () => {
  it("marks the diameter of a hole wider than the bore there", () => {
    expectFinding(
      holes("name: L1, at: 170, diameter: [[17]]"),
      "hole/wider-than-bore",
      /L1 is 17 mm wide, and the bore there is only 16 mm/,
    );
    expectNothing(holes("at: 170, diameter: 16"));
  });
  it("compares with the bore at that place: half-way down a cone", () => {
    const cone = "hands: { fingertip: 30 }\nbore: [{ at: 0, diameter: 20 }, { at: 300, diameter: 10 }]\n";
    expectFinding(tube(`${cone}holes:\n  - { at: 150, diameter: [[15.2]] }`), "hole/wider-than-bore", "only 15 mm");
    expectNothing(tube(`${cone}holes:\n  - { at: 150, diameter: 15 }`));
  });
  it("marks the undercut where the hole itself fits, just so at most", () => {
    const cut = (diameter: string) => holes(`name: L1, at: 170, ${diameter}`);
    const says = /L1 is 1[67]\.5 mm wide at the bore, and the bore there is only 16 mm\. Undercut it less\./;
    expectFinding(cut("diameter: 16, undercut: [[0.5]]"), "hole/wider-than-bore", says);
    expectFinding(cut("diameter: [[17]], undercut: 0.5"), "hole/wider-than-bore", says);
  });
  it("takes the lower side of a step", () => {
    const step =
      "bore: [{ at: 0, diameter: 20 }, { at: 170, diameter: 20 }, { at: 170, diameter: 10 }, { at: 352, diameter: 10 }]\n";
    expectFinding(tube(`${step}holes:\n  - { at: 170, diameter: [[12]] }`), "hole/wider-than-bore", "only 10 mm");
  });
});

describe("hole/overlap", () => {
  it("marks the later of two holes that overlap, or only touch", () => {
    expectFinding(
      holes("name: L1, at: 170, diameter: 8", "name: L2, at: [[177]], diameter: 8"),
      "hole/overlap",
      "L2 and L1 overlap by 1 mm",
    );
    expectFinding(
      holes("name: L1, at: 170, diameter: 8", "name: L2, at: [[178]], diameter: 8"),
      "hole/overlap",
      "L2 and L1 touch",
    );
    expectNothing(holes("at: 170, diameter: 8", "at: 178.1, diameter: 8"));
  });
  it("sees a large hole behind a small one in between", () => {
    const text = holes(
      "name: A, at: 170, diameter: 14",
      "name: B, at: 178, diameter: 1.5, angle: 150",
      "name: C, at: [[183]], diameter: 13",
    );
    expectFinding(text, "hole/overlap", "C and A overlap");
  });
  it("goes around the bore: turned far enough away they do not meet", () => {
    // Around a bore of 16 mm, 90 degrees are 12.57 mm of its surface.
    expectNothing(holes("at: 170, diameter: 12", "at: 170, diameter: 12, angle: 90"));
    expectFinding(holes("at: 170, diameter: 13", "at: [[170]], diameter: 13, angle: 90"), "hole/overlap");
    expectFinding(holes("at: 170, diameter: 8, angle: 350", "at: [[170]], diameter: 8, angle: 10"), "hole/overlap");
    expectFinding(holes("at: 170, diameter: 8, angle: -360", "at: [[170]], diameter: 8, angle: 360"), "hole/overlap");
  });
  it("is symmetric, and gone as soon as there is room, whatever the sizes", () => {
    const sizes = fc.tuple(fc.double({ min: 1, max: 15, noNaN: true }), fc.double({ min: 1, max: 15, noNaN: true }));
    fc.assert(
      fc.property(sizes, fc.double({ min: -4, max: 4, noNaN: true }), ([a, b], gap) => {
        fc.pre(Math.abs(gap) > 1e-6 && (a + b) / 2 + gap >= 0);
        const text = holes(`at: 100, diameter: ${a}`, `at: ${100 + (a + b) / 2 + gap}, diameter: ${b}`);
        expect(codesOf(text)).toEqual(gap > 0 ? [] : ["hole/overlap"]);
        const other = holes(`at: 100, diameter: ${b}`, `at: ${100 + (a + b) / 2 + gap}, diameter: ${a}`);
        expect(codesOf(other)).toEqual(codesOf(text));
      }),
      { seed: 2, numRuns: 60 },
    );
  });
});

describe("hole/duplicate-name", () => {
  it("marks the second of a name, and keeps the tube", () => {
    const text = holes("name: L1, at: 170, diameter: 7", "name: [[L1]], at: 200, diameter: 7");
    expectFinding(text, "hole/duplicate-name", "Another hole is called L1 already");
    expect(columnOf(text.replace(/\[\[|\]\]/g, "")).holes).toHaveLength(2);
  });
  it("accepts different names, and holes without any", () => {
    expectNothing(holes("name: L1, at: 170, diameter: 7", "name: l1, at: 200, diameter: 7"));
    expectNothing(
      holes(
        "at: 170, diameter: 7",
        "at: 200, diameter: 7",
        'name: "", at: 230, diameter: 7',
        'name: "", at: 260, diameter: 7',
      ),
    );
  });
});

describe("hole/elevation", () => {
  it("marks what nothing reads in a tube", () => {
    expectFinding(
      holes("name: T, at: 170, diameter: 7, [[elevation]]: 20"),
      "hole/elevation",
      "`elevation` of T does nothing in a tube",
    );
    expectNothing(holes("name: T, at: 170, diameter: 7, angle: 20"));
  });
});

describe("hole/side-and-angle", () => {
  it("marks a hole that has both; the angle counts", () => {
    const text = holes("name: T, at: 170, diameter: 7, [[side]]: back, angle: 20");
    expectFinding(text, "hole/side-and-angle", "T has both");
    expect(columnOf(text.replace(/\[\[|\]\]/g, "")).holes[0]?.angle).toBeCloseTo(Math.PI / 9, 12);
  });
  it("accepts either by itself", () => {
    expectNothing(holes("at: 170, diameter: 7, side: back"));
    expectNothing(holes("at: 170, diameter: 7, angle: 180"));
  });
});
