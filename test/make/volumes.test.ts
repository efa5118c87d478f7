/**
 * Volume of every kind of part against the mathematics of its surfaces (test/support/analytic), which know neither the library for solids nor its
 * facets. Short tubes, so that a mouth is a large share of its part. `npm run solids` does the same with the examples and the seeded designs.
 */
import { describe, expect, it } from "vitest";
import { preflight } from "../../server/src/design/making/preflight.js";
import { makeSolid } from "../../server/src/make/solid/build.js";
import { worstVolume } from "../support/analytic/volumes.js";
import { documentOf, fileOf } from "../support/designs.js";
import { panPipe, vessel } from "../support/families.js";
import { tube } from "../support/marked.js";

/** Largest share by which a volume may differ; the quadrature is good to half of it. */
const LIMIT = 1e-3;

const BORE =
  "bore:\n  - { at: 0, diameter: 16 }\n  - { at: 50, diameter: 16, joint: true }\n  - { at: 110, diameter: 14 }\n";
const DESIGNS = {
  "duct head, block": tube(`family: duct\nmouth: { window: { width: 10, cutUp: 5 } }\nwall: 4\n${BORE}`),
  "duct head over a plug, with ears and a square end": tube(
    "family: duct\nmouth: { window: { width: 10, cutUp: 5, stopper: 2, chimney: 6 } }\nwall: 4.2\nbore: [{ at: 0, diameter: 16 }, { at: 60, diameter: 16 }]\nsolid: { beak: { angle: 90 }, base: 8 }\n",
  ),
  "two-chamber head, block, plug": tube(
    "family: duct\nmouth:\n  window: { width: 9, cutUp: 5, stopper: 3 }\n  windway: { length: 20, height: 1.1 }\n  chamber: { length: 45, diameter: 15 }\n  block: { length: 32, width: 16, height: 9 }\nwall: 4\nbore: [{ at: 0, diameter: 16 }, { at: 60, diameter: 16 }]\n",
  ),
  "side-blown head with a lip plate, stopper": tube(
    "family: transverse\nmouth: { hole: { length: 12, width: 10, chimney: 5.5 }, stopper: 17 }\nwall: 4\nbore: [{ at: -17, diameter: 17 }, { at: 40, diameter: 17 }]\nsolid: { rings: true }\n",
  ),
  "end-blown head with a notch, holes of all kinds, thumb rest": tube(
    "family: rim\nmouth: { cover: 0.6, notch: { width: 8, depth: 4 } }\nwall: 4\nbore: [{ at: 0, diameter: 18 }, { at: 60, diameter: 18 }, { at: 200, diameter: 15 }]\nfoot: stopped\nholes:\n  - { at: 40, diameter: 6, length: 9 }\n  - { at: 65, diameter: 6, undercut: 2 }\n  - { at: 90, diameter: 7, angle: 40 }\n  - { at: 120, diameter: 6, raised: 3 }\n  - { at: 150, diameter: 6, chimney: 2.5, side: back }\nsolid: { thumbRest: { at: 100 } }\n",
  ),
  "pan pipe, stoppers": panPipe("wall: 2"),
  "vessel in halves": vessel(
    "holes:\n  - { diameter: 6, angle: 60 }\n  - { diameter: 5, angle: -120, raised: 1.5 }",
    "shape: ellipsoid, length: 60, width: 44, height: 40",
  ),
  "vessel with holes beside the plane of its mouth": vessel(
    "holes:\n  - { diameter: 6, angle: 70, elevation: 40 }\n  - { diameter: 5, angle: -110, elevation: -35, raised: 1.5 }",
    "shape: ellipsoid, length: 60, width: 44, height: 40",
  ),
  "vessel in one, blown over": vessel("holes: [{ diameter: 6, angle: 70 }]\nsolid: { halves: false }").replace(
    "window: { width: 9, cutUp: 5 }",
    "hole: { length: 12, width: 9 }",
  ),
  "vessel in the shape of a tube": vessel("holes: [{ at: 30, diameter: 6 }]", "shape: tube, length: 60, diameter: 24"),
};

describe("the volume of each part is that of its surfaces, within a tenth of a percent", () => {
  it.each(Object.entries(DESIGNS))("%s", async (_, text) => {
    const { resolution } = documentOf(fileOf(text));
    const made = await makeSolid(resolution);
    const { leastWall } = preflight(resolution);
    const { name, off } = worstVolume(made, leastWall, LIMIT);
    expect(Math.abs(off), `${name}: ${(100 * off).toFixed(3)} %`).toBeLessThan(LIMIT);
  });
});
