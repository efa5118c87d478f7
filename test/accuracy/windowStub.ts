/** Source: finite elements of windows whose plug stands upstream, test/reference/fem-stub.json and fem/window.json, and the README there. */
import { plugAway } from "../../server/src/acoustics/windowGap.js";
import windowsAlone from "../reference/fem/window.json" with { type: "json" };
import data from "../reference/fem-stub.json" with { type: "json" };
import { boreOf, type ColumnCase, columnTable } from "./columnCases.js";
import { apart, type ComparisonTable } from "./comparison.js";

const MM = 1e-3;

/** Tubes with a window, the plug at several distances. */
export const stubCases: readonly ColumnCase[] = data.tubes.flatMap(({ name, bore, wall, window, plugs }) =>
  plugs.map(({ stopper, hz }) => ({
    name: `${name}, plug ${stopper} mm away`,
    column: {
      // The table counts from the window's upstream end, we from its middle.
      bore: boreOf(bore).map(({ x, radius }) => ({ x: x - (window.along / 2) * MM, radius })),
      wall: wall * MM,
      foot: "open",
      holes: [],
      mouth: {
        kind: "window",
        width: window.across * MM,
        cutUp: window.along * MM,
        chimney: wall * MM,
        stopper: stopper * MM,
      },
    },
    fingerings: [{ holes: "", covers: [], hz }],
  })),
);

/** Cents, with the window's own error at a block, up to 2.4, in it. */
const ALLOWED = 3;

export const stubTable = columnTable(stubCases, () => ALLOWED, {
  title: "Windows with a closed piece of bore between them and the plug",
  source: "The same method: `test/reference/fem-stub.json`, `test/reference/fem/window-stub.py`.",
  unknown:
    "The finite elements are uncertain by some 0.3 cent. As for windows at a block: no jet, no labium of finite angle, no windway; a slow air chamber beyond the plug is taken to feed the jet and nothing else.",
});

interface Alone {
  readonly width: number;
  readonly cutUp: number;
  readonly gap: number;
  readonly flush: number;
  readonly length: number;
}

/** `W0.8 l0.5 t0.4 s0.2`. */
const alone = Object.entries(windowsAlone).flatMap(([name, { length }]): Alone[] => {
  const [width = 0, cutUp = 0, , gap = 0] = name.split(" ").map((part) => Number(part.slice(1)));
  const flush = windowsAlone[name.replace(/s\S+$/, "s0") as keyof typeof windowsAlone].length;
  return gap === 0 ? [] : [{ width, cutUp, gap, flush, length }];
});

/** Bore radii: 0.2 mm in a whistle of 16 mm, less than a cent. */
const ALLOWED_RELIEF = 0.025;

export const plugTable: ComparisonTable = {
  title: "What leaving the plug takes off a window's length",
  source: "Static finite elements of a window alone: `test/reference/fem/window.json`, `test/reference/fem/window.py`.",
  unknown: "Nothing was fitted to them. Lengths on the bore's section, all sizes in bore radii.",
  unit: "bore radii",
  decimals: 4,
  differenceUnit: "bore radii",
  differenceDecimals: 4,
  rows: alone.map(({ width, cutUp, gap, flush, length }) =>
    apart(
      `window ${width} × ${cutUp}, plug ${gap} away`,
      plugAway({ width, cutUp }, 1, gap).relief,
      flush - length,
      ALLOWED_RELIEF,
    ),
  ),
};
