/** Source: three-dimensional finite elements, test/reference/fem-shapes.json and the README there. */
import type { ToneHole } from "../../server/src/acoustics/column.js";
import corners from "../reference/fem-corners.json" with { type: "json" };
import data from "../reference/fem-shapes.json" with { type: "json" };
import { type Allowance, boreOf, type ColumnCase, columnTable } from "./columnCases.js";

const MM = 1e-3;

interface ShapedHole {
  readonly at: number;
  readonly diameter: number;
  readonly chimney: number;
  readonly length?: number;
  readonly undercut?: number;
  readonly raised?: number;
  readonly side?: string;
  readonly angle?: number;
}

function holeOf({ at, diameter, chimney, length, undercut, raised, side, angle = 0 }: ShapedHole): ToneHole {
  return {
    x: at * MM,
    radius: (diameter / 2) * MM,
    chimney: chimney * MM,
    angle: side === "back" ? Math.PI : (angle * Math.PI) / 180,
    ...(length === undefined ? {} : { halfLength: (length / 2) * MM }),
    ...(undercut === undefined ? {} : { undercut: (undercut / 2) * MM }),
    ...(raised === undefined ? {} : { raised: raised * MM }),
  };
}

const COVERS = new Map([
  ["X", 1],
  ["O", 0],
  ["H", 0.5],
]);

/**
 * A plate over half a hole sharpens a little more when it leaves the side toward the mouth free. A finger comes from the side: the
 * mean of both stands for it.
 */
const casesOf = (tubes: typeof data.tubes | typeof corners.tubes): readonly ColumnCase[] =>
  tubes.map(({ name, bore, wall, holes, fingerings }) => ({
    name,
    column: {
      bore: boreOf(bore),
      wall: wall * MM,
      foot: "open",
      holes: (holes as ShapedHole[]).map(holeOf),
      mouth: { kind: "ideal" },
    },
    fingerings: fingerings
      .filter((each) => !each.holes.includes("h"))
      .map((each) => {
        const mirrored = fingerings.find((other) => other.holes === each.holes.replaceAll("H", "h")) ?? each;
        return {
          holes: each.holes,
          covers: [...each.holes].map((sign) => COVERS.get(sign) ?? Number.NaN),
          hz: each.hz.map((f, i) => Math.sqrt(f * (mirrored.hz[i] as number))),
          weak: each.weak,
        };
      }),
  }));

/** What was asked of corners: first registers 0.5, second 1, third 1.5 where not weak. Found: 0.4 in all. */
const allowedInCorners: Allowance = (_title, register) => [0.5, 1, 1.5][register - 1] ?? Number.NaN;

export const cornerTable = columnTable(casesOf(corners.tubes), allowedInCorners, {
  title: "Corner cases: wide holes close together in a thick wall, oval holes in a thin wall, two holes side by side",
  source:
    "The same method: `test/reference/fem-corners.json`. Holes 0.75 of the bore wide and 3 mm apart in a 6 mm wall. Oval holes of 1.5 : 1 in a wall as thick as 0.12 of their radius, and ovals up to 1.9 : 1. Two holes side by side with 0.6 mm between their edges at the bore: opened together in a straight tube, together and one at a time in a tapered tube with open holes above them. A foot at ka 0.47 in a 7 mm wall. P2, F3, W2 and O2 were kept unseen until the model was finished.",
  unknown:
    "The finite elements are uncertain by as much as they were extrapolated, 0.3 to 1.3 cents (`errorCents` in the file). Nothing was fitted to these. The constants for thin walls come from single holes 0.3 to 0.42 of the bore wide (`fem/corners.json`).",
});

const allowed: Allowance = (_title, register, weak) => {
  if (register === 1) return 0.5;
  if (register === 2) return weak ? 3 : 1.5;
  return 2;
};

export const shapedHoleTable = columnTable(casesOf(data.tubes), allowed, {
  title: "Tubes with holes of other shapes, and a stepped, flared bore",
  source:
    "The same method: `test/reference/fem-shapes.json`, `test/reference/fem/shapes.py`. Signs: X closed, O open, H half covered by a plate (the mean of a plate on the mouth's side and one on the foot's).",
  unknown:
    "The finite elements are uncertain by 0.2 to 0.7 cent. With half-covered holes the extrapolation is uncertain by up to 1.7, which a third and a fourth mesh reduce to 0.2 (see the README there). A plate is not a fingertip: nothing here says how far flesh enters a hole. S6 OXXX was 1.2 off until undercuts in walls as thin as its own were computed one by one; S7 was kept unseen. Finer meshes put S6 OXXX and S2 OXX (a single undercut hole open) 0.15 lower, which leaves S2 OXX 0.63 off.",
});
