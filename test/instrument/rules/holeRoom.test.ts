/** hole/too-near and hole/near-joint: wall that is left, but too little of it. */
import { describe, expect, it } from "vitest";
import { documentOf, fileOf } from "../../support/designs.js";
import { TUBES, vessel } from "../../support/families.js";
import { codesOf, expectFinding, expectNothing, tube, without } from "../../support/marked.js";

const holes = (...entries: readonly string[]) => `holes:\n${entries.map((entry) => `  - { ${entry} }`).join("\n")}\n`;
const relatedOf = (text: string) =>
  documentOf(fileOf(text))
    .findings.find(({ code }) => code.startsWith("hole/"))
    ?.related?.map(({ span }) => text.slice(span.start, span.end));

describe("hole/too-near", () => {
  const two = (at: string) => holes("name: L1, at: 100, diameter: 8", `name: L2, at: ${at}, diameter: 6`);

  it.each(TUBES)("marks the later of two holes with little wall between them in a %s flute", (_, text) => {
    expectFinding(
      text(two("[[108]]")),
      "hole/too-near",
      /^Between L1 and L2 only 1 mm of wall is left; it needs 1\.6 mm.*`print\.holeGap`\.$/,
    );
    expectNothing(text(two("108.6")));
    expectNothing(text(`print: { holeGap: 1 }\n${two("108")}`));
    expectFinding(text(`print: { holeGap: 2 }\n${two("[[108.6]]")}`), "hole/too-near", "it needs 2 mm");
  });
  it("names the nearest hole, be it not the one listed before", () => {
    const three = holes(
      "name: L1, at: 100, diameter: 8",
      "name: T, at: 101, diameter: 8, side: back",
      "name: L2, at: [[109]], diameter: 8",
    );
    expectFinding(tube(three), "hole/too-near", "Between L1 and L2 only 1 mm");
  });
  it("points at the other hole", () => expect(relatedOf(tube(two("108")))).toEqual(["100"]));
  it("leaves holes without any wall between them to hole/overlap", () => {
    expect(codesOf(tube(two("107")))).toEqual(["hole/overlap"]);
    expect(codesOf(tube(two("106")))).toEqual(["hole/overlap"]);
  });
  it("measures the finished print, where undersized holes leave more wall", () => {
    expectFinding(tube(`print: { scale: 90 % }\n${two("[[108.6]]")}`), "hole/too-near", "1.4 mm");
    expectNothing(tube(`print: { scale: 90 %, holeUndersize: 0.2 }\n${two("108.6")}`));
  });
  it("goes around the bore", () => {
    // Around a bore of 16 mm, 90 degrees are 12.57 mm of its surface.
    const turned = (diameter: string) =>
      holes(`name: A, at: 100, diameter: ${diameter}`, `name: B, at: [[100]], diameter: ${diameter}, angle: 90`);
    expectFinding(tube(turned("11.5")), "hole/too-near", "1.1 mm");
    expectNothing(tube(turned("10.9").replace(/\[\[|\]\]/g, "")));
  });
  it("measures an oval hole by its length along the bore", () => {
    const oval = (at: string) =>
      tube(holes("name: L1, at: 100, diameter: 6, length: 10", `name: L2, at: ${at}, diameter: 6`));
    expectFinding(oval("[[109]]"), "hole/too-near", "only 1 mm of wall");
    expectNothing(oval("109.6"));
  });

  it.each(TUBES)("marks a hole near the foot's end of a %s flute, unless the foot is stopped", (_, text) => {
    const low = (at: string) => holes(`name: R3, at: ${at}, diameter: 6`);
    expectFinding(text(low("[[348]]")), "hole/too-near", "Between R3 and the foot's end only 1 mm of wall");
    expectNothing(text(low("347.4")));
    expectNothing(text(`foot: stopped\n${low("348")}`));
    // The foot is the last station, however many there are.
    const bore = "bore: [{ at: -20, diameter: 16 }, { at: 200, diameter: 16 }, { at: 352, diameter: 16 }]\n";
    expectFinding(text(`${bore}${low("[[348]]")}`), "hole/too-near", "Between R3 and the foot's end only 1 mm");
  });
  it("marks a hole near the mouth", () => {
    const high = (at: string) =>
      tube(`mouth: { window: { width: 9, cutUp: 4 } }\n${holes(`name: V, at: ${at}, diameter: 6`)}`);
    expectFinding(high("[[6]]"), "hole/too-near", "Between V and the mouth only 1 mm of wall");
    expectNothing(high("6.6"));
  });
  it("marks a hole near an end that is blown, though the family is not told yet", () => {
    const text = without(tube(`mouth: { cover: 0.6 }\n${holes("name: V, at: [[4]], diameter: 6")}`), "family");
    expectFinding(text, "hole/too-near", "Between V and the mouth only 1 mm of wall", { alone: false });
  });
  it("marks a hole near the mouth before the bore is drawn, not one near a foot that nobody knows", () => {
    const text = (at: string) =>
      without(tube(`mouth: { window: { width: 9, cutUp: 4 } }\n${holes(`name: V, at: ${at}, diameter: 6`)}`), "bore");
    expectFinding(text("[[6]]"), "hole/too-near", "Between V and the mouth only 1 mm of wall", { alone: false });
    expect(codesOf(text("348"))).toEqual(["design/incomplete"]);
  });
  it("marks openings round a vessel", () => {
    // On a sphere of 60 mm inside, 20 degrees are a chord of 2 · 30 · sin 10° = 10.42 mm.
    const round = (diameter: string) =>
      vessel(
        `hands: { spacing: 1 }\n${holes(`name: R1, angle: 90, diameter: ${diameter}`, `name: R2, angle: 110, diameter: ${diameter}`)}`,
        "shape: sphere, diameter: 60",
      );
    expectFinding(
      round("9").replace("angle: 110, diameter: 9", "angle: 110, diameter: [[9]]"),
      "hole/too-near",
      "Between R1 and R2 only 1.4 mm",
    );
    expectNothing(round("8.8"));
    expect(relatedOf(round("9"))).toEqual(["9"]);
  });
  it("marks a hole beside a vessel's mouth, and points at that", () => {
    // 25 degrees are a chord of 2 · 30 · sin 12.5° = 12.99 mm; the mouth is 9 mm wide.
    const beside = (diameter: string) =>
      vessel(
        `hands: { fingertip: 20 }\n${holes(`name: R1, angle: 25, diameter: ${diameter}`)}`,
        "shape: sphere, diameter: 60",
      );
    expectFinding(beside("[[14]]"), "hole/too-near", "Between the mouth and R1 only 1.5 mm");
    expect(relatedOf(beside("14"))).toEqual(["{ width: 9, cutUp: 5 }"]);
  });
  it("marks holes along a vessel that is a tube", () => {
    const along = (at: string) =>
      vessel(
        `hands: { spacing: 1 }\n${holes("name: R1, at: 60, diameter: 8", `name: R2, at: ${at}, diameter: 8`)}`,
        "shape: tube, length: 160, diameter: 30",
      );
    expectFinding(along("[[69]]"), "hole/too-near", "only 1 mm");
    expectNothing(along("70"));
  });
});

