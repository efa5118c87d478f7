/** What is drawn where steps are coarse: on made up notes that follow their dimensions in proportion. */
import { describe, expect, it } from "vitest";
import { Cancelled } from "../../../server/src/acoustics/cancelled.js";
import type { Inequality } from "../../../server/src/design/refit/quadraticProgram.js";
import { roundTogether } from "../../../server/src/design/refit/rounding.js";
import type { Point } from "../../support/formulaNotes.js";

const steps = (count: number, step = 1) => Array.from({ length: count }, () => ({ step, offset: 0 }));
/** Each note is a sum of dimensions times slopes, right at `right`; how often it was asked. */
function notes(slopes: readonly (readonly number[])[], right: Point, isLost: (x: Point) => boolean = () => false) {
  const asked: Point[] = [];
  const at = (x: Point) => {
    asked.push(x);
    if (isLost(x)) return undefined;
    return {
      cents: slopes.map((row) => row.reduce((sum, each, i) => sum + each * ((x[i] ?? 0) - (right[i] ?? 0)), 0)),
    };
  };
  return { at, slopes: () => slopes, asked };
}
const most = (i: number, mm: number): Inequality => ({ row: new Map([[i, -1]]), least: -mm });
const OWN = [
  [3, 0],
  [0, 3],
];

describe("a drawing", () => {
  it("is the nearest steps where each note has its own dimension, the limits kept", () => {
    expect(roundTogether(notes(OWN, [10.4, 20.6]), [10.4, 20.6], steps(2), [], 1.5)).toEqual([10, 21]);
    expect(roundTogether(notes(OWN, [10.4, 20.6]), [10.4, 20.6], steps(2), [most(1, 20.7)], 1.5)).toEqual([10, 20]);
  });
  it("lets one dimension make up for another", () => {
    const sum = notes([[3, 3]], [10.4, 20.4]);
    const drawn = roundTogether(sum, [10.4, 20.4], steps(2), [], 1.5);
    expect((drawn[0] ?? 0) + (drawn[1] ?? 0)).toBe(31);
  });
  it("is one of the exact dimensions themselves where these are not on steps of their own", () => {
    const fine = [
      { step: 1, offset: 0 },
      { step: 0.01, offset: 0 },
    ];
    const [first, second] = roundTogether(notes([[3, 3]], [10.4, 20.4]), [10.4, 20.4], fine, [], 1.5);
    expect(first).toBe(10);
    expect(second).toBeCloseTo(20.8, 1);
  });
  it("is all that can be where the exact dimensions, or all drawn ones, lose a note", () => {
    expect(
      roundTogether(
        notes(OWN, [10, 20], () => true),
        [10.4, 20.6],
        steps(2),
        [],
        1.5,
      ),
    ).toEqual([10, 21]);
    // Beyond its limit by rounding alone, it goes back a step; where that would break another, the other dimension does.
    const lost = notes(OWN, [10, 20], () => true);
    expect(roundTogether(lost, [10.4, 20.6], steps(2), [most(1, 20.7)], 1.5)).toEqual([10, 20]);
    const together: Inequality = {
      row: new Map([
        [0, -1],
        [1, -1],
      ]),
      least: -30.5,
    };
    expect(roundTogether(lost, [9.9, 20.6], steps(2), [together], 1.5)).toEqual([9, 21]);
    const least: Inequality = { row: new Map([[0, 1]]), least: 9.5 };
    expect(roundTogether(lost, [9.9, 20.6], steps(2), [least, together], 1.5)).toEqual([10, 20]);
    const drawnAlone = notes(OWN, [10.4, 20.6], (x) => x.every((each) => Number.isInteger(each)));
    expect(roundTogether(drawnAlone, [10.4, 20.6], steps(2), [], 1.5)).toEqual([10, 21]);
  });
  it("goes on with steps back and forth where another resonance came up at what the slopes led to", () => {
    // At 10 and 21 the second note is another one; by its slopes it would be right five steps on.
    const slopes = OWN;
    const at = ([a = 0, b = 0]: Point) => ({
      cents: [3 * (a - 10.4), a === 10 && b === 21 ? 15 : 3 * (b - 20.6)],
    });
    const drawn = roundTogether({ at, slopes: () => slopes }, [10.4, 20.6], steps(2), [], 1);
    expect(drawn).not.toEqual([10, 21]);
    expect(Number.isInteger(drawn[0])).toBe(true);
  });
  it("stops when told to", () => {
    expect(() => roundTogether(notes(OWN, [1.4, 2.6]), [1.4, 2.6], steps(2), [], 0.1, () => true)).toThrow(Cancelled);
  });
});
