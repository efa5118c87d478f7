/** Bore, mouth and holes grown by a share of the length's growth before the notes are solved for: widths worked out by hand. */
import { describe, expect, it } from "vitest";
import { Cancelled } from "../../../server/src/acoustics/cancelled.js";
import { closedOctaves } from "../../../server/src/design/refit/closedOctaves.js";
import { grownDrawing } from "../../../server/src/design/refit/grownDrawing.js";
import { retune } from "../../../server/src/design/refit/rekeyByRefit.js";
import { rekey } from "../../../server/src/design/rekey/rekey.js";
import { applyEdits } from "../../../server/src/document/edits.js";
import { checked, documentOf, fileOf } from "../../support/designs.js";
import { panPipe, vessel } from "../../support/families.js";
import { tube } from "../../support/marked.js";
import { note } from "../../support/vessel.js";

/** What has changed, and to what, when the length grows by `factor`. */
function grown(text: string, factor: number, growth: number) {
  const file = fileOf(text);
  const { edits, moves } = grownDrawing(file, documentOf(file), factor, growth);
  const after = documentOf(fileOf(applyEdits(text, edits))).resolution.numbers;
  for (const { path, to } of moves) expect(after.find((number) => number.path.join() === path.join())?.value).toBe(to);
  return Object.fromEntries(moves.map(({ path, to }) => [path.join("."), to]));
}

describe("a drawing grown", () => {
  it("has bore and mouth wider by the power, holes by two thirds of it; places and walls stay but those before the mouth", () => {
    const text = tube(
      `family: transverse
mouth: { hole: { length: 10, width: 12 }, stopper: 17, cover: 0.3 }
bore: [{ at: -20, diameter: 20 }, { at: 0, diameter: 19 }, { at: 352, diameter: 16, fixed: true }]
wall: 4
holes: [{ at: 150, diameter: 8, length: 10 }, { at: 250, diameter: 5, fixed: true }]
`,
    );
    // 8 to the power of 1/3 is 2, of 2/9 1.587.
    expect(grown(text, 8, 1 / 3)).toEqual({
      "bore.0.diameter": 40,
      "bore.1.diameter": 38,
      "bore.0.at": -40,
      "mouth.hole.length": 20,
      "mouth.hole.width": 24,
      "mouth.stopper": 34,
      "holes.0.diameter": 12.7,
      "holes.0.length": 15.9,
    });
    expect(grown(text, 8, 0)).toEqual({});
  });
  it("has a window, its stopper and windway as wide as the bore, and a notch", () => {
    const duct = tube(
      "mouth: { window: { width: 9, cutUp: 4, stopper: 3 }, windway: { length: 30, width: 9, height: 1 } }\nbore: [{ at: 0, diameter: 16 }, { at: 352, diameter: 16 }]\n",
    );
    expect(grown(duct, 2, 1)).toEqual({
      "bore.0.diameter": 32,
      "bore.1.diameter": 32,
      "mouth.window.width": 18,
      "mouth.window.cutUp": 8,
      "mouth.window.stopper": 6,
      "mouth.windway.width": 18,
    });
    const notch = tube("family: rim\nmouth: { notch: { width: 8, depth: 4 } }\n");
    expect(grown(notch, 2, 1)).toMatchObject({ "mouth.notch.width": 16 });
    expect(grown(notch, 2, 1)).not.toHaveProperty("mouth.notch.depth");
  });
  it("of pipes has each of them wider, of a vessel nothing", () => {
    expect(grown(panPipe(""), 4, 1 / 2)).toEqual({
      "pipes.0.diameter": 30,
      "pipes.1.diameter": 30,
      "pipes.2.diameter": 26,
    });
    expect(grown(vessel("holes: [{ diameter: 6, angle: 90 }]"), 2, 1)).toEqual({});
  });
  it("of a cylinder is one of the tubes at hand, the nearest, and its mouth with it; a shaped bore follows the power", () => {
    const stock = "mouth: { window: { width: 8, cutUp: 4 } }\nstock: { bores: [12.25, 20.32, 30] }\n";
    expect(grown(tube(stock), 2, 1 / 2)).toEqual({
      "bore.0.diameter": 20.32,
      "bore.1.diameter": 20.32,
      // 20.32 : 16 of the width.
      "mouth.window.width": 10.2,
      "mouth.window.cutUp": 5.1,
    });
    // 16 times 1.6 is 25.6, nearer to 30 than to 20.32 in proportion; times 1.5 is 24, nearer to the other.
    expect(grown(tube(stock), 1.6, 1)["bore.0.diameter"]).toBe(30);
    expect(grown(tube(stock), 1.5, 1)["bore.0.diameter"]).toBe(20.32);
    const shaped = tube(`${stock}bore: [{ at: 0, diameter: 16 }, { at: 352, diameter: 15 }]\n`);
    expect(grown(shaped, 1.5, 1)).toMatchObject({ "bore.0.diameter": 24, "bore.1.diameter": 22.5 });
  });
  it("stops when told to", () => {
    const file = fileOf(tube("parameters: { a: 16 }\nbore: [{ at: 0, diameter: =a }, { at: 352, diameter: =a }]\n"));
    expect(() => grownDrawing(file, documentOf(file), 2, 1, () => true)).toThrow(Cancelled);
  });
});

