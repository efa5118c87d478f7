/** hands/…: holes that fingers do not reach or close, in every family that has holes. */

import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { neighbouringFingers } from "../../../server/src/design/constraints/fingers.js";
import { sharedColumn } from "../../../server/src/instrument/body.js";
import { DEFAULTS } from "../../../server/src/instrument/defaults.js";
import { fingerPairs } from "../../../server/src/instrument/fingers.js";
import { checked, documentOf, fileOf } from "../../support/designs.js";
import { TUBES, vessel } from "../../support/families.js";
import { codesOf, expectFinding, expectNothing, tube } from "../../support/marked.js";

const holes = (...entries: readonly string[]) => `holes:\n${entries.map((entry) => `  - { ${entry} }`).join("\n")}\n`;
const severityOf = (text: string) => fileOf(text).documents[0]?.findings.map(({ severity }) => severity);
const relatedOf = (text: string) =>
  documentOf(fileOf(text)).findings[0]?.related?.map(({ span }) => text.slice(span.start, span.end));

describe("hands/out-of-reach", () => {
  const two = (apart: string) => holes("name: L1, at: 100, diameter: 6", `name: L2, at: ${apart}, diameter: 6`);

  it.each(TUBES)("marks the lower hole in a %s flute, with both numbers and what to do", (_, text) => {
    expectFinding(
      text(`hands: { reach: 34 }\n${two("[[141]]")}`),
      "hands/out-of-reach",
      /^L1 and L2 are 41 mm apart; the stated reach is 34 mm\. Bring them 7 mm nearer .*`hands\.reach`\.$/,
    );
    expectNothing(text(`hands: { reach: 34 }\n${two("134")}`));
  });
  it("points at the other hole", () => {
    expect(relatedOf(tube(`hands: { reach: 34 }\n${two("141")}`))).toEqual(["100"]);
  });
  it("is a warning where the design states the hand, and an information where it does not", () => {
    const usual = DEFAULTS.reachMillimetres;
    expect(severityOf(tube(`hands: { reach: 34 }\n${two("141")}`))).toEqual(["warning"]);
    expect(severityOf(tube(two(`${100 + usual + 1}`)))).toEqual(["information"]);
    expectNothing(tube(two(`${100 + usual}`)));
    expectFinding(
      tube(two("[[150]]")),
      "hands/out-of-reach",
      "hands reach 41 mm as a rule (the design states no `hands.reach`)",
    );
  });
  it("measures the finished print: hands do not grow with it", () => {
    const scaled = (scale: string) => tube(`hands: { reach: 34 }\nprint: { scale: ${scale} }\n${two("[[132]]")}`);
    expectFinding(scaled("110 %"), "hands/out-of-reach", "35.2 mm apart");
    expectNothing(scaled("100 %").replace(/\[\[|\]\]/g, ""));
  });
  it("speaks in inches where the design does", () => {
    const inches =
      "units: in\nwall: 0.12\nbore: [{ at: 0, diameter: 0.63 }, { at: 14, diameter: 0.63 }]\nhands: { reach: 1.3 }\n";
    const own = holes("name: L1, at: 4, diameter: 0.25", "name: L2, at: [[5.5]], diameter: 0.25");
    expectFinding(tube(`${inches}${own}`), "hands/out-of-reach", "1.5 in apart; the stated reach is 1.3 in");
  });
  it("does not ask one hand to reach the other's hole", () => {
    const hands = (names: readonly string[]) =>
      holes(
        ...names.map(
          (name, i) => `${name === "" ? "" : `name: ${name}, `}at: ${100 + 20 * i + (i > 2 ? 40 : 0)}, diameter: 6`,
        ),
      );
    expectNothing(tube(`hands: { reach: 34 }\n${hands(["L1", "L2", "L3", "R1", "R2"])}`));
    expectNothing(tube(`hands: { reach: 34 }\n${hands(["", "", "", "", ""])}`));
    // By its name the fourth hole is the left hand's, too.
    expect(codesOf(tube(`hands: { reach: 34 }\n${hands(["L1", "L2", "L3", "L4", "R1"])}`))).toEqual([
      "hands/out-of-reach",
    ]);
  });
  it("leaves out a vent that no fingering closes", () => {
    const fingerings = (last: string) => `fingerings: [{ degree: 1, holes: ●●${last} }, { degree: 2, holes: ●○○ }]\n`;
    const text = (last: string) =>
      tube(
        `${fingerings(last)}${holes("name: L1, at: 100, diameter: 6", "name: L2, at: 120, diameter: 6", "name: L3, at: 300, diameter: 14")}`,
      );
    expectNothing(text("○"));
    expect(codesOf(text("●"))).toEqual(["hands/out-of-reach", "hands/hole-too-wide"]);
  });
  it("measures straight across on a round vessel, along the tube on one like a tube", () => {
    // On a sphere of 80 mm inside and 4 mm of wall, a quarter turn is 44 mm times the root of two: 62.2 mm.
    const round = (angle: string) =>
      vessel(
        `hands: { reach: 60 }\n${holes("name: R1, diameter: 6, angle: 45", `name: R2, diameter: 6, angle: ${angle}`)}`,
        "shape: sphere, diameter: 80",
      );
    expectFinding(round("[[135]]"), "hands/out-of-reach", "R1 and R2 are 62.2 mm apart");
    expectNothing(round("120"));
    const long = vessel(
      `hands: { reach: 34 }\n${holes("name: R1, at: 40, diameter: 6", "name: R2, at: [[80]], diameter: 6")}`,
      "shape: tube, length: 160, diameter: 30",
    );
    expectFinding(long, "hands/out-of-reach", "40 mm apart");
  });
  it("says nothing of holes round a vessel that are wherever the maker puts them", () => {
    expectNothing(vessel(`hands: { reach: 5 }\n${holes("name: R1, diameter: 6", "name: R2, diameter: 6")}`));
  });
  it("is silent while a number is missing or the reach is wrong", () => {
    expect(codesOf(tube(`hands: { reach: -1 }\n${two("200")}`))).toEqual(["value/not-positive"]);
    expect(codesOf(tube(two("=nowhere")))).toEqual(["expression/unknown-name"]);
  });
  it("pairs the fingers as a refit does, whatever the holes are called and wherever they lie", () => {
    const hole = fc.record({
      name: fc.constantFrom("L1", "R2", "T", "l3", "x", ""),
      angle: fc.constantFrom(0, 20, -40, 90, 180, 360, 59, 61),
    });
    fc.assert(
      fc.property(fc.array(hole, { minLength: 1, maxLength: 8 }), (made) => {
        const text = tube(
          holes(
            ...made.map(
              ({ name, angle }, i) =>
                `${name === "" ? "" : `name: ${name}, `}at: ${40 + 20 * i}, diameter: 6, angle: ${angle}`,
            ),
          ),
        );
        const { analysis } = checked(text);
        const column = sharedColumn(analysis.instrument.body);
        if (column === undefined) throw new Error("no column");
        const fingers = column.holes.map(({ x, angle }, index) => ({
          index,
          name: analysis.instrument.holes[index]?.name ?? "",
          at: x,
          angle: (angle * 180) / Math.PI,
        }));
        const pairs = fingerPairs(fingers).map(([upper, lower]) => [upper.index, lower.index]);
        expect(pairs).toEqual(neighbouringFingers(analysis, column));
      }),
      { seed: 4, numRuns: 100 },
    );
  });
});

