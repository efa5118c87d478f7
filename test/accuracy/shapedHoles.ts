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
  title: "Tubes in corners: wide neighbours in a thick wall, ovals in a thin one, a pair side by side",
  source:
    "The same method: `test/reference/fem-corners.json`. Holes of 0.75 of the bore 3 mm apart in a wall of 6; ovals of 1.5 : 1 in a wall of 0.12 of their radius; two holes side by side, 0.6 mm between their edges at the bore: in a straight tube opened together, in a tapered one together and one by one, with holes open above; a foot at ka 0.47 in a wall of 7 mm; ovals to 1.9 : 1. P2, F3, W2 and O2 were looked at by nobody before the model stood.",
  unknown:
    "The finite elements are uncertain by as much as they were extrapolated, 0.3 to 1.3 cents (`errorCents` in the file). Nothing was fitted to these; the thin walls' constants come from single holes of 0.3 to 0.42 of the bore (`fem/corners.json`).",
});

const allowed: Allowance = (_title, register, weak) => {
  if (register === 1) return 0.5;
  if (register === 2) return weak ? 3 : 1.5;
  return 2;
};

export const shapedHoleTable = columnTable(casesOf(data.tubes), allowed, {
  title: "Tubes with holes of other shapes, and a bore that steps and flares",
  source:
    "The same method: `test/reference/fem-shapes.json`, `test/reference/fem/shapes.py`. Signs: X closed, O open, H half covered by a plate, the mean of the plate toward the mouth and toward the foot.",
  unknown:
    "The finite elements are uncertain by 0.2 to 0.7 cent, with half-covered holes as extrapolated up to 1.7, of which a third and a fourth mesh leave 0.2 (README there). A plate is no fingertip: how far flesh enters a hole, nothing here says. S6 OXXX was 1.2 out until undercuts in walls as thin were computed one by one; S7 is blind. Finer meshes put S6 OXXX and S2 OXX, undercut holes open alone, 0.15 lower, so that S2 OXX is 0.63 out.",
});
