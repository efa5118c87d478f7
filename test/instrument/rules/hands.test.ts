/** hands/…: holes that fingers do not reach or close, in every family that has holes. */
import { describe, expect, it } from "vitest";
import { HANDS } from "../../../server/src/instrument/defaults.js";
import { documentOf, fileOf } from "../../support/designs.js";
import { TUBES, vessel } from "../../support/families.js";
import { codesOf, expectFinding, expectNothing, tube, without } from "../../support/marked.js";

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
      /^L1 and L2 are 41 mm apart; the stated reach is 34 mm\. Bring them 7 mm closer .*`hands\.reach`\.$/,
    );
    expectNothing(text(`hands: { reach: 34 }\n${two("134")}`));
  });
  it("points at the other hole", () => {
    expect(relatedOf(tube(`hands: { reach: 34 }\n${two("141")}`))).toEqual(["100"]);
  });
  it("is a warning where the design states the hand, and information where it does not", () => {
    const usual = HANDS.adult.reach.indexMiddle;
    expect(severityOf(tube(`hands: { reach: 34 }\n${two("141")}`))).toEqual(["warning"]);
    expect(severityOf(tube(two(`${100 + usual + 1}`)))).toEqual(["information"]);
    expectNothing(tube(two(`${100 + usual}`)));
    expectFinding(
      tube(two("[[150]]")),
      "hands/out-of-reach",
      "hands reach 42 mm as a rule (the design states no `hands.reach`)",
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
    // Outside it is 38 mm thick: a sixth of the way round is 19.9 mm, of which 8 are easy; 15.5 with 10 mm along.
    const around = vessel(
      `hands: { reach: 15, spacing: 1 }\n${holes("name: R1, at: 40, diameter: 6", "name: R2, at: [[50]], diameter: 6, angle: 60")}`,
      "shape: tube, length: 160, diameter: 30",
    );
    expectFinding(around, "hands/out-of-reach", "15.5 mm apart");
  });
  it("is silent on holes round a vessel whose directions are not stated", () => {
    expectNothing(vessel(`hands: { reach: 5 }\n${holes("name: R1, diameter: 6", "name: R2, diameter: 6")}`));
  });
  it("is silent while a number is missing or the reach is wrong", () => {
    expect(codesOf(tube(`hands: { reach: -1 }\n${two("200")}`))).toEqual(["value/not-positive"]);
    expect(codesOf(tube(two("=nowhere")))).toEqual(["expression/unknown-name"]);
  });
});

describe("hands/fingers-too-near", () => {
  const usualHands = (entries: string) => without(tube(entries), "hands");
  const two = (at: string, more = "") =>
    holes("name: L1, at: 100, diameter: 6", `name: L2, at: ${at}, diameter: 6${more}`);

  it.each(TUBES)("marks the lower hole in a %s flute, with both numbers and what to do", (_, text) => {
    expectFinding(
      without(text(two("[[109.3]]")), "hands"),
      "hands/fingers-too-near",
      /^L1 and L2 are 9\.3 mm apart; two fingers side by side need 17 mm as a rule .*Move them 7\.7 mm farther apart .*`hands\.spacing`\.$/,
    );
    expectNothing(without(text(two("117")), "hands"));
  });
  it("is a warning where the design states how near fingers come", () => {
    expect(severityOf(usualHands(two("110")))).toEqual(["information"]);
    expect(severityOf(tube(`hands: { spacing: 12 }\n${two("110")}`))).toEqual(["warning"]);
    expectNothing(tube(`hands: { spacing: 12 }\n${two("112")}`));
  });
  it("asks for more between the hands, and less for a child", () => {
    const across = holes("name: L1, at: 100, diameter: 6", "name: R1, at: [[119]], diameter: 6");
    expectFinding(usualHands(across), "hands/fingers-too-near", "fingers of two hands side by side need 20 mm");
    expectNothing(tube(`hands: { size: child }\n${across.replace(/[[\]]{2}/g, "")}`));
    expectFinding(tube(`hands: { size: child }\n${two("[[114]]")}`), "hands/fingers-too-near", "need 15 mm");
  });
  it("takes two small holes side by side for one finger's, and what lies beside them for the next", () => {
    // 14 mm of radius outside: 60° are 11.5 mm of its surface.
    const wide = "wall: 6\n";
    const pair = holes(
      "name: L1, at: 100, diameter: 4, angle: -30",
      "name: L2, at: 101, diameter: 4, angle: 30",
      "name: L3, at: [[112]], diameter: 6",
    );
    expectFinding(usualHands(`${wide}${pair}`), "hands/fingers-too-near", "L1 and L3 are 11.5 mm apart");
    // In the middle of the pair, and as far from the axis: 40° are 7.7 mm of 11.
    const round = holes(
      "name: L1, at: 100, diameter: 4, angle: -30",
      "name: L2, at: 100, diameter: 4, angle: 30",
      "name: L3, at: [[113]], diameter: 6, angle: 40",
    );
    expectFinding(usualHands(round), "hands/fingers-too-near", "L1 and L3 are 15.1 mm apart");
    // Farther round the tube than fingers are wide they are two fingers'.
    const apart = holes("name: L1, at: 100, diameter: 4, angle: -45", "name: L2, at: 100, diameter: 4, angle: 45");
    expectNothing(usualHands(`wall: 6\n${apart}`));
  });
  it("measures on the surface: a hole turned away is farther", () => {
    // 11 mm of radius outside: 60° are 11.5 mm round, with 13 along 17.4.
    expectNothing(usualHands(two("113", ", angle: 60").replace("angle: 60", "angle: 59.9")));
    expectFinding(usualHands(two("[[113]]", ", angle: 40")), "hands/fingers-too-near", "are 15.1 mm apart");
  });
});

describe("reach by pair of fingers", () => {
  const four = (r4: string, more = "") =>
    holes(
      "name: R1, at: 100, diameter: 6",
      "name: R2, at: 130, diameter: 6",
      "name: R3, at: 160, diameter: 6",
      `name: R4, at: ${r4}, diameter: 6${more}`,
    );
  it("is less toward the little finger, and its own where the design states one", () => {
    expectFinding(tube(four("[[197]]")), "hands/out-of-reach", "R3 and R4 are 37 mm apart; hands reach 36 mm");
    expectFinding(tube(`hands: { ringLittle: 30, reach: 40 }\n${four("[[191]]")}`), "hands/out-of-reach", "30 mm");
    expectNothing(tube(`hands: { ringLittle: 38 }\n${four("197")}`));
    expect(codesOf(tube(`hands: { size: child, spacing: 1 }\n${four("188")}`))).toEqual([
      "hands/out-of-reach",
      "hands/out-of-reach",
    ]);
  });
  it("counts what a hole is turned to the side, but for a little", () => {
    // 11 mm of radius outside: 40° are 7.7 mm round, 59° are 11.3.
    expectNothing(tube(four("196", ", angle: 40")));
    expectFinding(tube(four("[[196]]", ", angle: 59")), "hands/out-of-reach", "are 36.2 mm apart");
    // Farther round than a finger rests it is still a finger's, which must reach there: 100° are 19.2 mm round. Beyond 120° it is a thumb's.
    expectFinding(tube(four("[[196]]", ", angle: 100")), "hands/out-of-reach", "are 37.7 mm apart");
    expect(codesOf(tube(four("196", ", angle: 125")))).not.toContain("hands/out-of-reach");
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
    expectNothing(tube(three("115")));
    expect(severityOf(tube(three("114")))).toEqual(["information"]);
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
  it("is information where the design does not state the fingertip", () => {
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
