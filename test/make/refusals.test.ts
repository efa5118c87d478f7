/** What cannot be made is said at its place, and nothing is built. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { placeFinding } from "../../server/src/document/place.js";
import { stl } from "../../server/src/make/file/stl.js";
import { CannotMake, makeSolid } from "../../server/src/make/solid/build.js";
import { documentOf, fileOf, WHISTLE } from "../support/designs.js";
import { vessel } from "../support/families.js";
import { tube } from "../support/marked.js";
import { readStl, topology } from "../support/mesh.js";
import { seededDesign } from "../support/seededDesigns.js";
import { refusals } from "../support/solids.js";

const jointed = (at: number, more = "") =>
  WHISTLE.replace("  - { at: 394.1", `  - { at: ${at}, diameter: =tube, joint: true }\n  - { at: 394.1`) + more;
const TWO_CHAMBERS = WHISTLE.replace(
  "cutUp: 4.5, labium: 1 }",
  "cutUp: 4.5, stopper: 3 }\n  chamber: { length: 60, diameter: 16 }\n  windway: { length: 22, width: 9, height: 1 }\n  block: { length: 40, width: 16, height: 12 }",
).replace("wall: 3,", "wall: 4,");

describe("a solid is refused", () => {
  it.each([
    ["a mouth that is no thing", tube("mouth: ideal\n"), "solid/no-mouth mouth"],
    ["a mouth that is only a length", tube("family: transverse\nmouth: { correction: 40 }\n"), "solid/no-mouth mouth"],
    ["a wall thinner than the printer closes", WHISTLE.replace("wall: 3,", "wall: 1,"), "solid/wall-too-thin wall"],
    [
      "a windway as high as the wall",
      WHISTLE.replace("cutUp: 4.5, labium: 1 }", "cutUp: 4.5 }\n  windway: { length: 20, width: 9, height: 3 }"),
      "solid/wall-too-thin mouth.windway.height",
    ],
    [
      "a windway wider than the body",
      WHISTLE.replace("cutUp: 4.5, labium: 1 }", "cutUp: 4.5 }\n  windway: { length: 20, width: 17, height: 1 }"),
      "solid/no-room mouth.windway.width",
    ],
    [
      "a window less deep than the wall",
      WHISTLE.replace("cutUp: 4.5, labium: 1 }", "cutUp: 4.5, chimney: 2 }"),
      "solid/no-room mouth.window.chimney",
    ],
    ["a labium without a ramp", `${WHISTLE}solid: { labium: { edge: 2.8 } }\n`, "solid/no-room solid.labium.edge"],
    ["a hole through a tenon", jointed(180), "solid/no-room holes.0.at"],
    ["a joint at the mouth", jointed(15), "solid/no-room bore.1.at"],
    ["a joint at the foot", jointed(393), "solid/no-room bore.1.at"],
    [
      "two joints whose tenons meet",
      jointed(140).replace("  - { at: 140", "  - { at: 125, diameter: =tube, joint: true }\n  - { at: 140"),
      "solid/no-room bore.2.at",
    ],
    [
      "a tenon too short to hold",
      jointed(150, "solid: { tenon: { length: 3 } }\n"),
      "solid/no-room solid.tenon.length",
    ],
    ["holes whose edges nearly meet", WHISTLE.replace("at: 210.3", "at: 181.3"), "solid/no-room holes.1.at"],
    ["a hole at the very foot", WHISTLE.replace("at: 321.4", "at: 390.7"), "solid/no-room holes.5.at"],
    [
      "a hole as wide as the bore",
      WHISTLE.replace("at: 173.3, diameter: 7 ", "at: 173.3, diameter: 16 "),
      "solid/no-room holes.0.diameter",
    ],
    [
      "a hole on the labium's ramp",
      WHISTLE.replace("at: 173.3, diameter: 7 ", "at: 8, diameter: 5 "),
      "solid/no-room holes.0.at",
    ],
    [
      "a chimney too short",
      WHISTLE.replace("at: 173.3, diameter: 7 ", "at: 173.3, diameter: 7, chimney: 0.5 "),
      "solid/wall-too-thin holes.0.chimney",
    ],
    ["a flat wider than the body", `${WHISTLE}solid: { base: 22 }\n`, "solid/no-room solid.base"],
    ["a thumb rest over the end", `${WHISTLE}solid: { thumbRest: { at: 390 } }\n`, "solid/no-room solid.thumbRest.at"],
    [
      "a notch wider than the bore",
      tube("family: rim\nmouth: { cover: 0.6, notch: { width: 16, depth: 4 } }\n"),
      "solid/no-room mouth.notch.width",
    ],
    [
      "a chamber wider than the body",
      TWO_CHAMBERS.replace("diameter: 16 }\n  windway", "diameter: 23 }\n  windway"),
      "solid/wall-too-thin mouth.chamber.diameter",
    ],
    [
      "a block that leaves the channel open",
      TWO_CHAMBERS.replace("length: 40", "length: 20"),
      "solid/no-room mouth.block.length",
    ],
    [
      "a bore that widens under the block",
      WHISTLE.replace(
        "  - { at: 0, diameter: =tube }",
        "  - { at: -30, diameter: 18 }\n  - { at: 0, diameter: =tube }",
      ),
      "solid/no-room bore.0.diameter",
    ],
    ["a vessel's hole under its mouth", vessel("holes:\n  - { diameter: 6, angle: 8 }"), "solid/no-room holes.0.angle"],
    [
      "a vessel's holes that nearly meet",
      vessel("holes:\n  - { diameter: 6, angle: 90 }\n  - { diameter: 6, angle: 101.8 }"),
      "solid/no-room holes.1.angle",
    ],
    [
      "a window in the side of a long vessel",
      vessel("", "shape: tube, length: 90, diameter: 40, mouthAt: side"),
      "solid/no-mouth mouth",
    ],
    ["a design without a body", "borewright: 1\nfamily: duct\n", "solid/not-described "],
  ])("for %s", async (_, text, reason) => {
    expect(await refusals(text)).toContain(reason);
  });

  it.each([
    ["WHISTLE", WHISTLE],
    ["jointed", jointed(150)],
    ["two chambers", TWO_CHAMBERS],
    [
      "a plug above the window",
      WHISTLE.replace("cutUp: 4.5, labium: 1 }", "cutUp: 4.5, stopper: 3 }").replace("wall: 3,", "wall: 5,"),
    ],
    ["a window deeper than the wall", WHISTLE.replace("cutUp: 4.5, labium: 1 }", "cutUp: 4.5, chimney: 5 }")],
    [
      "a hole with a seat below the surface",
      WHISTLE.replace("at: 173.3, diameter: 7 ", "at: 173.3, diameter: 7, chimney: 2 "),
    ],
    [
      "flat, thumb rest, cork and rings",
      jointed(150, "solid: { base: 8, thumbRest: { at: 360 }, rings: true, tenon: { finish: cork } }\n"),
    ],
    ["a stopped foot", `${WHISTLE}foot: stopped\n`],
    ["a notch", tube("family: rim\nmouth: { cover: 0.6, notch: { width: 9, depth: 4 } }\n")],
    [
      "a lip plate",
      tube(
        "family: transverse\nmouth: { hole: { length: 10, width: 10, chimney: 6 }, stopper: 16 }\nbore: [{ at: -16, diameter: 16 }, { at: 352, diameter: 16 }]\n",
      ),
    ],
    [
      "a vessel blown across a hole",
      vessel("").replace("window: { width: 9, cutUp: 5 }", "hole: { length: 12, width: 10 }"),
    ],
    [
      "a vessel's hole on either side of its embouchure hole",
      vessel(
        "holes:\n  - { diameter: 6, angle: 0, elevation: 40 }\n  - { diameter: 6, angle: 0, elevation: -40 }",
      ).replace("window: { width: 9, cutUp: 5 }", "hole: { length: 12, width: 10 }"),
    ],
    [
      "a vessel's chimneys, long and short",
      vessel("holes:\n  - { diameter: 6, angle: 70, raised: 2 }\n  - { diameter: 6, angle: 110, chimney: 3 }"),
    ],
    [
      "a vessel in the shape of a tube",
      vessel("holes:\n  - { diameter: 5, at: 30 }", "shape: tube, length: 90, diameter: 40"),
    ],
  ])("but not for %s", async (_, text) => {
    expect(await refusals(text)).toEqual([]);
  });
});

describe("any design", () => {
  it("is made closed and whole, or refused at a place in its text", async () => {
    await fc.assert(
      fc.asyncProperty(fc.integer({ min: 0, max: 1e6 }), async (seed) => {
        const document = documentOf(fileOf(seededDesign(seed)));
        if (document.findings.some(({ severity }) => severity === "error")) return;
        try {
          const { parts } = await makeSolid(document.resolution);
          for (const { mesh } of parts)
            expect(topology(readStl(stl(mesh)))).toMatchObject({ pieces: 1, openEdges: 0, degenerate: 0 });
        } catch (error) {
          if (!(error instanceof CannotMake)) throw error;
          expect(error.findings.length).toBeGreaterThan(0);
          for (const finding of error.findings) {
            const { span } = placeFinding(document, finding);
            expect(span.end).toBeGreaterThan(span.start);
          }
        }
      }),
      { numRuns: 6 },
    );
  });
});