describe("hole/near-joint", () => {
  const body = (at: string, more = "") => {
    const bore = "bore: [{ at: 0, diameter: 16 }, { at: 150, diameter: 16, joint: true }, { at: 352, diameter: 16 }]\n";
    return tube(
      `mouth: { window: { width: 9, cutUp: 4 } }\n${bore}${more}${holes(`name: L1, at: ${at}, diameter: 6`)}`,
    );
  };

  // Upstream lies the tenon: as long as the bore is wide, 16 mm, 0.3 mm of play before its tip and a ring of 3 mm beyond.
  it.each([
    ["[[162]]", "10 mm"],
    ["[[138]]", "19.3 mm"],
  ])("marks a hole at %s, nine millimetres from the joint: %s are needed there", (at, wanted) => {
    expectFinding(
      body(at),
      "hole/near-joint",
      `L1 is only 9 mm from the joint at 150 mm; socket and tenon need ${wanted}`,
    );
  });
  it("is silent from the clearance on, stated or usual", () => {
    expectNothing(body("163"));
    expectNothing(body("127.7"));
    expectNothing(body("131.7", "solid: { tenon: { length: 12 } }\n"));
    expectFinding(body("[[128]]"), "hole/near-joint", "19.3 mm");
    expectNothing(body("138", "print: { jointClearance: 9 }\n"));
    expectNothing(body("162", "print: { jointClearance: 9 }\n"));
    expectFinding(body("[[170]]", "print: { jointClearance: 18 }\n"), "hole/near-joint", "need 18 mm");
  });
  it("points at the joint", () => expect(relatedOf(body("162"))).toEqual(["true"]));
  it("says so where the joint cuts the hole", () => {
    expectFinding(body("[[151]]"), "hole/near-joint", "L1 is cut by the joint");
  });
  it("looks at the mouth, too", () => {
    const bore =
      "bore: [{ at: -20, diameter: 19 }, { at: 12, diameter: 19, joint: true }, { at: 500, diameter: 19 }]\n";
    expectFinding(
      tube(`family: transverse\n${bore}mouth: { hole: [[{ length: 10, width: 10 }]], stopper: 19 }`),
      "hole/near-joint",
      "The embouchure hole is only 7 mm from the joint",
    );
    const undersized = `print: { holeUndersize: 0.2 }\n${bore.replace("at: 12", "at: 27.2")}`;
    expectNothing(tube(`family: transverse\n${undersized}mouth: { hole: { length: 10, width: 10 }, stopper: 19 }`));
  });
  it("finds no joint at an unmarked station, nor at an end", () => {
    expectNothing(body("162").replace("joint: true", "joint: false"));
    expectNothing(
      tube(`bore: [{ at: 0, diameter: 16 }, { at: 352, diameter: 16, joint: true }]\n${holes("at: 345, diameter: 6")}`),
    );
  });
});
