/** Source: finite elements of windows whose plug stands upstream, test/reference/fem-stub.json and fem/window.json, and the README there. */
import type { Column } from "../../server/src/acoustics/column.js";
import { registersOf } from "../../server/src/acoustics/resonance.js";
import { plugAway } from "../../server/src/acoustics/windowGap.js";
import { cents, losslessAir } from "../acoustics/instruments.js";
import windowsAlone from "../reference/fem/window.json" with { type: "json" };
import data from "../reference/fem-stub.json" with { type: "json" };
import { type Allowance, boreOf, type ColumnCase, columnTable } from "./columnCases.js";
import { apart, type ComparisonTable } from "./comparison.js";

const MM = 1e-3;

interface Tube {
  readonly name: string;
  readonly bore: readonly (readonly number[])[];
  readonly wall: number;
  readonly window: { readonly across: number; readonly along: number };
}

function columnOf({ bore, wall, window }: Tube, stopper: number, extra = 0): Column {
  return {
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
      extra,
    },
  };
}

/** Every tube with its plug at every distance; `extraOf` the extra length that its window is assumed to have, m. */
const cases = (extraOf: (tube: (typeof data.tubes)[number]) => number): readonly ColumnCase[] =>
  data.tubes.flatMap((tube) =>
    tube.plugs.map(({ stopper, hz }) => ({
      name: `${tube.name}, plug ${stopper} mm away`,
      column: columnOf(tube, stopper, extraOf(tube)),
      fingerings: [{ holes: "", covers: [], hz }],
    })),
  );

/** Cents: the window's own error at a block, up to 1.7, is in it; a closed piece makes a little more of it. Found: up to 2.3. */
const allowed: Allowance = () => 2.5;

export const stubTable = columnTable(
  cases(() => 0),
  allowed,
  {
    title: "Windows with a closed stub of bore between window and plug",
    source: "The same method: `test/reference/fem-stub.json`, `test/reference/fem/window-stub.py`.",
    unknown:
      "The finite elements are uncertain by some 0.3 cent. As for windows at the block: no jet, no sloping labium, no windway. The slow air chamber above the plug is assumed to feed the jet and do nothing else. The differences come from the window itself; see the next table.",
  },
);

/** `mouth.extra` that puts the flush window's lowest resonance right, m: the secant's rule from no extra and a tenth of a millimetre less. */
function calibrated(tube: (typeof data.tubes)[number]): number {
  const theirs = tube.plugs.find(({ stopper }) => stopper === 0)?.hz[0] ?? Number.NaN;
  const off = (extra: number) =>
    cents(registersOf(columnOf(tube, 0, extra), losslessAir, [], 1)[0]?.frequency ?? Number.NaN, theirs);
  let [before, now] = [0, -1e-4];
  for (let step = 0; step < 3; step++)
    [before, now] = [now, now - (off(now) * (now - before)) / (off(now) - off(before))];
  return now;
}

/** Cents. */
const ALLOWED_CALIBRATED = 1.2;

export const calibratedStubTable = columnTable(cases(calibrated), () => ALLOWED_CALIBRATED, {
  title: "The same, with the window calibrated with the plug flush",
  source:
    "The same. `mouth.extra` is fitted to the lowest resonance with the plug flush, as calibration to a measured note does; nothing else is fitted.",
  unknown: "As above. This shows the effect of moving the plug, without the window's own error.",
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
  title: "How far a plug set back shortens a window's effective length",
  source:
    "Static finite elements of a single window: `test/reference/fem/window.json`, `test/reference/fem/window.py`.",
  unknown:
    "Nothing was fitted to these. Effective lengths are those of a tube of the bore's cross-section; all sizes are in bore radii.",
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
