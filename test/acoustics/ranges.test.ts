import { describe, expect, it } from "vitest";
import { type RangeWarning, rangeWarnings } from "../../server/src/acoustics/ranges.js";
import { losslessAir, tube } from "./instruments.js";

const hole = (x: number, diameter: number, chimney = 4, angle = 0) => ({
  x: x / 1000,
  radius: diameter / 2000,
  chimney: chimney / 1000,
  angle,
});
const told = ({ quantity, hole, note }: RangeWarning) => [quantity, hole ?? note];
const warned = (...args: Parameters<typeof rangeWarnings>) => rangeWarnings(...args).map(told);

describe("no bound is exceeded", () => {
  it("by wide holes that all but touch in a thick wall, and ovals in a thin one: test/reference/fem-corners.json", () => {
    const wide = [176, 194, 212].map((x) => hole(x, 15, 6));
    expect(warned(tube(310, 20, { wall: 0.006, holes: wide }), losslessAir, [])).toEqual([]);
    const oval = { ...hole(150, 6, 0.4), halfLength: 0.004 };
    expect(warned(tube(350, 16, { holes: [oval] }), losslessAir, [])).toEqual([]);
  });

  it("by chimneys of a recorder's foot, thin metal whistles, thumb holes or near narrow holes", () => {
    const holes = [hole(150, 7), hole(152, 6, 4, Math.PI), hole(200, 2, 7), hole(260, 4), hole(268, 4)];
    expect(warned(tube(350, 16, { holes }), losslessAir, [440, 880])).toEqual([]);
    const whistle = [0, 1, 2, 3, 4, 5].map((i) => hole(150 + 20 * i, 7, 0.4));
    expect(warned(tube(290, 12, { holes: whistle, wall: 0.0004 }), losslessAir, [587, 1175])).toEqual([]);
  });
});

describe("bounds of what was checked", () => {
  it("name the hole that passes one", () => {
    const shaped = (x: number, shape: object) => ({ ...hole(x, 6), ...shape });
    const holes = [
      hole(50, 14),
      shaped(100, { halfLength: 0.0061 }),
      shaped(150, { halfLength: 0.0014 }),
      shaped(200, { undercut: 0.0015 }),
      shaped(250, { halfLength: 0.006, undercut: 0.0005 }),
    ];
    expect(warned(tube(350, 16, { holes }), losslessAir, [])).toEqual([
      ["hole over bore", 0],
      ["length of a hole over its width", 1],
      ["length of a hole over its width", 2],
      ["slope of an undercut", 3],
    ]);
  });

  it("take an undercut hole as wide as it is at the bore", () => {
    // 0.78 of the bore outside, 0.83 at the bore.
    const own = { ...hole(150, 12.5), undercut: 0.0004 };
    expect(warned(tube(350, 16, { holes: [hole(150, 12.5)] }), losslessAir, [])).toEqual([]);
    expect(warned(tube(350, 16, { holes: [own] }), losslessAir, [])).toEqual([["hole over bore", 0]]);
  });

  it("name the notes too high for the bore's width", () => {
    // 0.5 at 3415 Hz.
    expect(warned(tube(350, 16), losslessAir, [3400, undefined, 3430])).toContainEqual([
      "wave number times bore radius",
      2,
    ]);
  });
});
