/** file/version, design/incomplete, model/family-not-predicted, print/… and the bounds of numbers. */

import { describe, expect, it } from "vitest";
import { sharedColumn } from "../../../server/src/instrument/body.js";
import { codesOf, expectFinding, expectNothing, instrumentOf, tube, without } from "../../support/marked.js";

describe("file/version", () => {
  it("marks a version that is not known", () => {
    expectFinding(tube("borewright: [[2]]"), "file/version", "Version `2` of the format is not known");
    expectFinding(tube('borewright: [["1"]]'), "file/version");
    expectFinding(tube("[[borewright]]:"), "file/version");
  });
  it("is reported missing at the first entry", () => {
    expectFinding(
      `[[family]]: duct\n${without(without(tube(), "borewright"), "family")}`,
      "file/version",
      "Add `borewright: 1`",
    );
  });
  it("does not stop the rest from being read", () => {
    expect(sharedColumn(instrumentOf(tube("borewright: 2")).body)).toBeDefined();
  });
});

describe("design/incomplete", () => {
  it("names in one sentence all that is missing", () => {
    expectFinding(
      "[[borewright]]: 1\n",
      "design/incomplete",
      /needs `family: duct`, `mouth`, `bore` and `wall: 3\.2`\.$/,
    );
    expectFinding("[[borewright]]: 1\nkey: G4\n", "design/incomplete");
    expectFinding(
      without(tube(), "wall").replace("borewright", "[[borewright]]"),
      "design/incomplete",
      /needs `wall: 3\.2`\.$/,
    );
  });
  it("does not ask for a family where the mouth tells it", () => {
    expectNothing(without(tube(), "family"));
    expectNothing(without(tube("mouth: { window: { width: 9, cutUp: 4.5 } }"), "family"));
    expectFinding(
      without(tube("mouth: { cover: 0.5 }"), "family").replace("borewright", "[[borewright]]"),
      "design/incomplete",
      "`family: duct`",
    );
  });
});

describe("design/incomplete of a family that is not a tube", () => {
  it.each([
    ["panpipe", /needs `pipes/],
    ["vessel", /`vessel` and `wall: 4`/],
  ])("asks a %s for its own parts, not for a tube's", (family, says) => {
    expectFinding(`[[borewright]]: 1\nkey: C5\nfamily: ${family}\n`, "design/incomplete", says);
  });
});

describe("print/scale-looks-like-factor", () => {
  it("marks a factor where a percentage belongs", () => {
    expectFinding(tube("print: { scale: [[0.92]] }"), "print/scale-looks-like-factor", "write 92 %");
    expectFinding(tube("print: { scale: [[1.05]] }"), "print/scale-looks-like-factor", "write 105 %");
    expectFinding(tube("print: { scale: [[=23/25]] }"), "print/scale-looks-like-factor", "write 92 %");
  });
  it("accepts a percentage, and a number with the sign", () => {
    for (const scale of ["92", "5", "100 %", "0.92 %"])
      expect(codesOf(tube(`print: { scale: ${scale} }`))).not.toContain("print/scale-looks-like-factor");
  });
});

describe("print/hole-closed", () => {
  it("marks a hole that the print would fill", () => {
    const print = "print: { scale: 50 %, holeUndersize: 0.6 }\n";
    const hole = (diameter: string) => tube(`${print}holes:\n  - { name: V, at: 170, diameter: ${diameter} }`);
    expectFinding(hole("[[1.2]]"), "print/hole-closed", "V would print closed: printed holes come out 0.6 mm smaller");
    expectNothing(hole("1.3"));
  });
  it("marks the embouchure hole too", () => {
    const flute =
      "family: transverse\nprint: { holeUndersize: 3 }\nbore: [{ at: -20, diameter: 19 }, { at: 500, diameter: 19 }]\n";
    expectFinding(
      tube(`${flute}mouth: { hole: [[{ length: 12, width: 3 }]] }`),
      "print/hole-closed",
      "The embouchure hole",
    );
    expectNothing(tube(`${flute}mouth: { hole: { length: 12, width: 3.1 } }`));
  });
});

describe("value/not-positive and value/out-of-range", () => {
  it.each([
    ["wall: [[0]]", "value/not-positive", "`wall` must be more than 0, and is 0 mm."],
    ["wall: [[-3]]", "value/not-positive", "is -3 mm"],
    ["wall: [[=1 - 2]]", "value/not-positive", "must be more than 0, and comes out as -1 mm."],
    ["units: in\nwall: [[-3]]", "value/not-positive", "is -3 in"],
    ["holes: [{ at: 170, diameter: [[0]] }]", "value/not-positive", "`diameter` of hole 1 must be more than 0"],
    [
      "bore: [{ at: 0, diameter: [[0]] }, { at: 352, diameter: 16 }]",
      "value/not-positive",
      "`diameter` of station 1 must be more than 0",
    ],
    ["air: { temperature: [[70]] }", "value/out-of-range", "at most 60 °C, and is 70 °C"],
    ["air: { temperature: [[-30]] }", "value/out-of-range", "at least -20 °C"],
    ["air: { humidity: [[101 %]] }", "value/out-of-range", "at most 100 %, and is 101 %"],
    ["air: { speedOfSound: [[0.343]] }", "value/out-of-range", "at least 100 m/s"],
    ["print: { scale: [[1001]] }", "value/out-of-range", "at most 1000 %"],
    ["print: { scale: [[0 %]] }", "value/not-positive", ""],
    ["print: { shrinkage: [[50]] }", "value/out-of-range", "less than 50 %"],
    ["holes: [{ at: 170, diameter: 7, angle: [[400]] }]", "value/out-of-range", "at most 360 °"],
    ["family: rim\nmouth: { cover: [[1]] }", "value/out-of-range", "less than 1, and is 1"],
    ["pitchStandard: [[4400]]", "value/out-of-range", "at most 600 Hz"],
  ])("%s", (changes, code, says) => {
    expectFinding(tube(changes), code, says);
  });

  it("leaves the bound itself alone where it is within", () => {
    expectNothing(
      tube("air: { temperature: 60, humidity: 0 }\nprint: { scale: 1000 }\nfamily: rim\nmouth: { cover: 0 }"),
    );
  });

  it("leaves nothing to predict from", () => {
    expect(sharedColumn(instrumentOf(tube("wall: -3")).body)).toBeUndefined();
    expect(instrumentOf(tube("air: { temperature: 70 }")).air.temperature).toBeUndefined();
    expect(codesOf(tube("holes: [{ at: 170, diameter: -7 }]"))).toEqual(["value/not-positive"]);
  });
});
