/** bore/…: stations that make no tube. */

import { describe, expect, it } from "vitest";
import { sharedColumn } from "../../../server/src/instrument/body.js";
import { documentOf, fileOf } from "../../support/designs.js";
import { columnOf, expectFinding, expectNothing, instrumentOf, tube } from "../../support/marked.js";

describe("bore/too-few-stations", () => {
  it("marks a bore of one station, and of none", () => {
    expectFinding(tube("[[bore]]:\n  - { at: 0, diameter: 16 }"), "bore/too-few-stations", "at least two stations");
    expectFinding(tube("[[bore]]: []"), "bore/too-few-stations");
  });
  it("accepts two", () => {
    expectNothing(tube("bore: [{ at: 0, diameter: 16 }, { at: 352, diameter: 16 }]"));
  });
  it("ignores a bore that is not a list, which is reported elsewhere", () => {
    expectFinding(tube("bore: [[16]]"), "schema/wrong-kind", "takes a list");
    expect(sharedColumn(instrumentOf(tube("bore: 16")).body)).toBeUndefined();
  });
});

describe("bore/backwards", () => {
  const bore = (...at: readonly (string | number)[]) =>
    tube(`bore:\n${at.map((place) => `  - { at: ${place}, diameter: 16 }`).join("\n")}`);
  it("marks a station nearer the mouth than the one before it, by how much", () => {
    expectFinding(bore(0, 200, "[[150]]", 352), "bore/backwards", "lies 50 mm nearer the mouth");
  });
  it("marks each of several, and makes no tube", () => {
    expectFinding(bore(0, 300, "[[200]]", 100, 352), "bore/backwards", "100 mm", { alone: false });
    expectFinding(bore(0, 300, 200, "[[100]]", 352), "bore/backwards", "200 mm", { alone: false });
    expect(sharedColumn(instrumentOf(bore(0, 300, 200, 352)).body)).toBeUndefined();
  });
  it("accepts a step, and what differs by less than can be printed", () => {
    expectNothing(bore(0, 200, 200, 352));
    expectNothing(bore(0, "=0.1 + 0.2", 0.3, 352));
    expect(columnOf(bore(0, 200, 200, 352)).bore).toHaveLength(4);
  });
  it("compares with the last place that is known", () => {
    expectFinding(bore(0, "[[middle]]", 352), "schema/wrong-kind");
    expectFinding(bore(0, 300, "middle", "[[200]]", 352), "bore/backwards", "", { alone: false });
  });
  it("speaks inches where the file does", () => {
    const text =
      "units: in\nbore: [{ at: 0, diameter: 1 }, { at: 9, diameter: 1 }, { at: [[8.8755]], diameter: 1 }]\nwall: 0.1";
    expectFinding(tube(text), "bore/backwards", /0\.12[45] in nearer/);
  });
});

describe("bore/misses-mouth", () => {
  it("marks a bore that begins below the mouth", () => {
    const text = tube("bore:\n  - { at: [[10]], diameter: 16 }\n  - { at: 352, diameter: 16 }");
    expectFinding(text, "bore/misses-mouth", "begins 10 mm below the mouth");
  });
  it("marks a foot that lies within the mouth", () => {
    const text = tube("bore:\n  - { at: -100, diameter: 16 }\n  - { at: [[-50]], diameter: 16 }");
    expectFinding(text, "bore/misses-mouth", "ends at -50 mm, before the mouth opening does");
    const window = "mouth: { window: { width: 9, cutUp: 8 } }\n";
    expectFinding(tube(`${window}bore: [{ at: 0, diameter: 16 }, { at: [[4]], diameter: 16 }]`), "bore/misses-mouth");
    expectNothing(tube(`${window}bore: [{ at: 0, diameter: 16 }, { at: 4.1, diameter: 16 }]`));
  });
  it("accepts a bore that reaches above the mouth", () => {
    expectNothing(tube("bore:\n  - { at: -18, diameter: 16 }\n  - { at: 352, diameter: 16 }"));
  });
});

describe("a step of the bore", () => {
  const text = tube(
    "bore:\n  - { at: 0, diameter: 20 }\n  - { at: 170, diameter: 20 }\n  - { at: 170, diameter: 10 }\n  - { at: 352, diameter: 10 }",
  );
  const places = (index: number, by: number) => {
    const varied = documentOf(fileOf(text)).resolution.varied(["bore", index, "at"], by, false);
    const column = varied && sharedColumn(varied.body);
    return column?.bore.map(({ x }) => Math.round(1e3 * x));
  };
  it("is one edge of what is made: both its stations move together, whichever is moved", () => {
    expect(places(1, 5)).toEqual([0, 175, 175, 352]);
    expect(places(2, -5)).toEqual([0, 165, 165, 352]);
    expect(places(3, 5)).toEqual([0, 170, 170, 357]);
    expect(places(1, 200)).toBeUndefined();
  });
});
