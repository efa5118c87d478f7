import { describe, expect, it } from "vitest";
import { CHECKED } from "../../server/src/acoustics/checkedRanges.js";
import { type RangeWarning, rangeWarnings } from "../../server/src/acoustics/ranges.js";
import { offByWidth, vesselWarnings } from "../../server/src/acoustics/vesselRanges.js";
import type { Vessel } from "../../server/src/acoustics/vesselShape.js";
import { roundMouth } from "../accuracy/vessels.js";
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

  it("name the closed piece of bore behind a window, in radii of the bore", () => {
    const behind = (stopper?: number) => {
      const mouth = { kind: "window", width: 0.01, cutUp: 0.005, chimney: 0.003, ...(stopper && { stopper }) } as const;
      return rangeWarnings(tube(350, 16, { mouth }), losslessAir, []);
    };
    const greatest = CHECKED.windowSpace;
    expect(behind()).toEqual([]);
    expect(behind(greatest * 0.008)).toEqual([]);
    const quantity = "space behind the window over bore radius";
    expect(behind(0.04)).toEqual([{ quantity, value: expect.closeTo(5, 9), least: 0, greatest }]);
  });
});

describe("bounds of vessels", () => {
  const vessel = (rest: Partial<Vessel> = {}): Vessel => ({
    semiAxes: [0.04, 0.03, 0.05],
    wall: 0.004,
    mouth: roundMouth(0.01, 0.004),
    holes: [],
    ...rest,
  });
  const hole = (radius: number) => ({ radius, chimney: 0.004, angle: 1 });
  const warned = (own: Vessel, frequencies: readonly (number | undefined)[] = []) =>
    vesselWarnings(own, losslessAir, frequencies);

  it("name the openings too wide for the narrowest half axis: 7.5 mm of 30", () => {
    expect(warned(vessel({ holes: [hole(0.0074)] }))).toEqual([]);
    const wide = { quantity: "opening over narrowest half axis", greatest: CHECKED.openingOverHalfAxis };
    expect(warned(vessel({ holes: [hole(0.003), hole(0.0078)] }))).toEqual([
      { ...wide, value: expect.closeTo(0.26, 9), hole: 1 },
    ]);
    // Of the circle of equal area: π · 7.9² = 19.6 × 10 mm; a hole across has a quarter of length × width over π.
    const mouth = (width: number) => ({ kind: "window", width, cutUp: 0.01, chimney: 0.004 }) as const;
    expect(warned(vessel({ mouth: mouth(0.0175) }))).toEqual([]);
    expect(warned(vessel({ mouth: mouth(0.0196) }))).toEqual([{ ...wide, value: expect.closeTo(0.2633, 4) }]);
    expect(warned(vessel({ mouth: roundMouth(0.0148, 0.004) }))).toEqual([]);
    expect(warned(vessel({ mouth: roundMouth(0.0152, 0.004) }))).toHaveLength(1);
  });

  it("name the lowest note too high for the longest half axis: 0.8 in wave numbers at 874 Hz", () => {
    expect(warned(vessel(), [870, undefined])).toEqual([]);
    expect(warned(vessel(), [900, undefined, 880, 870])).toEqual([
      {
        quantity: "vessel's half length in wave numbers",
        value: expect.closeTo((2 * Math.PI * 880 * 0.05) / losslessAir.soundSpeed, 9),
        greatest: CHECKED.waveNumberTimesHalfAxis,
        note: 2,
      },
    ]);
  });

  it("leave notes off by the square of the widest open hole, from what finite elements were off at 0.2", () => {
    // docs/coupled-model.md §10: 3 cents there.
    const wide = vessel({ holes: [hole(0.009), hole(0.003), hole(0.012)] });
    expect(offByWidth(wide, [0, 0, 1])).toBeCloseTo(3 * 1.5 ** 2, 9);
    expect(offByWidth(wide, [1, 0, 0.5])).toBeCloseTo(3 * 2 ** 2, 9);
    expect(offByWidth(wide, [1, 0, 1])).toBeUndefined();
    expect(offByWidth(wide, [])).toBeUndefined();
  });
});
