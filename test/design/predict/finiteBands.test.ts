/** Bands are finite numbers of cents, and two dimensions that fall on one another make no jump of them. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { analyse } from "../../../server/src/design/predict/analyse.js";
import { bandsOf } from "../../../server/src/design/predict/band.js";
import { documentOf, fileOf } from "../../support/designs.js";
import { instrumentTexts } from "../../support/instruments.js";

/** Widest band of a design, cents. */
function widest(text: string): number {
  const { resolution } = documentOf(fileOf(text));
  const bands = bandsOf(resolution, analyse(resolution.instrument));
  if (bands.length === 0 || bands.some((band) => band === undefined)) throw new Error("a note without a band");
  return Math.max(...bands.map((band) => band?.cents ?? 0));
}

const stepped = (first: number, second: number) => `borewright: 1
family: rim
key: G4
mouth: { cover: 0.6 }
bore: [ { at: 0, diameter: 19 }, { at: ${first}, diameter: 19 }, { at: ${second}, diameter: 13 }, { at: 380, diameter: 13 } ]
wall: 3
fingerings: [ { degree: 1, holes: "" } ]
`;

const twoHoles = (first: number, second: number, angle: number, wide = 4) => `borewright: 1
family: duct
key: F4
mouth: { window: { width: 12.5, cutUp: 4.3 } }
bore: [ { at: 0, diameter: 20 }, { at: 430, diameter: 20 } ]
wall: 5
holes: [ { at: ${first}, diameter: ${wide}, angle: ${-angle} }, { at: ${second}, diameter: ${wide}, angle: ${angle} } ]
fingerings: [ { degree: 1, holes: xx }, { degree: b2, holes: xo }, { degree: 2, holes: oo } ]
`;

describe("bands of cents", () => {
  it("are finite for any instrument, and no wider than anything a print does", () => {
    fc.assert(
      fc.property(instrumentTexts, (text) => {
        const { resolution } = documentOf(fileOf(text));
        const analysis = analyse(resolution.instrument);
        for (const band of bandsOf(resolution, analysis)) {
          const cents = band === undefined ? [] : [band.cents, band.together, band.against];
          for (const each of cents) expect(each).toBeLessThan(5000);
        }
      }),
      { numRuns: 75 },
    );
  });

  it("do not jump where two stations become a step of the bore", () => {
    const step = widest(stepped(374, 374));
    expect(step).toBeLessThan(100);
    expect(Math.abs(widest(stepped(373.9, 374)) - step)).toBeLessThan(3);
  });

  it.each([
    ["lie at one place", 0, 4],
    // Beyond 2.6 bore radii apart, one hole's outflow is no longer felt at the other.
    ["come to be coupled", 26, 4],
  ])("do not jump where two holes %s", (_, apart, wide) => {
    const angle = apart === 0 ? 30 : 0;
    const there = widest(twoHoles(340, 340 + apart, angle, wide));
    expect(there).toBeLessThan(100);
    expect(Math.abs(widest(twoHoles(340, 340 + apart + 0.1, angle, wide)) - there)).toBeLessThan(3);
  });
});

/** A tube blown in its middle; two of its holes touch where `second` is 6.5. */
const touching = (second: number) => `borewright: 1
family: vessel
key: G4
mouth: { window: { width: 4, cutUp: 1.8 } }
vessel: { shape: tube, length: 26, diameter: 22.9 }
wall: 1.6
holes: [ { diameter: 4, at: 3.25 }, { diameter: 2, at: ${second} }, { diameter: 4.5, at: 9.75 } ]
fingerings: [ { degree: 5, holes: ●●○ }, { degree: 1, holes: ●○○ } ]
`;

it("bands do not jump where two holes of a tube touch", () => {
  const there = widest(touching(6.5));
  expect(there).toBeLessThan(200);
  expect(Math.abs(widest(touching(6.4)) - there)).toBeLessThan(10);
});

it("a bore of a hair's width is a finding, not a band", () => {
  const { findings, resolution } = documentOf(
    fileOf(twoHoles(340, 350, 30).replaceAll("diameter: 20", "diameter: 0.02")),
  );
  const found = findings.filter(({ code }) => code === "value/out-of-range");
  expect(found.map(({ message }) => message).join()).toMatch(/diameter` of station 1 must be at least 1 mm/);
  expect(bandsOf(resolution, analyse(resolution.instrument))).toEqual([undefined, undefined, undefined]);
});
