/** The wall between two openings against the least distance between points of their edges, and where the answer is plain. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type SurfaceOpening, wallGap } from "../../../server/src/instrument/making/wallGap.js";
import { expectFinding, expectNothing, tube } from "../../support/marked.js";

const BORE = 8;
const opening = (at: number, angle: number, length: number, width: number): SurfaceOpening => ({
  at,
  angle,
  length,
  width,
});

/** Points of an edge on the unrolled surface. */
function edge({ at, angle, length, width }: SurfaceOpening, points = 720): readonly (readonly [number, number])[] {
  return Array.from({ length: points }, (_, i) => {
    const turn = (2 * Math.PI * i) / points;
    const across = ((angle * Math.PI) / 180) * BORE;
    return [at + (length / 2) * Math.cos(turn), across + (width / 2) * Math.sin(turn)] as const;
  });
}

describe("wallGap", () => {
  it("is the least distance between the edges of ovals in any direction", () => {
    const size = fc.double({ min: 2, max: 12, noNaN: true });
    const pair = fc.tuple(
      size,
      size,
      size,
      size,
      fc.double({ min: 0, max: 30, noNaN: true }),
      fc.integer({ max: 170, min: 0 }),
    );
    fc.assert(
      fc.property(pair, ([l1, w1, l2, w2, along, turn]) => {
        const [a, b] = [opening(100, 0, l1, w1), opening(100 + along, turn, l2, w2)];
        const gap = wallGap(a, b, BORE);
        fc.pre(gap > 0.2);
        const [one, other] = [edge(a), edge(b)];
        const least = Math.min(...one.map(([x, y]) => Math.min(...other.map(([u, v]) => Math.hypot(x - u, y - v)))));
        // Sampled edges are never nearer than the edges, and half a step of each farther at most.
        expect(least).toBeGreaterThan(gap - 1e-9);
        expect(least).toBeLessThan(gap + 0.02);
      }),
      { numRuns: 15 },
    );
  });
  it("counts the length along the bore and the width across it", () => {
    expect(wallGap(opening(100, 0, 10, 6), opening(111, 0, 10, 6), BORE)).toBeCloseTo(1, 9);
    const quarter = (Math.PI / 2) * BORE;
    expect(wallGap(opening(100, 0, 10, 6), opening(100, 270, 10, 6), BORE)).toBeCloseTo(quarter - 6, 9);
  });
  it("is negative by the overlap, also of holes at one place", () => {
    expect(wallGap(opening(100, 0, 10, 6), opening(109, 0, 10, 6), BORE)).toBeCloseTo(-1, 9);
    expect(wallGap(opening(100, 0, 6, 6), opening(100, 0, 4, 4), BORE)).toBe(-5);
  });
  it("is what the rules of hands and printer ask of ovals beside each other", () => {
    const two = (width: string, rest = "") =>
      tube(
        `${rest}holes:\n  - { name: A, at: 100, diameter: ${width}, length: 14 }\n  - { name: B, at: [[100]], diameter: ${width}, length: 14, angle: 90 }\n`,
      );
    // A quarter of a bore of 16 mm is 12.57 mm of its surface; the ovals' lengths run along it.
    expectFinding(two("11.5", "hands: { fingertip: 15 }\n"), "hole/too-near", "1.1 mm");
    expectNothing(two("10.9", "hands: { fingertip: 15 }\n").replace(/\[\[|\]\]/g, ""));
  });
});
