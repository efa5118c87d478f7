/** Source: three-dimensional finite elements, test/reference/fem-open.json and the README there. */
import data from "../reference/fem-open.json" with { type: "json" };
import { type Allowance, boreOf, type ColumnCase, columnTable } from "./columnCases.js";
import type { ComparisonTable } from "./comparison.js";
import { cornerTable, shapedHoleTable } from "./shapedHoles.js";
import { calibratedStubTable, stubTable } from "./windowStub.js";

const MM = 1e-3;

interface RoundHole {
  readonly at: number;
  readonly diameter: number;
  readonly side: string;
}

const tubes: readonly ColumnCase[] = data.tubes.map(({ name, bore, wall, holes, fingerings }) => ({
  name,
  column: {
    bore: boreOf(bore),
    wall: wall * MM,
    foot: "open",
    holes: (holes as RoundHole[]).map(({ at, diameter, side }) => ({
      x: at * MM,
      radius: (diameter / 2) * MM,
      chimney: wall * MM,
      angle: side === "back" ? Math.PI : 0,
    })),
    mouth: { kind: "ideal" },
  },
  fingerings: (fingerings as { holes?: string; closed: number[]; hz: number[]; weak?: boolean[] }[]).map((each) => ({
    holes: each.holes ?? "",
    covers: holes.map((_, i) => (each.closed.includes(i) ? 1 : 0)),
    hz: each.hz,
    weak: each.weak,
  })),
}));

/** Weak thirds are held like the others: the farthest, in tube C, is 0.8 cents out. Fourths are given for plain tubes only, and as near. */
const allowedOfTubes: Allowance = (_, register, weak) => {
  if (register === 1) return 0.4;
  if (register === 2) return weak ? 5 : 1.5;
  return 3;
};

const windows: readonly ColumnCase[] = data.windows.map(({ name, bore, wall, window, hz }) => ({
  name,
  column: {
    // The table counts from the block, we from the middle of the window.
    bore: boreOf(bore).map(({ x, radius }) => ({ x: x - (window.along / 2) * MM, radius })),
    wall: wall * MM,
    foot: "open",
    holes: [],
    mouth: { kind: "window", width: window.across * MM, cutUp: window.along * MM, chimney: wall * MM },
  },
  fingerings: [{ holes: "", covers: [], hz }],
}));

const source =
  "Three-dimensional finite elements of the lossless wave equation, extrapolated from two meshes and computed for this project with a separate program: `test/reference/fem-open.json`.";

/** Another file of columns is one line more. */
export const finiteElementTables: readonly ComparisonTable[] = [
  columnTable(tubes, allowedOfTubes, {
    title: "Tubes with holes",
    source,
    unknown:
      "The finite elements themselves are uncertain by 0.2 to 0.7 cent. No constant of the model was fitted to a tube with several holes. The air is lossless, the holes are round with sharp edges, and the mouth is an ideal opening, so this says nothing about a real mouth. A register marked weak radiates so much energy that it may not sound.",
  }),
  columnTable(windows, () => 2.5, {
    title: "Duct-flute windows at the block",
    source,
    unknown:
      "The window alone: no jet, no sloping labium, no windway. F2 was kept unseen until the model was finished.",
  }),
  shapedHoleTable,
  cornerTable,
  stubTable,
  calibratedStubTable,
];
