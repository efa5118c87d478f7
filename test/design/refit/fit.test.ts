/** A single fit by least squares and the minimax step after it, of notes that follow a few dimensions by a formula. */
import { describe, expect, it } from "vitest";
import { coarseFit, minimaxOf, minimaxPoint, solveFit, tried, worstOf } from "../../../server/src/design/refit/fit.js";
import { apart, close, type Heard, limit, problemOf } from "../../support/formulaNotes.js";

describe("a fit", () => {
  it("brings each note where it is right, as far as the limits let it", () => {
    const { problem } = problemOf({ heard: apart(10, 20), count: 2, limits: [limit(1, "most", 15)] });
    for (const fit of [coarseFit(problem, [0, 0]), solveFit(problem, [0, 0])]) {
      expect(fit.x).toEqual(close([10, 15]));
      expect(fit.cents).toEqual(close([0, -5]));
      expect(worstOf(fit)).toBeCloseTo(5, 1);
      expect(fit.multipliers[0]).toBeGreaterThan(1);
      expect(fit.cost).toBeCloseTo(25, 0);
    }
  });
  it("stays near home where notes leave it free", () => {
    const { problem } = problemOf({ heard: ([a = 0, b = 0]) => [a + b - 10], count: 2 });
    expect(coarseFit(problem, [0, 0]).x).toEqual(close([5, 5]));
    expect(coarseFit(problem, [0, 0], 7, [10, 0]).x).toEqual(close([10, 0], 0));
  });
  it("counts missed comfort beside the notes, and tells how much of the cost it is", () => {
    const comfort = [{ row: new Map([[0, 1]]), least: 20, weight: 1 }];
    const { problem } = problemOf({ heard: apart(10), count: 1, comfort });
    const fit = coarseFit(problem, [0]);
    // Half way between 10 and 20.
    expect(fit.x).toEqual(close([15]));
    expect(fit.cents).toEqual(close([5]));
    expect(fit.discomfort).toBeCloseTo(25, 0);
    expect(fit.cost).toBeCloseTo(50, 0);
  });
  it("is the firmest that is good; where the work is spent, what the first has found", () => {
    const { problem, asked } = problemOf({ heard: apart(1), count: 1 });
    solveFit(problem, [0]);
    const few = asked.followed;
    // Both notes 5 cents off at best: every firmness is tried.
    const other = problemOf({ heard: ([a = 0]) => [a + 5, a - 5], count: 1 });
    solveFit(other.problem, [1]);
    expect(other.asked.followed).toBeGreaterThan(few);
    const spent = problemOf({ heard: ([a = 0]) => [a + 5, a - 5], count: 1, isSpent: () => true });
    solveFit(spent.problem, [1]);
    expect(spent.asked.followed).toBeLessThan(other.asked.followed);
  });
  it("goes on less firmly where the firmest fit has lost a note", () => {
    let asked = 0;
    const { problem } = problemOf({ heard: (x) => (asked++ === 0 ? undefined : apart(10)(x)), count: 1 });
    expect(solveFit(problem, [0]).x).toEqual(close([10]));
  });
  it("has no start where a note is lost", () => {
    const { problem } = problemOf({ heard: () => undefined, count: 1 });
    expect(() => solveFit(problem, [0])).toThrow(RangeError);
    expect(tried(() => coarseFit(problem, [0]))).toBeUndefined();
    expect(() =>
      tried(() => {
        throw new TypeError("of another kind");
      }),
    ).toThrow(TypeError);
  });
});

describe("the worst note brought nearest", () => {
  /** Three notes of one dimension: the mean lies at 1, the middle of the range at 1.5. */
  const heard: Heard = ([x = 0]) => [x, x, x - 3];

  it("costs the others, and what it comes to is told", () => {
    const { problem } = problemOf({ heard: (x) => heard(x)?.map((each) => 10 * each), count: 1 });
    const plain = coarseFit(problem, [0]);
    expect(plain.x).toEqual(close([1]));
    const minimax = minimaxOf(problem, plain, 1);
    expect(minimax.x).toEqual(close([1.5]));
    expect(worstOf(minimax)).toBeCloseTo(15, 0);
    expect(minimax.cost).toBeCloseTo(3 * 15 ** 2, -1);
    expect(minimax.multipliers).toBe(plain.multipliers);
  });
  it("is left where it is good enough, or leads nowhere", () => {
    const { problem } = problemOf({ heard, count: 1 });
    const plain = coarseFit(problem, [0]);
    expect(minimaxOf(problem, plain, 2.5)).toBe(plain);
    expect(minimaxPoint(problem, plain, 2.5)).toBeUndefined();
    const minimax = minimaxOf(problem, plain, 1);
    expect(minimaxPoint(problem, minimax, 1)?.x ?? minimax.x).toEqual(close(minimax.x));
  });
  it("keeps comfort the more, the nearer the notes are", () => {
    const comfort = [{ row: new Map([[0, 1]]), least: 3, weight: 1 }];
    const from = { x: [1], cents: [1, 1, -2] };
    const at = (enough: number) =>
      minimaxPoint(problemOf({ heard, count: 1, comfort, enough }).problem, from, 0)?.x[0] ?? 1;
    expect(at(5)).toBeGreaterThan(at(1.9) + 0.01);
  });
});
