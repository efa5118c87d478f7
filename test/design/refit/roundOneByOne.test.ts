/** Dimensions put on the steps of a drawing in turn, on made up notes that follow them in proportion. */
import { describe, expect, it } from "vitest";
import type { Inequality } from "../../../server/src/design/refit/quadraticProgram.js";
import { roundOneByOne } from "../../../server/src/design/refit/roundOneByOne.js";

const STEPS = [
  { step: 1, offset: 0 },
  { step: 1, offset: 0 },
];
const AIMS = ["worst", "squares"] as const;

describe("dimensions drawn one after another", () => {
  it("begin with what is heard most in a step, and the rest make up for it", () => {
    // A step of one is ten times the other's: it goes to its nearest, and the other follows by several.
    for (const aim of AIMS) {
      const [first = 0, second = 0] = roundOneByOne([10.4, 20.4], [0], [[1, 10]], STEPS, [], aim) ?? [];
      expect(second).toBe(20);
      expect(Math.abs(first - 14.4)).toBeLessThan(1.5);
      const [heard = 0, following = 0] = roundOneByOne([10.4, 20.4], [0], [[10, 1]], STEPS, [], aim) ?? [];
      expect(heard).toBe(10);
      expect(Math.abs(following - 24.4)).toBeLessThan(1.5);
    }
  });
  it("by the worst note or by all", () => {
    // Up, one note is 6.5 off and three are 2.9; down, the one is 3.5 off and three are 5.1.
    const many = [[10], [8], [8], [8]];
    expect(roundOneByOne([10.45], [1, -1.5, -1.5, -1.5], many, STEPS, [], "squares")).toEqual([11]);
    expect(roundOneByOne([10.45], [1, -1.5, -1.5, -1.5], many, STEPS, [], "worst")).toEqual([10]);
  });
  it("within limits, the farther step where the nearer breaks one, and none where both do", () => {
    const most = (mm: number): Inequality => ({ row: new Map([[0, -1]]), least: -mm });
    const least = (mm: number): Inequality => ({ row: new Map([[0, 1]]), least: mm });
    for (const aim of AIMS) {
      expect(roundOneByOne([10.6], [0], [[3]], STEPS, [most(10.7)], aim)).toEqual([10]);
      expect(roundOneByOne([10.6], [0], [[3]], STEPS, [most(10.7), least(10.5)], aim)).toBeUndefined();
    }
  });
  it("so that those still free keep what they share a limit with", () => {
    const together: Inequality = {
      row: new Map([
        [0, -1],
        [1, -1],
      ]),
      least: -31,
    };
    for (const aim of AIMS) {
      const [first = 0, second = 0] =
        roundOneByOne(
          [10.6, 20.6],
          [0, 0],
          [
            [9, 0],
            [0, 3],
          ],
          STEPS,
          [together],
          aim,
        ) ?? [];
      expect(first + second).toBeLessThanOrEqual(31);
      expect([first, second]).toEqual([11, 20]);
    }
    // The heard one goes down, and the other as far up as they need.
    const enough: Inequality = { ...together, row: new Map([...together.row.keys()].map((i) => [i, 1])), least: 31 };
    const slopes = [
      [9, 0],
      [0, 3],
    ];
    for (const aim of AIMS) expect(roundOneByOne([10.4, 20.4], [0, 0], slopes, STEPS, [enough], aim)).toEqual([10, 21]);
    // Nothing is left to the second once the first is drawn: no drawing of both.
    const apart: readonly Inequality[] = [
      {
        row: new Map([
          [0, 1],
          [1, 1],
        ]),
        least: 30.7,
      },
      {
        row: new Map([
          [0, -1],
          [1, -1],
        ]),
        least: -30.9,
      },
    ];
    for (const aim of AIMS)
      expect(
        roundOneByOne(
          [10.2, 20.6],
          [0, 0],
          [
            [9, 0],
            [0, 3],
          ],
          STEPS,
          apart,
          aim,
        ),
      ).toBeUndefined();
  });
});
