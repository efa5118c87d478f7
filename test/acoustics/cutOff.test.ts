import { describe, expect, it } from "vitest";
import { chaigneKergomardAir } from "../../server/src/acoustics/air.js";
import type { AirState } from "../../server/src/acoustics/airState.js";
import type { Column } from "../../server/src/acoustics/column.js";
import { cutOffFrequencies } from "../../server/src/acoustics/cutOff.js";

const AIR: AirState = { ...chaigneKergomardAir(20), soundSpeed: 345 };
const column = (places: readonly number[], radius = 0.004): Column => ({
  bore: [
    { x: 0, radius: 0.0095 },
    { x: 0.6, radius: 0.0095 },
  ],
  wall: 0.003,
  foot: "open",
  holes: places.map((x) => ({ x, radius, chimney: 0.003, angle: 0 })),
  mouth: { kind: "ideal" },
});

describe("the cut-off of open holes", () => {
  it("is Benade's for an even row", () => {
    // Benade 1960 by another's reckoning with the published hole lengths (te 8.222 mm): bore radius 9.5, hole 4, wall 3, spacing
    // 25 mm, c = 345 m/s give 1613 Hz. Our hole lengths differ from those by a percent, the cut-off by half of it.
    const found = cutOffFrequencies(column([0.3, 0.325, 0.35]), AIR, [0, 0, 0]);
    expect(found.map(({ holes }) => holes)).toEqual([
      [0, 1],
      [1, 2],
    ]);
    for (const { frequency } of found) expect(Math.abs(frequency / 1613 - 1)).toBeLessThan(0.01);
  });

  it("is that of neighbouring open holes: closed and half-closed ones between them count as wall", () => {
    const wide = cutOffFrequencies(column([0.3, 0.35]), AIR, [0, 0]);
    const skipping = cutOffFrequencies(column([0.3, 0.325, 0.35]), AIR, [0, 1, 0]);
    expect(skipping[0]?.frequency).toBeCloseTo(wide[0]?.frequency ?? 0, 9);
    expect(skipping[0]?.holes).toEqual([0, 2]);
    expect(cutOffFrequencies(column([0.3, 0.325, 0.35]), AIR, [0, 0.5, 1])).toEqual([]);
  });

  it("rises with wider holes and falls with the square root of their distance", () => {
    const at = (places: readonly number[], radius?: number) =>
      cutOffFrequencies(column(places, radius), AIR, [0, 0])[0]?.frequency ?? Number.NaN;
    expect(at([0.3, 0.32], 0.005)).toBeGreaterThan(at([0.3, 0.32], 0.004));
    expect(at([0.3, 0.34]) / at([0.3, 0.32])).toBeCloseTo(Math.SQRT1_2, 9);
  });

  it("takes holes in any order, and gives no value for two at one place", () => {
    expect(cutOffFrequencies(column([0.35, 0.3]), AIR, [0, 0])[0]?.holes).toEqual([1, 0]);
    expect(cutOffFrequencies(column([0.3, 0.3]), AIR, [0, 0])).toEqual([]);
  });
});
