/** print/longer-than-bed: what does not fit the printer as it is, in every family. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { documentOf, fileOf } from "../../support/designs.js";
import { panPipe, TUBES, vessel } from "../../support/families.js";
import { codesOf, expectFinding, expectNothing, tube } from "../../support/marked.js";

const findingsOf = (text: string) => documentOf(fileOf(text)).findings;
const message = (text: string) => findingsOf(text)[0]?.message ?? "";
const bed = (size: string) => `print: { bed: ${size} }\n`;
const LONG = "bore: [{ at: 0, diameter: 16 }, { at: 400, diameter: 16 }]\n";
const HOLES =
  "holes:\n  - { name: L1, at: 180, diameter: 7 }\n  - { name: L2, at: 205, diameter: 7 }\n  - { name: R1, at: 270, diameter: 7 }\n";

describe("print/longer-than-bed of a tube", () => {
  it.each(TUBES)("marks the bed that a %s flute does not fit", (_, text) => {
    expectFinding(
      text(bed("[[[180, 180, 180]]]")),
      "print/longer-than-bed",
      /^The tube is 3\d\d(\.\d+)? mm long and 22 mm thick, the bed 180 mm by 180 mm, 180 mm high: it does not fit/,
    );
    expectNothing(text(bed("[180, 180, 400]")));
    expectNothing(text(bed("[400, 180, 50]")));
  });
  it("is a warning that says where to split it, clear of the holes", () => {
    const text = tube(`${LONG}${bed("[220, 220, 250]")}${HOLES}`);
    expect(findingsOf(text)[0]?.severity).toBe("warning");
    // Parts of at most 250 mm: from 150 on. Roomiest there: midway between L2's edge, 208.5, and R1's, 266.5.
    expect(message(text)).toMatch(/Split it at (237|238) mm, between L2 and R1: a station there with `joint: true`\.$/);
  });
  it("is information that gives the angle where it fits lying turned, or leaning", () => {
    const turned = tube(`bore: [{ at: 0, diameter: 16 }, { at: 270, diameter: 16 }]\n${bed("[220, 220, 100]")}`);
    expect(findingsOf(turned)[0]?.severity).toBe("information");
    expect(message(turned)).toContain("it fits lying flat, turned 45° from the bed's longer edge.");
    const leaning = tube(`bore: [{ at: 0, diameter: 16 }, { at: 310, diameter: 16 }]\n${bed("[220, 220, 220]")}`);
    expect(findingsOf(leaning)[0]?.severity).toBe("warning");
    expect(findingsOf(leaning.replace("print: {", "print: { leaning: true,"))[0]?.severity).toBe("information");
    expect(message(leaning)).toMatch(
      /only from corner to corner, leaning \d+° up from the bed, on supports, and the design does not allow that .* Or split it at/,
    );
  });
  it("counts the windway and the slow air chamber above the mouth, and the stopper of a transverse flute", () => {
    const duct = (more: string) => tube(`mouth: { window: { width: 9, cutUp: 4 }${more} }\n${bed("[100, 100, 360]")}`);
    // A windway of 25 mm where none is written, a wall of 4 mm at the end of a slow chamber.
    expect(message(duct(""))).toContain("The tube is 379 mm long");
    expectNothing(duct(", windway: { length: 6 }"));
    expect(message(duct(", windway: { length: 40 }"))).toContain("The tube is 394 mm long");
    expect(message(duct(", windway: { length: 40 }, chamber: { length: 60 }"))).toContain("The tube is 458 mm long");
    const flute = tube(
      "family: transverse\nmouth: { hole: { length: 10 }, stopper: 20 }\nprint: { bed: [100, 100, 360] }",
    );
    // The stopper's own 16 mm, and 3 mm of tube beyond.
    expect(message(flute)).toContain("The tube is 391 mm long");
  });
  it("measures the size on the bed: print scale, not yet shrunk", () => {
    const scaled = (print: string) => tube(`print: { bed: [100, 100, 352], ${print} }`);
    expectNothing(scaled("scale: 100 %"));
    expectNothing(scaled("shrinkage: -2 %"));
    expect(message(scaled("scale: 101 %"))).toContain("The tube is 355.5 mm long");
  });
  it("looks at each part between joints by itself", () => {
    const parted = (at: string) =>
      tube(
        `bore: [{ at: 0, diameter: 16 }, { at: ${at}, diameter: 16, joint: true }, { at: 400, diameter: 16 }]\n${bed("[150, 150, 250]")}`,
      );
    // The lower part has a tenon, as long as the bore is wide.
    expectNothing(parted("166"));
    expect(message(parted("165"))).toMatch(/^The part that ends at 400 mm is 251 mm long with its tenon/);
    expect(message(parted("100"))).toMatch(/^The part that ends at 400 mm is 316 mm long.*Split it at/);
    expect(message(parted("300"))).toMatch(/^The part that ends at 300 mm is 300 mm long/);
  });
  it("splits into more parts where two are too long", () => {
    const text = tube(`bore: [{ at: 0, diameter: 16 }, { at: 700, diameter: 16 }]\n${bed("[150, 150, 250]")}`);
    expect(message(text)).toMatch(/Split it at [\d.]+ mm(, \w[^,]*)? and at [\d.]+ mm/);
  });
  it("splits in the middle where nothing is in the way, and never off a few millimetres", () => {
    const text = tube(`bore: [{ at: 0, diameter: 16 }, { at: 300, diameter: 16 }]\n${bed("[150, 150, 299]")}`);
    expect(message(text)).toMatch(/plit it at 150 mm: /);
  });
  it("leaves each part the length of the tenon that the next one puts into it", () => {
    // Two parts do not do: the lower one would be 161 mm and a tenon of 24. Three: halfway, and halfway again from there.
    const text = tube(`bore: [{ at: 0, diameter: 24 }, { at: 314, diameter: 24 }]\n${bed("[161, 161, 161]")}`);
    expect(message(text)).toMatch(/plit it at 157 mm and at 235 mm: /);
  });
  it("says so where holes leave no room for a joint", () => {
    const crowded = Array.from({ length: 24 }, (_, i) => `  - { at: ${20 + 15 * i}, diameter: 8 }`).join("\n");
    const text = `${LONG}hands: { reach: 50, spacing: 15 }\n${bed("[180, 180, 220]")}holes:\n${crowded}\n`;
    expect(message(tube(text))).toContain("There is no room for a joint between its holes: print it smaller");
  });
  it("names places that take a joint, after which nothing is left to say, wherever the holes are", () => {
    const tubes = fc.record({
      foot: fc.integer({ min: 300, max: 900 }),
      edge: fc.integer({ min: 180, max: 300 }),
      scale: fc.integer({ min: 80, max: 120 }),
      gaps: fc.array(fc.integer({ min: 12, max: 40 }), { maxLength: 6 }),
    });
    fc.assert(
      fc.property(tubes, ({ foot, edge, scale, gaps }) => {
        const places = gaps.map((_, i) => gaps.slice(0, i + 1).reduce((at, gap) => at + gap, 100));
        const holes = places.map((at) => `  - { at: ${at}, diameter: 6 }`);
        const text = (stations: readonly string[]) =>
          tube(
            `bore: [{ at: 0, diameter: 16 }, ${stations.map((station) => `{ at: ${station}, diameter: 16, joint: true }, `).join("")}{ at: ${foot}, diameter: 16 }]\n` +
              `print: { bed: [${edge}, ${edge}, ${edge}], scale: ${scale} % }\n${holes.length > 0 ? `holes:\n${holes.join("\n")}\n` : ""}`,
          );
        const split = /plit it at (.*): a station/.exec(message(text([])))?.[1] ?? "";
        const joints = split.match(/[\d.]+(?= mm)/g) ?? [];
        if (joints.length > 0) expect(codesOf(text(joints))).toEqual([]);
        // Tenons are as long as the bore is wide.
        for (const [i, at] of joints.entries())
          expect(Number(at) - Number(joints[i - 1] ?? 0)).toBeGreaterThanOrEqual(16);
      }),
      { seed: 5, numRuns: 80 },
    );
  });
  it("is silent without a bed, and for one that is not whole", () => {
    expectNothing(tube(LONG));
    expect(codesOf(tube(`${LONG}${bed("[220, 220]")}`))).toEqual(["schema/wrong-count"]);
    expect(codesOf(tube(`${LONG}${bed("[220, -1, 220]")}`))).toEqual(["value/not-positive"]);
  });
  it("speaks in inches where the design does", () => {
    const text = tube(
      "units: in\nwall: 0.12\nbore: [{ at: 0, diameter: 0.63 }, { at: 14, diameter: 0.63 }]\nprint: { bed: [4, 4, 8] }",
    );
    expect(message(text)).toMatch(
      /^The tube is 14 in long and 0\.87 in thick, the bed 4 in by 4 in, 8 in high.*Split it at [\d.]+ in/,
    );
  });
  it("survives absurd numbers of a printer", () => {
    for (const foot of ["1e300", "1e-300", "1e9"])
      expect(() =>
        codesOf(tube(`bore: [{ at: 0, diameter: 16 }, { at: ${foot}, diameter: 16 }]\n${bed("[220, 220, 250]")}`)),
      ).not.toThrow();
  });
});

describe("print/longer-than-bed of a pan pipe", () => {
  it("takes the row as one block", () => {
    // 158 + 2 long; 15 + 15 + 13 + 4 walls of 2 are 51 wide; 15 + 4 thick.
    expectNothing(panPipe(`wall: 2\n${bed("[160, 51, 19]")}`));
    expectFinding(
      panPipe(`wall: 2\n${bed("[[[159, 51, 19]]]")}`),
      "print/longer-than-bed",
      "The row of pipes is 160 mm long, 51 mm wide and 19 mm thick, the bed 159 mm by 51 mm, 19 mm high: it does not fit",
    );
  });
  it("says whether groups of pipes would fit", () => {
    expect(message(panPipe(`wall: 2\n${bed("[200, 45, 45]")}`))).toContain("groups of fewer pipes");
    expect(message(panPipe(`wall: 2\n${bed("[100, 100, 50]")}`))).toContain("Its longest pipe alone does not fit");
  });
  it("takes the usual wall where none is stated", () => {
    expect(message(panPipe(bed("[159, 51, 19]")))).toContain("159.5 mm long, 49 mm wide and 18 mm thick");
  });
});

describe("print/longer-than-bed of a vessel", () => {
  it("takes its outer size", () => {
    expectNothing(vessel(bed("[98, 68, 53]")));
    expectFinding(
      vessel(bed("[[[90, 90, 53]]]")).replace("length: 90", "length: 120"),
      "print/longer-than-bed",
      "The vessel is 128 mm long, 68 mm wide and 53 mm high outside",
    );
  });
  it("takes a tube's length and width, and a sphere of the volume where only that is known", () => {
    expect(message(vessel(bed("[60, 60, 60]"), "shape: tube, length: 100, diameter: 30"))).toContain(
      "108 mm long, 38 mm wide and 38 mm high",
    );
    // A sphere of 113.1 cm³ is 60 mm across.
    expect(findingsOf(vessel(bed("[60, 60, 60]"), "volume: 113.1")).at(-1)?.message).toMatch(/68 mm long, 68 mm wide/);
  });
});
