/** Where a dimension may be drawn: on steps, or as one of the drills at hand. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { neighbours, next } from "../../../server/src/design/refit/drawingStep.js";
import { drawingSteps, drawn } from "../../../server/src/design/refit/writeSolution.js";
import { instrumentOf, tube } from "../../support/marked.js";

const DRILLS = { step: 0.7, offset: 0, choices: [2, 2.5, 3, 3.7] };

describe("the steps beside a value", () => {
  it("lie on both sides of it, the nearer first, a whole number of steps with the offset", () => {
    const value = fc.double({ min: -50, max: 500, noNaN: true });
    fc.assert(
      fc.property(value, fc.constantFrom(0.05, 0.1, 0.25), fc.constantFrom(0, 0.075), (value, step, offset) => {
        const [nearer, farther] = neighbours(value, { step, offset });
        expect(Math.abs(nearer - value)).toBeLessThanOrEqual(step / 2 + 1e-9);
        expect(Math.abs(farther - nearer)).toBeCloseTo(step, 9);
        expect((nearer - value) * (farther - value)).toBeLessThanOrEqual(1e-9);
        const place = (nearer + offset) / step;
        expect(Math.abs(place - Math.round(place))).toBeLessThan(1e-6);
      }),
      { numRuns: 200 },
    );
  });
  it("are the drills next to it, at the end the last twice", () => {
    expect(neighbours(2.6, DRILLS)).toEqual([2.5, 3]);
    expect(neighbours(2.9, DRILLS)).toEqual([3, 2.5]);
    expect(neighbours(2.75, DRILLS)).toEqual([2.5, 3]);
    expect(neighbours(2.5, DRILLS)).toEqual([2.5, 3]);
    expect(neighbours(1, DRILLS)).toEqual([2, 2.5]);
    expect(neighbours(9, DRILLS)).toEqual([3.7, 3.7]);
    expect(neighbours(9, { ...DRILLS, choices: [] })).toEqual([9, 9]);
  });
  it("go up and down by one", () => {
    expect([next(4, { step: 0.1, offset: 0 }, 1), next(4, { step: 0.1, offset: 0 }, -1)]).toEqual([4.1, 3.9]);
    expect([next(2.5, DRILLS, 1), next(2.5, DRILLS, -1)]).toEqual([3, 2]);
    // What sums have rounded is still the drill.
    expect([next(2.5 - 1e-9, DRILLS, 1), next(2.5 + 1e-9, DRILLS, -1)]).toEqual([3, 2]);
    expect([next(3.7, DRILLS, 1), next(2, DRILLS, -1)]).toEqual([3.7, 2]);
  });
});

describe("the drawing's steps", () => {
  const KINDS = ["hole-place", "hole-radius", "hole-undercut", "station-place", "station-radius", "stopper"] as const;
  const unknowns = KINDS.map((kind) => ({ kind }));
  const instrument = instrumentOf(tube("print: { scale: 125 %, holeUndersize: 0.3, rounding: 0.2 }"));

  it("are halved for a radius, since diameters are drawn; a hole is drawn wider than it prints", () => {
    const steps = drawingSteps(unknowns, instrument);
    const [place, radius] = [expect.closeTo(0.25, 9), expect.closeTo(0.125, 9)];
    expect(steps.map(({ step }) => step)).toEqual([place, radius, radius, place, radius, place]);
    expect(steps.map(({ offset }) => offset)).toEqual([0, expect.closeTo(0.15, 9), 0, 0, 0, 0]);
  });
  it("of holes are the drills', the widest gap between them", () => {
    const [place, hole, undercut] = drawingSteps(unknowns, instrument, [5, 6, 7.5]);
    expect(hole).toEqual({ step: 0.75, offset: 0, choices: [2.5, 3, 3.75] });
    expect([place?.choices, undercut?.choices]).toEqual([undefined, undefined]);
    expect(drawingSteps(unknowns, instrument, [5])[1]).toEqual({ step: 2.5, offset: 0, choices: [2.5] });
  });
  it("a printed size is drawn in the file's unit, radii as diameters, holes with their undersize", () => {
    const found = KINDS.map((kind) => drawn({ kind }, 10, instrument));
    const [plain, across] = [expect.closeTo(8, 9), expect.closeTo(16, 9)];
    expect(found).toEqual([plain, expect.closeTo(16.24, 9), across, plain, across, plain]);
  });
});
