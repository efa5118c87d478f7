/** A vessel's chamber from what is drawn. Outside values: the volumes of ellipsoid and cylinder, and what a surface's normal is. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { TubeChamber } from "../../server/src/instrument/body.js";
import { placeOn } from "../../server/src/instrument/draft/cavity.js";
import { vessel } from "../support/families.js";
import { expectFinding, instrumentOf } from "../support/marked.js";

function chamberOf(text: string) {
  const { body } = instrumentOf(text);
  if (body.kind !== "vessel" || body.chamber === undefined) throw new Error("no chamber");
  return body.chamber;
}
function tubeOf(text: string): TubeChamber["column"] {
  const chamber = chamberOf(text);
  if (chamber.kind !== "tube") throw new Error("no tube");
  return chamber.column;
}
const NUMBERS = 10;

describe("a stated volume", () => {
  it.each([
    ["ellipsoid", "length: 9, width: 6, height: 4"],
    ["box", "length: 9, width: 6, height: 4"],
  ])("is the %s's, whose dimensions say its proportions alone", (shape, sizes) => {
    const chamber = chamberOf(vessel("", `volume: 200, shape: ${shape}, ${sizes}`));
    const [a, b, c] = chamber.kind === "round" ? chamber.shape.semiAxes : [];
    expect(((4 * Math.PI) / 3) * (a ?? 0) * (b ?? 0) * (c ?? 0)).toBeCloseTo(200e-6, NUMBERS);
    expect([(b ?? 0) / (a ?? 1), (c ?? 0) / (a ?? 1)]).toEqual([expect.closeTo(6 / 9, 9), expect.closeTo(4 / 9, 9)]);
  });
  it("is the tube's", () => {
    const { bore } = tubeOf(vessel("", "volume: 100, shape: tube, length: 2, diameter: 1"));
    const [from, to] = bore;
    const [length, radius] = [(to?.x ?? 0) - (from?.x ?? 0), from?.radius ?? 0];
    expect(Math.PI * radius ** 2 * length).toBeCloseTo(100e-6, NUMBERS);
    expect(length / radius).toBeCloseTo(4, 9);
  });
  it("that cannot be read leaves no chamber, whatever else is drawn", () => {
    const text = vessel("", "volume: [[large]], shape: ellipsoid, length: 90, width: 60, height: 45");
    expectFinding(text, "schema/wrong-kind");
    expect(() => chamberOf(text.replace(/\[\[|\]\]/g, ""))).toThrow("no chamber");
  });
});

describe("a chamber in the shape of a tube", () => {
  const at = (text: string) => tubeOf(text).holes.map(({ x }) => 1e3 * x);
  const two = (places: readonly [string, string]) =>
    `holes: [{ ${places[0]}diameter: 5 }, { ${places[1]}diameter: 6 }]`;
  it("has its holes where they are drawn, and else evenly from the mouth to the far end", () => {
    const shape = "shape: tube, length: 92, diameter: 40";
    // The mouth's centre is half the cut-up of 5 mm from the near end: 89.5 mm from the far one.
    expect(at(vessel(two(["at: 20, ", "at: 41, "]), shape))).toEqual([expect.closeTo(20, 9), expect.closeTo(41, 9)]);
    const thirds = [expect.closeTo(89.5 / 3, 9), expect.closeTo((2 * 89.5) / 3, 9)];
    expect(at(vessel(two(["", ""]), shape))).toEqual(thirds);
  });
  it("has them in their order and before the far end, or is none", () => {
    const shape = "shape: tube, length: 92, diameter: 40";
    expect(at(vessel(two(["at: 20, ", "at: 86, "]), shape))).toHaveLength(2);
    for (const places of [
      ["at: 20, ", "at: 91, "],
      ["at: 41, ", "at: 20, "],
      ["at: -1, ", "at: 20, "],
    ] as const)
      expect(() => at(vessel(two(places), shape))).toThrow("no chamber");
  });
  it("is stopped at both ends, the body a wall longer where no windway goes on", () => {
    const ends = (more: string) => {
      const { bore, bodyEnds, foot, wall } = tubeOf(vessel("", `shape: tube, length: 92, diameter: 40${more}`));
      expect([foot, wall]).toEqual(["stopped", 0.004]);
      return [bore.map(({ x }) => 1e3 * x), bodyEnds?.map((x) => 1e3 * x)];
    };
    expect(ends("")).toEqual([[-2.5, expect.closeTo(89.5, 9)], [expect.closeTo(93.5, 9)]]);
    expect(ends(", mouthAt: side")).toEqual([
      [-46, 46],
      [-50, 50],
    ]);
  });
});

describe("a hole round a chamber", () => {
  const radiusOf = (hole: string, more = "") => {
    const chamber = chamberOf(vessel(`${more}holes: [{ angle: 60, ${hole} }]`));
    return chamber.kind === "round" ? 1e3 * (chamber.shape.holes[0]?.radius ?? 0) : Number.NaN;
  };
  it("counts as the round one of its area, in the size that comes out of the printer", () => {
    expect(radiusOf("diameter: 6")).toBeCloseTo(3, 9);
    expect(radiusOf("diameter: 4, length: 9")).toBeCloseTo(3, 9);
    const print = "print: { holeUndersize: 0.5, shrinkage: 1 % }\n";
    expect(radiusOf("diameter: 6", print)).toBeCloseTo((6 * 0.99 - 0.5) / 2, 9);
    expect(radiusOf("diameter: 4, length: 9", print)).toBeCloseTo(
      Math.sqrt((4 * 0.99 - 0.5) * (9 * 0.99 - 0.5)) / 2,
      9,
    );
  });
});

describe("a place on an ellipsoid", () => {
  it("lies on it in the direction asked, its normal square to the surface around", () => {
    const axis = fc.double({ min: 0.5, max: 2, noNaN: true });
    const angle = fc.double({ min: -80, max: 80, noNaN: true });
    fc.assert(
      fc.property(axis, axis, axis, angle, angle, (a, b, c, direction, elevation) => {
        const { point, normal } = placeOn([a, b, c], direction, elevation);
        const [x, y, z] = point;
        expect((x / a) ** 2 + (y / b) ** 2 + (z / c) ** 2).toBeCloseTo(1, 9);
        expect(Math.atan2(y, x)).toBeCloseTo((direction * Math.PI) / 180, 9);
        expect(Math.asin(z / Math.hypot(x, y, z))).toBeCloseTo((elevation * Math.PI) / 180, 9);
        expect(Math.hypot(...normal)).toBeCloseTo(1, 9);
        for (const [by, up] of [
          [1, 0],
          [0, 1],
        ] as const) {
          const [before, after] = [-1, 1].map(
            (sign) => placeOn([a, b, c], direction + 1e-4 * sign * by, elevation + 1e-4 * sign * up).point,
          );
          const along = normal.reduce((sum, n, i) => sum + n * ((after?.[i] ?? 0) - (before?.[i] ?? 0)), 0);
          expect(Math.abs(along)).toBeLessThan(1e-10);
        }
        expect(normal[0] * x + normal[1] * y + normal[2] * z).toBeGreaterThan(0);
      }),
      { numRuns: 40 },
    );
  });
});