/** Nothing of it lies on the drawing's steps: what is not meant to grow must stay to the letter. */
const OFF_STEP = tube(
  "mouth: { window: { width: 9.03, cutUp: 4.07 } }\nholes: [{ at: 250.02, diameter: 7 }]\nfingerings: [{ degree: 1, holes: x }, { degree: 5, holes: o }]\n",
);

it("in its own key nothing grows, nor in another where nothing is said of growth", () => {
  const mouth = "window: { width: 9.03, cutUp: 4.07 }";
  const own = retune(fileOf(`${OFF_STEP}refit: { growth: 0.75 }\n`), 0, "all");
  expect(own.moves.length).toBeGreaterThan(0);
  expect(own.text).toContain(mouth);
  expect(rekey(fileOf(OFF_STEP), 0, note("A4"), "refit").text).toContain(mouth);
  expect(rekey(fileOf(`${OFF_STEP}refit: { growth: 0.75 }\n`), 0, note("A4"), "refit").text).not.toContain(mouth);
});

describe("the octave of a tube with every hole closed", () => {
  const text = (bore: string, refit = "") =>
    tube(
      `mouth: ideal\nbore:\n${bore}holes: [{ at: 200, diameter: 7 }]\nfingerings: [{ note: G4, holes: x }, { note: G5, holes: x, register: 2 }, { note: C5, holes: o }]\n${refit}`,
    );
  const said = (design: string, cents: readonly (number | undefined)[]) => {
    const { analysis } = checked(design);
    const fingerings = analysis.fingerings.map((each, i) => ({ ...each, cents: cents[i] }));
    return closedOctaves({ ...analysis, fingerings, tolerance: 10 }, documentOf(fileOf(design)).resolution)[0] ?? "";
  };
  const ends = "  - { at: 0, diameter: 16 }\n  - { at: 352, diameter: 16 }\n";
  const station = (at: number) => ends.replace("\n", `\n  - { at: ${at}, diameter: 16 }\n`);

  it("is named where half of what it is wrong by is out of tolerance, whichever note is the lower", () => {
    expect(said(text(ends), [-12, 9, 40])).toMatch(
      /^G4 and G5, fingered with every hole closed, lie 21\.0 cents off their interval: no hole brings both closer than 10\.5\. Only the bore's shape does: give it a station between the mouth and the first hole, and let it change: `refit: \{ taper: free \}`\.$/,
    );
    expect(said(text(ends), [12, -9, -40])).toMatch(/^G5 and G4, .* lie 21\.0 cents/);
    expect(said(text(ends), [-10, 10, 40])).toBe("");
    expect(said(text(ends), [undefined, 30, 40])).toBe("");
  });
  it("wants what the bore has not got: a station above the first hole, a taper that may change", () => {
    const off = [-12, 9, 0];
    expect(said(text(station(100)), off)).toMatch(
      /Only the bore's shape does: let it change: `refit: \{ taper: free \}`\.$/,
    );
    expect(said(text(ends, "refit: { taper: free }\n"), off)).toMatch(
      /Only the bore's shape does: give it a station between the mouth and the first hole\.$/,
    );
    expect(said(text(station(100), "refit: { taper: free }\n"), off)).toBe("");
    for (const beside of [200, 300])
      expect(said(text(station(beside), "refit: { taper: free }\n"), off)).toContain("give it a station");
  });
  it("is none of a vessel's", () => {
    const { analysis } = checked(vessel("holes: [{ diameter: 6, angle: 90 }]"));
    expect(closedOctaves(analysis, { draft: {} } as Parameters<typeof closedOctaves>[1])).toEqual([]);
  });
});
