/** Where things stand on the sheet. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { countInWords, fingersInWords, worstInWords } from "../../../client/view/layout/comparison.js";
import { halfRange, place, scaleMarks } from "../../../client/view/layout/plot.js";
import { curveLayout } from "../../../client/view/layout/responseCurve.js";
import { scaleBar, staggered, tubeLayout } from "../../../client/view/layout/tubeLayout.js";
import { waveShape } from "../../../client/view/layout/wavePath.js";
import type { BoreViewData, Row, TubeOutline } from "../../../server/src/protocol/boreView.js";

const tube = (holes: readonly number[], length = 400): TubeOutline =>
  ({
    kind: "tube",
    from: -20,
    to: length,
    bore: [
      { at: 0, diameter: 16 },
      { at: length, diameter: 16 },
    ],
    outside: [
      [-20, 11],
      [length, 11],
    ],
    holes: holes.map((at) => ({ at })),
  }) as unknown as TubeOutline;

describe("tubeLayout", () => {
  it("keeps everything inside the sheet, and the numbers right of the last hole, at every width", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 320, max: 2000 }),
        fc.array(fc.integer({ min: 30, max: 390 }), { maxLength: 8 }),
        (width, holes) => {
          const layout = tubeLayout(tube([...holes].sort((a, b) => a - b)), width);
          expect(layout.x(400)).toBeLessThanOrEqual(layout.width);
          expect(layout.width).toBeLessThanOrEqual(width);
          const numbers = (layout.hzAt ?? layout.centsAt) - 40;
          for (const at of holes) expect(layout.x(at)).toBeLessThan(numbers);
          expect(layout.millimetres(layout.x(123))).toBeCloseTo(123, 6);
        },
      ),
    );
  });

  it("enlarges the radius until the bore can be seen, and says by how much", () => {
    expect(tubeLayout(tube([200]), 420).enlarged).toBeGreaterThan(1);
    expect(tubeLayout(tube([40], 60), 1100).enlarged).toBe(1);
  });

  it("puts circles below their holes where there is room, otherwise evenly, clear of each other and of the plot", () => {
    const wide = tubeLayout(tube([200, 230, 260, 300, 330, 360]), 800);
    expect(wide.columns).toEqual([200, 230, 260, 300, 330, 360].map(wide.x));
    for (const [holes, width] of [
      [[160, 178, 203, 236, 258, 290, 330], 336],
      [[40, 80, 120], 600],
    ] as const) {
      const { columns, circle, plot, centsAt } = tubeLayout(tube(holes), width);
      expect(columns[0] as number).toBeGreaterThan(plot.to + circle);
      expect(columns.at(-1) as number).toBeLessThan(centsAt - 40);
      for (const [i, x] of columns.slice(1).entries())
        expect(x - (columns[i] as number)).toBeGreaterThanOrEqual(2 * circle - 1e-9);
      expect(circle).toBeGreaterThan(4);
    }
  });

  it("leaves the circles in place while a hole is dragged close to another", () => {
    const [inFile, dragged] = [tube([200, 260]), tube([255, 260])];
    const layout = tubeLayout(dragged, 800, undefined, inFile);
    expect(layout.columns).toEqual([255, 260].map(layout.x));
  });

  it("makes room for what stands higher than the wall, as the block of a two-chamber flute does", () => {
    const others = [
      [
        [-30, 11],
        [0, 25],
      ],
    ] as const;
    const layout = tubeLayout(tube([200]), 800, { cut: [], others });
    expect(layout.sectionAbove).toBeCloseTo(25 * layout.across, 6);
    expect(layout.sectionHalf).toBeCloseTo(11 * layout.across, 6);
    expect(tubeLayout(tube([200]), 800).sectionAbove).toBeCloseTo(layout.sectionHalf, 6);
  });

  it("gives a round scale bar", () => {
    for (const scale of [0.3, 1, 2.5, 6]) expect([10, 20, 50, 100, 200, 500]).toContain(scaleBar(scale));
  });

  it("puts a label one row lower where it would touch the one before", () => {
    expect(staggered([100, 110, 160, 200], 30)).toEqual([false, true, false, false]);
  });

  it("knows that a long label needs more room than a short one", () => {
    expect(staggered([100, 130], [20, 20])).toEqual([false, false]);
    expect(staggered([100, 130], [20, 50])).toEqual([false, true]);
  });
});

describe("the deviations' axis", () => {
  it("writes its numbers so that none touches another, however narrow the tolerance is drawn", () => {
    const wide = scaleMarks(10, (cents) => 200 + 5 * cents);
    expect(wide.map(({ cents, side }) => [cents, side])).toEqual([
      [-10, "middle"],
      [0, "middle"],
      [10, "middle"],
    ]);
    const narrow = scaleMarks(8, (cents) => 200 + cents);
    expect(narrow.map(({ cents, side }) => [cents, side])).toEqual([
      [-8, "end"],
      [8, "start"],
    ]);
  });

  it("holds all marks and the tolerance", () => {
    expect(halfRange([], 10)).toBe(15);
    expect(halfRange([{ cents: -33 } as never], 10)).toBe(40);
  });

  it("runs from flat on the left to sharp on the right, and stays inside", () => {
    expect(place(0, 20, 100, 300)).toBe(200);
    expect(place(10, 20, 100, 300)).toBe(250);
    expect(place(-500, 20, 100, 300)).toBe(100);
  });
});

describe("waveShape", () => {
  it("finds the nodes where the pressure changes its sign", () => {
    const pressure = Array.from({ length: 101 }, (_, i) => Math.sin((2 * Math.PI * (i + 0.001)) / 100));
    const { nodes } = waveShape(pressure, (share) => ({ x: share * 100, half: 10 }), 50);
    expect(nodes).toHaveLength(2);
    expect(nodes[0]).toBeCloseTo(0.5, 2);
  });
});

describe("the impedance curve", () => {
  it("lays equal intervals equally far apart, higher levels higher, and nothing where there is no curve", () => {
    const box = { left: 50, right: 450, top: 10, bottom: 210 };
    const curve = curveLayout(
      [
        [200, 90],
        [400, 130],
        [800, 110],
      ],
      box,
    );
    expect(curve?.x(400)).toBeCloseTo(250);
    expect([curve?.x(200), curve?.x(800)]).toEqual([50, 450]);
    expect(curve?.y(130)).toBeLessThan(curve?.y(90) ?? 0);
    expect(curveLayout([], box)).toBeUndefined();
  });
});

describe("what a proposed change does", () => {
  const row = (note: string, cents: number | undefined) => ({ note, cents, inTune: Math.abs(cents ?? 0) < 10 }) as Row;

  it("names the worst note before and after, and counts those out of tune that sound", () => {
    const [before, after] = [
      [row("A4", -25.3), row("B4", 4), row("A7", undefined)],
      [row("A4", -1), row("B4", 1.2), row("A7", undefined)],
    ];
    expect(worstInWords(before, after)).toBe("Worst note: −25.3 (A4) → +1.2 (B4)");
    expect(countInWords(before, after)).toBe("Out of tune: 1 of 2 → 0 of 2");
  });

  it("names the fingers that move, and those out of reach", () => {
    const view = (apart: number) =>
      ({
        unit: { millimetres: 1, name: "mm", step: 0.1 },
        outline: { body: { kind: "tube", holes: [{ name: "L1" }, { name: "L2" }, { name: "L3" }] } },
        fingers: [
          { from: 0, to: 1, apart, most: 34, far: apart > 34 },
          { from: 1, to: 2, apart: 20, most: 34, far: false },
        ],
      }) as unknown as BoreViewData;
    expect(fingersInWords(view(32), view(36))).toEqual(["L1 to L2 32.0 → 36.0 mm, beyond the reach of 34.0"]);
    expect(fingersInWords(view(32), view(32))).toEqual([]);
  });
});
