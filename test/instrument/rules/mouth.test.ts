/** mouth/…: a mouth that is not the family's, or does not fit the tube. */

import { describe, expect, it } from "vitest";
import { sharedColumn } from "../../../server/src/instrument/body.js";
import { columnOf, expectFinding, expectNothing, instrumentOf, tube } from "../../support/marked.js";

const FLUTE = "family: transverse\nbore: [{ at: -20, diameter: 19 }, { at: 500, diameter: 19 }]\n";

describe("mouth/kind", () => {
  it.each([
    ["duct", "window: { width: 9, cutUp: 4.5 }"],
    ["transverse", "hole: { length: 12, width: 10 }"],
    ["rim", "cover: 0.6"],
    ["rim", "notch: { width: 9, depth: 4 }"],
    ["duct", "correction: 42"],
    ["transverse", "correction: 42"],
    ["rim", "correction: 42"],
  ])("leaves a %s with { %s } alone", (family, mouth) => {
    expectNothing(
      tube(`family: ${family}\nmouth: { ${mouth} }\nbore: [{ at: -20, diameter: 19 }, { at: 500, diameter: 19 }]`),
    );
  });
  it.each([
    ["duct", "mouth: { [[hole]]: { length: 12, width: 10 } }", "duct flute's mouth is described by `window"],
    ["duct", "[[mouth]]: { cover: 0.5 }", "`window: { width: 9, cutUp: 4.5 }`"],
    ["transverse", "mouth: { [[window]]: { width: 9, cutUp: 4.5 } }", "transverse flute's mouth is described by `hole"],
    ["rim", "mouth: { [[window]]: { width: 9, cutUp: 4.5 } }", "A rim is the tube's own open end and has no `window`"],
    ["rim", "mouth: { [[hole]]: { diameter: 10 } }", "has no `hole`"],
    [
      "duct",
      "mouth: { window: { width: 9, cutUp: 4.5 }, [[hole]]: { diameter: 10 } }",
      "`window` and `hole` exclude each other",
    ],
    [
      "duct",
      "mouth: { [[window]]: { width: 9, cutUp: 4.5 }, correction: 42 }",
      "`correction` and `window` exclude each other",
    ],
  ])("tells a %s with %s", (family, mouth, says) => {
    expectFinding(tube(`family: ${family}\n${mouth}`), "mouth/kind", says);
    expect(
      sharedColumn(instrumentOf(tube(`family: ${family}\n${mouth.replace(/\[\[|\]\]/g, "")}`)).body),
    ).toBeUndefined();
  });
  it("goes by the mouth where the design does not tell its family", () => {
    const { mouth } = columnOf(tube("mouth: { window: { width: 9, cutUp: 4.5 } }").replace("family: duct\n", ""));
    expect(mouth.kind).toBe("window");
  });
});

describe("an undercut embouchure hole", () => {
  it("is wider by half of it on every side at the bore, as printed", () => {
    const { mouth } = columnOf(
      tube(`${FLUTE}print: { shrinkage: 1 % }\nmouth: { hole: { length: 12, width: 10, undercut: 1 } }`),
    );
    expect(mouth).toMatchObject({ undercut: expect.closeTo(0.000495, 9) });
    expect(columnOf(tube(`${FLUTE}mouth: { hole: { diameter: 10 } }`)).mouth).not.toHaveProperty("undercut");
  });
  it("fits the bore", () => {
    expectFinding(
      tube(`${FLUTE}mouth: { hole: { length: 12, width: 18, undercut: [[1.5]] } }`),
      "mouth/wider-than-bore",
      "19.5 mm wide at the bore, which is only 19 mm there: undercut it less.",
    );
  });
  it("is ignored in a vessel's wall, which is said", () => {
    expectFinding(
      "borewright: 1\nfamily: vessel\nkey: C5\nvessel: { volume: 80 }\nwall: 3\nmouth: { hole: { diameter: 10, undercut: [[1]] } }\nholes: []\nfingerings: []\n",
      "model/out-of-range",
      "treated as not undercut",
      { alone: false },
    );
  });
});

