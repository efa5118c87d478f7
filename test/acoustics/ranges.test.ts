import { describe, expect, it } from "vitest";
import { rangeWarnings } from "../../server/src/acoustics/ranges.js";
import { losslessAir, tube } from "./instruments.js";

const hole = (x: number, diameter: number, chimney = 4, angle = 0) => ({
  x: x / 1000,
  radius: diameter / 2000,
  chimney: chimney / 1000,
  angle,
});
const quantities = (...args: Parameters<typeof rangeWarnings>) =>
  rangeWarnings(...args).map(({ quantity, hole: index, note }) => [quantity, index ?? note]);

/** Limits: the finite-element cases behind the hole formulas, δ 0.2–0.8, t/b 0.2–3, ka ≤ 0.4, neighbours 1.6 bore radii apart. */
describe("ranges of the formulas", () => {
  it("a common instrument stays inside", () => {
    expect(rangeWarnings(tube(350, 16, { holes: [hole(180, 7), hole(220, 8)] }), losslessAir, [440, 880])).toEqual([]);
  });

  it("names the hole that leaves them", () => {
    const column = tube(350, 16, {
      holes: [hole(100, 7), hole(150, 14), hole(200, 2, 5), hole(250, 8), hole(260, 8)],
    });
    expect(quantities(column, losslessAir, [])).toEqual([
      ["hole over bore", 1],
      ["hole over bore", 2],
      ["chimney over hole radius", 2],
      ["distance of holes over bore radius", 4],
    ]);
  });

  it("names an oval longer than 2 : 1 or wider than 1 : 2, and an undercut steeper than 0.35", () => {
    const shaped = (x: number, shape: object) => ({ ...hole(x, 6), ...shape });
    const holes = [
      shaped(100, { halfLength: 0.0061 }),
      shaped(150, { halfLength: 0.0014 }),
      shaped(200, { undercut: 0.0015 }),
      shaped(250, { halfLength: 0.006, undercut: 0.0005 }),
    ];
    expect(quantities(tube(350, 16, { holes }), losslessAir, [])).toEqual([
      ["length of a hole over its width", 0],
      ["length of a hole over its width", 1],
      ["slope of an undercut", 2],
    ]);
  });

  it("a thumb hole opposite a finger hole is no near neighbour", () => {
    const column = tube(350, 16, { holes: [hole(180, 7, 4, Math.PI), hole(182, 7)] });
    expect(rangeWarnings(column, losslessAir, [])).toEqual([]);
  });

  it("names the notes too high for the bore's width, skipping those that do not sound", () => {
    // ka = 2πf·a/c: 0.4 at 2732 Hz in a bore of 8 mm radius.
    expect(quantities(tube(350, 16), losslessAir, [2700, undefined, 2760])).toEqual([
      ["wave number times bore radius", 2],
    ]);
  });
});
