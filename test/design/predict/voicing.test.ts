/** The jet of an instrument, from its sizes and, where it is silent, from common practice (SOLID_DEFAULTS, JET_DEFAULTS; no source). */
import { describe, expect, it } from "vitest";
import { blowingOf } from "../../../server/src/design/predict/voicing.js";
import { sharedColumn } from "../../../server/src/instrument/body.js";
import { WHISTLE } from "../../support/designs.js";
import { instrumentOf, tube } from "../../support/marked.js";

/** Sizes in mm, mm² where they are areas. */
function blowing(text: string) {
  const instrument = instrumentOf(text);
  const column = sharedColumn(instrument.body);
  const found = column && blowingOf(instrument, column);
  if (found === undefined) return undefined;
  const { voicing, windway, ...rest } = found;
  const mm = (sizes: object) =>
    Object.fromEntries(
      Object.entries(sizes).map(([name, value]) => [name, Number((value * (name === "area" ? 1e6 : 1e3)).toFixed(6))]),
    );
  return { ...rest, voicing: mm(voicing), ...(windway && { windway: mm(windway) }) };
}
const duct = (more: string) => WHISTLE.replace("cutUp: 4.5, labium: 1 }", more);
const across = (lips = "") =>
  tube(
    `family: transverse\nmouth: { hole: { length: 10, width: 11 }, stopper: 16, cover: 0.4${lips} }\nbore: [{ at: -16, diameter: 16 }, { at: 352, diameter: 16 }]\n`,
  );

describe("a windway", () => {
  it("makes the jet as high as its exit, and is as a solid has it where nothing is said", () => {
    expect(blowing(WHISTLE)).toEqual({
      voicing: { cutUp: 4.5, width: 9.82, height: 1.2, offset: 0.1, area: 44.19 },
      windway: { length: 25, entry: 1.6, exit: 1.2 },
      lips: false,
      assumed: ["windway 1.2 mm high"],
      isNoJet: false,
    });
    // A channel apart from the bore is as high at its entry as at its exit.
    expect(blowing(duct("cutUp: 4.5, stopper: 3 }"))).toMatchObject({
      windway: { length: 22, entry: 1.1, exit: 1.1 },
      assumed: ["windway 1.1 mm high"],
    });
    expect(
      blowing(duct("cutUp: 4.5 }\n  windway: { length: 30, height: 0.9, entry: 1.5, labium: 0.3 }")),
    ).toMatchObject({
      voicing: { height: 0.9, offset: 0.3 },
      windway: { length: 30, entry: 1.5, exit: 0.9 },
      assumed: [],
    });
  });
  it("passes the edge at most by its own height; else the edge is taken where a solid has it", () => {
    const labium = (offset: number) => blowing(duct(`cutUp: 4.5 }\n  windway: { height: 0.9, labium: ${offset} }`));
    for (const offset of [0.9, -0.9])
      expect(labium(offset)).toMatchObject({ voicing: { height: 0.9, offset: 0.9 }, assumed: [], isNoJet: false });
    for (const offset of [0.91, -0.91])
      expect(labium(offset)).toMatchObject({
        voicing: { height: 0.9, offset: 0.1 },
        assumed: ["labium 0.1 mm off the jet's middle"],
        isNoJet: true,
      });
  });
  it.each([
    [2.25, 2.25],
    [2.26, 1.2],
    [0.151, 0.151],
    [0.149, 1.2],
  ])("stated %d mm high makes a jet %d mm high: from a thirtieth to half of the way to the edge", (stated, height) => {
    expect(blowing(duct(`cutUp: 4.5 }\n  windway: { height: ${stated} }`))).toMatchObject({
      voicing: { height },
      isNoJet: stated !== height,
    });
  });
});

describe("lips", () => {
  it("are as usual where nothing is said of them, by their mouth", () => {
    // Of the hole's 11 mm a lip leaves 0.6.
    expect(blowing(across())).toEqual({
      voicing: { cutUp: 6.6, width: 10, height: 1, offset: 0, area: Number(((0.6 * Math.PI * 110) / 4).toFixed(6)) },
      lips: true,
      assumed: ["lips 1 mm apart and 10 mm wide"],
      isNoJet: false,
    });
    // Over the end of a bore of 16 mm.
    expect(blowing(tube("family: rim\nmouth: { cover: 0.75 }\n"))).toMatchObject({
      voicing: { cutUp: 4, width: 9, height: 1, area: 36 },
      assumed: ["lips 1 mm apart and 9 mm wide"],
    });
    // The bore is as wide as it is at the mouth, wherever its stations are: 20 mm less 8 by 5 of 357 mm.
    const cone = "family: rim\nmouth: { cover: 0.75 }\nbore: [{ at: -5, diameter: 20 }, { at: 352, diameter: 12 }]\n";
    expect(blowing(tube(cone))?.voicing.cutUp).toBeCloseTo(0.25 * (20 - (8 * 5) / 357), 5);
    // As wide as the notch; lips lie 5 mm from its edge.
    const notch = blowing(tube("family: rim\nmouth: { cover: 0.6, notch: { width: 8.26, depth: 4 } }\n"));
    expect(notch).toMatchObject({ voicing: { width: 8.26, height: 1 }, assumed: ["lips 1 mm apart and 8.3 mm wide"] });
  });
  it("are as stated, what is not stated as usual", () => {
    expect(blowing(across(", lips: { gap: 0.8, width: 12, distance: 5 }"))).toMatchObject({
      voicing: { cutUp: 5, width: 12, height: 0.8 },
      assumed: [],
    });
    expect(blowing(across(", lips: { gap: 0.8 }"))?.assumed).toEqual(["lips 10 mm wide"]);
    expect(blowing(across(", lips: { width: 12 }"))?.assumed).toEqual(["lips 1 mm apart"]);
    expect(blowing(across(", lips: { gap: 4 }"))).toMatchObject({ voicing: { height: 1 }, isNoJet: true });
  });
});

it("a textbook's or a measured mouth has no jet", () => {
  expect(blowing(tube(""))).toBeUndefined();
  expect(blowing(tube("mouth: { correction: 40 }\n"))).toBeUndefined();
});