describe("hands/thumb-out-of-reach", () => {
  const three = (thumb: string, more = "") =>
    holes(
      `name: T, at: ${thumb}, diameter: 6, side: back`,
      "name: L1, at: 150, diameter: 6",
      `name: L2, at: 170, diameter: 6${more}`,
    );

  it.each(TUBES)("marks the thumb's hole in a %s flute", (_, text) => {
    expectFinding(
      text(`hands: { thumb: 30 }\n${three("[[110]]")}`),
      "hands/thumb-out-of-reach",
      "T lies 40 mm above L1, the nearest finger of its hand; the thumb reaches 30 mm. Bring it nearer and widen it",
    );
    expectNothing(text(`hands: { thumb: 30 }\n${three("120")}`));
  });
  it("takes the reach of the fingers where the thumb's own is not stated", () => {
    expectFinding(
      tube(`hands: { reach: 34 }\n${three("[[110]]")}`),
      "hands/thumb-out-of-reach",
      "the stated reach is 34 mm",
    );
    expectNothing(tube(three("110")));
    expect(severityOf(tube(three("100")))).toEqual(["information"]);
  });
  it("goes by the hand that the name tells", () => {
    const two = holes(
      "name: L1, at: 100, diameter: 6",
      "name: R1, at: 200, diameter: 6",
      "name: LT, at: [[205]], diameter: 6, side: back",
    );
    expectFinding(tube(two), "hands/thumb-out-of-reach", "LT lies 105 mm below L1");
    expectNothing(tube(two.replace("LT", "RT").replace(/\[\[|\]\]/g, "")));
  });
});

describe("hands/hole-too-wide", () => {
  const one = (diameter: string) => holes(`name: L1, at: 150, diameter: ${diameter}`);

  it.each(TUBES)("marks the width in a %s flute", (_, text) => {
    expectFinding(
      text(`hands: { fingertip: 9 }\n${one("[[9.5]]")}`),
      "hands/hole-too-wide",
      "L1 is 9.5 mm wide; a fingertip closes 9 mm. Draw it 9 mm wide and move it toward the mouth",
    );
    expectNothing(text(`hands: { fingertip: 9 }\n${one("9")}`));
  });
  it("marks it on a vessel, where narrowing goes with a shorter chimney", () => {
    expectFinding(
      vessel(`hands: { fingertip: 9 }\n${holes("name: L1, diameter: [[9.5]]")}`),
      "hands/hole-too-wide",
      "shorten its chimney",
    );
  });
  it("marks a thumb's hole as well", () => {
    expectFinding(
      tube(holes("name: T, at: 150, diameter: [[13]], side: back")),
      "hands/hole-too-wide",
      "(the design states no `hands.fingertip`)",
    );
  });
  it("is an information where the design does not state the fingertip", () => {
    expect(severityOf(tube(one("12.5")))).toEqual(["information"]);
    expect(severityOf(tube(`hands: { fingertip: 11 }\n${one("12.5")}`))).toEqual(["warning"]);
    expectNothing(tube(one("12")));
  });
  it("measures the finished print and tells what to draw", () => {
    // Drawn 9.2 at 105 % and 0.15 under: 9.51 finished. 9 finished are 9.15 before, 8.71 as drawn, 8.7 to a tenth.
    const print = "print: { scale: 105 %, holeUndersize: 0.15 }\nhands: { fingertip: 9 }\n";
    expectFinding(tube(`${print}${one("[[9.2]]")}`), "hands/hole-too-wide", /is 9\.5 mm wide.* Draw it 8\.7 mm wide/);
    expectNothing(tube(`${print}${one("8.7")}`));
  });
});
