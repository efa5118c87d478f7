/** How a rod or a block lies in the printer's space. Outside values: the geometry of squares and cubes. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { layingOfBlock, layingOfRod, longestStraightRod } from "../../server/src/instrument/making/laying.js";

const CUBE = [100, 100, 100] as const;
const sizes = fc.tuple(
  fc.double({ min: 50, max: 400, noNaN: true }),
  fc.double({ min: 50, max: 400, noNaN: true }),
  fc.double({ min: 50, max: 400, noNaN: true }),
);

describe("a rod", () => {
  it("stands or lies along an edge as long as that is", () => {
    expect(layingOfRod(100, 20, CUBE)).toEqual({ kind: "straight" });
    expect(layingOfRod(240, 20, [220, 200, 250])).toEqual({ kind: "straight" });
    expect(layingOfRod(215, 20, [220, 200, 50])).toEqual({ kind: "straight" });
  });
  it("lies from corner to corner of a square bed, its length and width together the root of two sides", () => {
    // At 45° a rectangle a by b takes (a + b)/√2 in both directions.
    const most = 100 * Math.SQRT2 - 20;
    expect(layingOfRod(most - 0.01, 20, [100, 100, 20])).toEqual({ kind: "turned", degrees: 45 });
    expect(layingOfRod(most + 0.01, 20, [100, 100, 20])).toBeUndefined();
  });
  it("lies across a bed that is longer than wide, whichever way round that is", () => {
    // At 32° it takes 330 cos 32° + 10 sin 32° = 285.2 of 300 and 330 sin 32° + 10 cos 32° = 183.4 of 200; at 31° and 33° less is left.
    for (const bed of [[200, 300, 10] as const, [300, 200, 10] as const])
      expect(layingOfRod(330, 10, bed)).toEqual({ kind: "turned", degrees: 32 });
  });
  it("leans from corner to corner of a cube, a thin one up to the root of three edges", () => {
    const laying = layingOfRod(100 * Math.sqrt(3) - 2, 0.1, CUBE);
    // The space diagonal of a cube rises by asin(1/√3) = 35.26°.
    expect(laying?.kind).toBe("leaning");
    expect(laying?.kind === "leaning" && Math.abs(laying.degrees - 35.26)).toBeLessThan(1.5);
    expect(layingOfRod(100 * Math.sqrt(3) + 0.1, 0.1, CUBE)).toBeUndefined();
  });
  it("does not fit a bed that it is thicker than", () => expect(layingOfRod(90, 101, CUBE)).toBeUndefined());
  it("fits wherever a longer or thicker one does", () => {
    fc.assert(
      fc.property(
        sizes,
        fc.double({ min: 20, max: 700, noNaN: true }),
        fc.double({ min: 5, max: 60, noNaN: true }),
        (bed, length, width) => {
          const fits = layingOfRod(length, width, bed) !== undefined;
          if (fits) expect(layingOfRod(0.9 * length, 0.9 * width, bed)).toBeDefined();
          expect(fits && length > Math.hypot(...bed)).toBe(false);
          if (length >= width && length <= longestStraightRod(width, bed))
            expect(layingOfRod(length, width, bed)).toEqual({ kind: "straight" });
        },
      ),
      { seed: 3, numRuns: 60 },
    );
  });
});

describe("a block", () => {
  it("lies on any of its sides", () => {
    expect(layingOfBlock([30, 90, 60], [60, 30, 90])).toEqual({ kind: "straight" });
  });
  it("may be turned flat, but does not lean", () => {
    expect(layingOfBlock([110, 20, 20], [100, 100, 30])).toMatchObject({ kind: "turned" });
    expect(layingOfBlock([150, 20, 20], CUBE)).toBeUndefined();
  });
});