describe("mouth/hole-size", () => {
  it("marks an embouchure hole without any size", () => {
    expectFinding(tube(`${FLUTE}mouth: { [[hole]]: { width: 10 } }`), "mouth/hole-size", "needs its `length`");
    expectFinding(tube(`${FLUTE}mouth: { [[hole]]: {} }`), "mouth/hole-size");
  });
  it("marks one with too many", () => {
    expectFinding(tube(`${FLUTE}mouth: { hole: { [[diameter]]: 10, length: 12 } }`), "mouth/hole-size", "not both");
    expectFinding(tube(`${FLUTE}mouth: { hole: { width: 9, [[diameter]]: 10 } }`), "mouth/hole-size", "not both");
  });
  it("accepts a round one and an oval one", () => {
    for (const hole of ["{ diameter: 10 }", "{ length: 12, width: 10 }", "{ length: 12 }"])
      expectNothing(tube(`${FLUTE}mouth: { hole: ${hole} }`));
  });
});

describe("mouth/wider-than-bore", () => {
  it("marks what is wider than the tube: window, oval hole, round hole, hole without a width", () => {
    expectFinding(
      tube("mouth: { window: { width: [[16.5]], cutUp: 4 } }"),
      "mouth/wider-than-bore",
      /window is 16\.5 mm wide and the bore under it only 16 mm/,
    );
    expectFinding(
      tube(`${FLUTE}mouth: { hole: { length: 12, width: [[20]] } }`),
      "mouth/wider-than-bore",
      "embouchure hole is 20 mm",
    );
    expectFinding(tube(`${FLUTE}mouth: { hole: { diameter: [[20]] } }`), "mouth/wider-than-bore");
    expectFinding(tube(`${FLUTE}mouth: { hole: { length: [[20]] } }`), "mouth/wider-than-bore");
  });
  it("marks a notch that would cut the tube's sides off", () => {
    const text = tube("family: rim\nmouth: { notch: { width: [[17]], depth: 4 } }");
    expectFinding(text, "mouth/wider-than-bore", "The notch is 17 mm wide and the bore under it only 16 mm");
  });
  it("accepts what is as wide as the tube, and a long hole that is narrow", () => {
    expectNothing(tube("mouth: { window: { width: 16, cutUp: 4 } }"));
    expectNothing(tube(`${FLUTE}mouth: { hole: { length: 21, width: 10 } }`));
  });
});

describe("mouth/stopper-under-hole", () => {
  it("marks a stopper that would stand in the hole", () => {
    const text = tube(`${FLUTE}mouth: { hole: { length: 12, width: 10 }, stopper: [[5.9]] }`);
    expectFinding(text, "mouth/stopper-under-hole", "move it to 6 mm or more");
  });
  it("accepts one at the hole's edge", () => {
    expectNothing(tube(`${FLUTE}mouth: { hole: { length: 12, width: 10 }, stopper: 6 }`));
  });
});

describe("mouth/extra", () => {
  it("marks a calibration that leaves nothing of the mouth", () => {
    expectFinding(
      tube("mouth: { window: { width: 9, cutUp: 4.5 }, extra: [[-90]] }"),
      "mouth/extra",
      "nothing would be left",
    );
    expectFinding(tube(`${FLUTE}mouth: { hole: { length: 12, width: 10 }, extra: [[-90]] }`), "mouth/extra");
    expectFinding(tube("family: rim\nmouth: { extra: [[-90]] }"), "mouth/extra");
  });
  it("accepts one of a millimetre", () => {
    expectNothing(tube("mouth: { window: { width: 9, cutUp: 4.5 }, extra: -1 }"));
    expectNothing(tube("mouth: { window: { width: 9, cutUp: 4.5 }, extra: 5 }"));
  });
});
