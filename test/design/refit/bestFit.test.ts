/** Fits from several starts: which are tried, how the best is drawn, and what is scanned again. */
import { describe, expect, it } from "vitest";
import { best, solved } from "../../../server/src/design/refit/bestFit.js";
import { coarseFit, type FitProblem } from "../../../server/src/design/refit/fit.js";
import { NotDrawable } from "../../../server/src/design/refit/inTune.js";
import { Infeasible } from "../../../server/src/design/refit/quadraticProgram.js";
import { apart, close, type Heard, limit, type Point, taskOf } from "../../support/formulaNotes.js";

describe("the best of several starts", () => {
  /** One note: 10 cents off at best near 0, right at 20; the ways to it part at 10. */
  const valleys: Heard = ([x = 0]) => [x < 10 ? Math.sqrt(100 + x * x) : x - 20];

  it("is drawn on the steps, and is told what it plays", () => {
    const { task } = taskOf({ heard: apart(10.1, 20.2), count: 2, starts: [[9, 19]] });
    const { drawn, cents, confirmed, isLost, found } = best(task);
    expect(drawn).toEqual([10, 20]);
    expect(cents).toEqual(close([-0.1, -0.2]));
    expect([confirmed, isLost]).toEqual([true, false]);
    expect(found.x).toEqual(close([10.1, 20.2]));
  });
  it("is found from the start that leads to it, and no other is asked once the notes are within the tolerance, or little out of it", () => {
    expect(best(taskOf({ heard: valleys, count: 1, starts: [[1], [17]] }).task).drawn).toEqual([20]);
    const first = taskOf({ heard: valleys, count: 1, starts: [[17], [1]] });
    expect(best(first.task).drawn).toEqual([20]);
    const alone = taskOf({ heard: valleys, count: 1, starts: [[17]] });
    best(alone.task);
    expect(first.asked.followed).toBe(alone.asked.followed);
    // Ten cents are left at the first.
    const at = (tolerance: number) =>
      best(taskOf({ heard: valleys, count: 1, starts: [[1], [17]], tolerance }).task).drawn[0];
    expect([at(7.9), at(8.1)]).toEqual([20, 1]);
  });
  it("is what was found when the work is spent", () => {
    let asks = 0;
    const { task } = taskOf({ heard: valleys, count: 1, starts: [[1], [17]], isSpent: () => asks++ > 200 });
    expect(best(task).drawn).toEqual([20]);
    expect(
      best(taskOf({ heard: valleys, count: 1, starts: [[1], [17]], isSpent: () => true }).task).drawn[0],
    ).toBeLessThan(2);
  });
  it("is refused where every start loses a note, or the limits contradict each other", () => {
    expect(() => best(taskOf({ heard: () => undefined, count: 1, starts: [[1], [17]] }).task)).toThrow(RangeError);
    const limits = [limit(0, "most", 3), limit(0, "least", 4)];
    expect(() => best(taskOf({ heard: apart(1), count: 1, limits, starts: [[1]] }).task)).toThrow(Infeasible);
    // One start that leads on is enough.
    const lost: Heard = ([x = 0]) => (x < 5 ? undefined : [x - 20]);
    expect(best(taskOf({ heard: lost, count: 1, starts: [[1], [17]] }).task).drawn).toEqual([20]);
  });
  it("says which limit the drawn dimensions miss, wherever they are put", () => {
    const limitsAt = ([x = 0]: Point) => [limit(0, "most", x - 0.5)];
    const asked = () =>
      best(taskOf({ heard: apart(10), count: 1, limits: [limit(0, "most", 25)], limitsAt, starts: [[0]] }).task);
    expect(asked).toThrow(NotDrawable);
  });
  it("keeps the limits where the drawn dimensions put them", () => {
    // The farther the first, the less is left to the second.
    const limitsAt = ([x = 0]: Point) => [limit(1, "most", 25 - x)];
    const { task } = taskOf({
      heard: apart(10, 20),
      count: 2,
      limits: [limit(1, "most", 25)],
      limitsAt,
      starts: [[0, 0]],
    });
    const [first = 0, second = 0] = best(task).drawn;
    expect(first).toBe(10);
    expect(second).toBe(15);
  });
});

describe("one start", () => {
  const solve = (problem: FitProblem) => coarseFit(problem, [0], 12);

  it("is not drawn where it comes to the same place as what is known, or is not wanted", () => {
    // 5 cents off at best: a cost of 50.
    const heard: Heard = ([x = 0]) => [x + 5, x - 5];
    const of = (known?: number, most?: number) =>
      solved(taskOf({ heard, count: 1, starts: [[0]], ...(most === undefined ? {} : { most }) }).task, solve, known);
    expect(of()?.cost).toBeCloseTo(50, 3);
    expect([of(51), of(50), of(52)].map((each) => each === undefined)).toEqual([true, true, false]);
    expect([of(undefined, 4), of(undefined, 6)].map((each) => each === undefined)).toEqual([true, false]);
  });
  it("is solved with scans where another resonance came up at its end", () => {
    // Followed it is right at 50, scanned at 4.
    const { task, asked } = taskOf({ heard: apart(50), scanned: apart(4), count: 1, starts: [[0]] });
    const found = solved(task, solve);
    expect(found?.drawn).toEqual([4]);
    expect(found?.confirmed).toBe(true);
    expect(asked.restarts).toEqual([]);
  });
  it("is left as drawn where going on from there leads farther off", () => {
    // Drawn at 10 it sounds 80 cents off; what is followed from there is right at 30, and sounds 120 off.
    let isBegunAnew = false;
    const heard: Heard = ([x = 0]) => [x - (isBegunAnew ? 30 : 10.1)];
    const scanned: Heard = ([x = 0]) => [Math.abs(x - 10) < 0.05 ? 80 : Math.abs(x - 10.1) < 0.01 ? 0 : 120];
    const { task } = taskOf({ heard, scanned, count: 1, starts: [[0]] });
    task.problem.tuner.restart = () => {
      isBegunAnew = true;
    };
    expect(solved(task, solve)?.cents).toEqual([80]);
    expect(isBegunAnew).toBe(true);
  });
  it("goes on from the drawing where that alone sounds another resonance", () => {
    // On the drawing's step of 10 the note is another one; what is solved, 10.1, is not.
    const scanned: Heard = ([x = 0]) => [Math.abs(x - 10) < 0.05 ? 80 : x - 10.1];
    const { task, asked } = taskOf({ heard: apart(10.1), scanned, count: 1, starts: [[0]] });
    const found = solved(task, solve);
    expect(asked.restarts).toHaveLength(1);
    expect(asked.restarts[0]).toEqual([10]);
    expect(found?.cents).toEqual([80]);
    // Not where another way is known.
    const again = taskOf({ heard: apart(10.1), scanned, count: 1, starts: [[0]] });
    expect(solved(again.task, solve, 1e9)?.isLost).toBe(true);
    expect(again.asked.restarts).toEqual([]);
  });
});
