/** The quick estimate of how far a resonance lies off, against whole scans; and sizes between stations. */
import { describe, expect, it } from "vitest";
import { chaigneKergomardAir } from "../../server/src/acoustics/air.js";
import { alongBore, stationsAround } from "../../server/src/acoustics/alongBore.js";
import type { Column } from "../../server/src/acoustics/column.js";
import { offResonance } from "../../server/src/acoustics/offResonance.js";
import { registersOf } from "../../server/src/acoustics/resonance.js";
import { cents, tube } from "./instruments.js";

const air = chaigneKergomardAir(20);

describe("how far a resonance lies off", () => {
  const covers = [1, 0];
  const flute = (more = 0): Column =>
    tube(330, 16, {
      holes: [
        { x: 0.19, radius: 0.0035, chimney: 0.004, angle: 0 },
        { x: 0.24 + more, radius: 0.0035, chimney: 0.004, angle: 0 },
      ],
    });
  const sounding = (column: Column) => registersOf(column, air, covers, 1)[0]?.frequency ?? Number.NaN;

  it("is nothing where it sounds, and elsewhere as many cents as it is, the better the nearer", () => {
    const at = sounding(flute());
    expect(offResonance(flute(), air, covers, at, at).here).toBeCloseTo(0, 6);
    for (const off of [-10, -1, 1, 10]) {
      const target = at * 2 ** (-off / 1200);
      expect(offResonance(flute(), air, covers, at, target).here / off).toBeCloseTo(1, 1);
    }
  });

  it("of a variant is nothing where that sounds, and follows its dimension on both sides", () => {
    const at = sounding(flute());
    const variant = flute(0.001);
    const target = sounding(variant);
    expect(cents(at, target)).toBeGreaterThan(2);
    const { of } = offResonance(flute(), air, covers, at, target);
    expect(of(variant)).toBeCloseTo(0, 6);
    for (const more of [0.0005, 0.0015])
      expect(of(flute(more)) / cents(sounding(flute(more)), target)).toBeCloseTo(1, 1);
  });
});

describe("sizes between stations", () => {
  const stations = [
    { at: 0, size: 10 },
    { at: 100, size: 20 },
    { at: 100, size: 12 },
    { at: 200, size: 8 },
  ];
  const sizeAt = (list: readonly { at?: number; size?: number }[], x: number) =>
    alongBore(
      list,
      x,
      ({ at }) => at,
      ({ size }) => size,
    );

  it("are straight lines, beyond the ends the end's, and at a step the one after it", () => {
    for (const [x, size] of [
      [-5, 10],
      [0, 10],
      [25, 12.5],
      [99, 19.9],
      [100, 12],
      [150, 10],
      [200, 8],
      [300, 8],
    ] as const)
      expect(sizeAt(stations, x)).toBeCloseTo(size, 9);
    expect(stationsAround(stations, 25, ({ at }) => at)).toEqual([0, 1, 0.25]);
    expect(stationsAround(stations, 100, ({ at }) => at)).toEqual([2, 3, 0]);
    expect(stationsAround(stations, -5, ({ at }) => at)).toEqual([0, 0, 0]);
    expect(stationsAround(stations, 300, ({ at }) => at)).toEqual([3, 3, 0]);
  });

  it("are not known without stations, nor where one that is needed lacks a number", () => {
    expect(sizeAt([], 1)).toBeUndefined();
    expect(sizeAt([{ at: 0, size: 1 }, { size: 2 }], 5)).toBeUndefined();
    expect(sizeAt([{ at: 0, size: 1 }, { at: 9 }], 5)).toBeUndefined();
    // Behind the place asked about nothing is needed.
    expect(sizeAt([{ at: 0, size: 1 }, { at: 9, size: 4 }, { size: 2 }], 3)).toBe(2);
  });
});
