/**
 * How a refit solves, on made up instruments whose notes follow a few dimensions by a formula: what is fitted, drawn, given up and named.
 * Optima are worked out by hand.
 */
import { describe, expect, it } from "vitest";
import type { Preference } from "../../../server/src/design/constraints/comfort.js";
import type { Limit } from "../../../server/src/design/constraints/limit.js";
import type { Unknown } from "../../../server/src/design/constraints/unknowns.js";
import type { Analysis } from "../../../server/src/design/predict/analysis.js";
import { best, solved, type Task } from "../../../server/src/design/refit/bestFit.js";
import {
  coarseFit,
  evened,
  type FitProblem,
  minimaxOf,
  solveFit,
  tried,
  worstOf,
} from "../../../server/src/design/refit/fit.js";
import { refusal, unlessImpossible } from "../../../server/src/design/refit/inTune.js";
import { contradiction, drawingTooCoarse, obstaclesOf } from "../../../server/src/design/refit/obstacles.js";
import { Infeasible } from "../../../server/src/design/refit/quadraticProgram.js";
import { presentCents } from "../../../server/src/design/refit/refit.js";
import { CannotRekey } from "../../../server/src/design/rekey/rekeyResult.js";
import { instrumentOf, tube } from "../../support/marked.js";

type Point = readonly number[];
type Heard = (x: Point) => readonly number[] | undefined;

interface Made {
  /** Cents of each note at a point as they are followed; undefined where one is lost. */
  readonly heard: Heard;
  /** As a scan finds them. Default: the same. */
  readonly scanned?: Heard;
  readonly count: number;
  readonly limits?: readonly Limit[];
  readonly comfort?: readonly Preference[];
  readonly isSpent?: () => boolean;
  readonly enough?: number;
}

/** Slopes by small differences, as exact as they need be. */
function problemOf({
  heard,
  scanned = heard,
  count,
  limits = [],
  comfort = [],
  isSpent = () => false,
  enough = 5,
}: Made) {
  const asked = { followed: 0, scanned: 0, restarts: [] as Point[] };
  const notesAt = (of: Heard, x: Point) => {
    const cents = of(x);
    return cents && { x, cents, column: undefined, frequencies: [] };
  };
  const tuner = {
    at: (x: Point) => {
      asked.followed++;
      return notesAt(heard, x);
    },
    scanned: (x: Point) => {
      asked.scanned++;
      return notesAt(scanned, x);
    },
    restart: (x: Point) => asked.restarts.push(x),
    // By the formula that is followed, also where a scan has found the notes.
    slopes: ({ x }: { readonly x: Point }) => {
      const here = heard(x) ?? [];
      const columns = x.map((_, i) => {
        const there = heard(x.map((value, j) => (i === j ? value + 1e-6 : value))) ?? here;
        return here.map((each, note) => ((there[note] ?? each) - each) / 1e-6);
      });
      return here.map((_, note) => columns.map((column) => column[note] ?? 0));
    },
  };
  const unknowns = Array.from({ length: count }, (_, index): Unknown => ({ kind: "hole-place", index, path: [] }));
  const problem: FitProblem = {
    tuner: tuner as unknown as FitProblem["tuner"],
    unknowns,
    limits,
    comfort,
    enough,
    isSpent,
    mostSteps: 12,
  };
  return { problem, asked };
}

/** `x[i]` at most, or at least, this many millimetres. */
function limit(i: number, sign: "most" | "least", mm: number, more: Partial<Limit> = {}): Limit {
  const factor = sign === "most" ? -1 : 1;
  return {
    row: new Map([[i, factor]]),
    least: factor * mm,
    complaint: (needed) => `${i} at ${sign} ${mm}, ${needed.toFixed(1)} needed`,
    advice: `widen ${i}`,
    value: (x) => x[i] ?? Number.NaN,
    limitAt: () => mm,
    ...more,
  };
}

/** Each note follows its own dimension, 1 cent a millimetre, and is right at these. */
const apart =
  (...right: readonly number[]): Heard =>
  (x) =>
    right.map((mm, i) => (x[i] ?? 0) - mm);
const close = (x: Point, digits = 1) => x.map((mm) => expect.closeTo(mm, digits));

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
    const even = minimaxOf(problem, plain, 1);
    expect(even.x).toEqual(close([1.5]));
    expect(worstOf(even)).toBeCloseTo(15, 0);
    expect(even.cost).toBeCloseTo(3 * 15 ** 2, -1);
    expect(even.multipliers).toBe(plain.multipliers);
  });
  it("is left where it is good enough, or leads nowhere", () => {
    const { problem } = problemOf({ heard, count: 1 });
    const plain = coarseFit(problem, [0]);
    expect(minimaxOf(problem, plain, 2.5)).toBe(plain);
    expect(evened(problem, plain, 2.5)).toBeUndefined();
    const even = minimaxOf(problem, plain, 1);
    expect(evened(problem, even, 1)?.x ?? even.x).toEqual(close(even.x));
  });
  it("keeps comfort the more, the nearer the notes are", () => {
    const comfort = [{ row: new Map([[0, 1]]), least: 3, weight: 1 }];
    const from = { x: [1], cents: [1, 1, -2] };
    const at = (enough: number) => evened(problemOf({ heard, count: 1, comfort, enough }).problem, from, 0)?.x[0] ?? 1;
    expect(at(5)).toBeGreaterThan(at(1.9) + 0.01);
  });
});

interface Tried extends Made {
  readonly starts: readonly [Point, ...Point[]];
  readonly step?: number;
  readonly limitsAt?: (x: Point) => readonly Limit[];
  readonly most?: number;
  /** Cents. */
  readonly tolerance?: number;
}
function taskOf({ starts, step = 0.5, limitsAt, most, tolerance = 2, ...made }: Tried) {
  const { problem, asked } = problemOf(made);
  const task = {
    problem,
    limits: problem.limits,
    limitsAt: limitsAt ?? (() => problem.limits),
    steps: Array.from({ length: made.count }, () => ({ step, offset: 0 })),
    staying: new Set<number>(),
    starts,
    tolerance,
    options: {},
    ...(most === undefined ? {} : { most }),
  } as unknown as Task;
  return { task, asked };
}

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

describe("what stands in the way", () => {
  const inTheWay = (made: Made, enough?: number) => {
    const { problem } = problemOf(made);
    return obstaclesOf(
      problem,
      coarseFit(
        problem,
        Array.from({ length: made.count }, () => 0),
      ),
      [],
      enough,
    ).map(({ message, advice, limit: bound, needed, unit }) => [
      message,
      advice,
      bound,
      Number(needed.toFixed(1)),
      unit,
    ]);
  };

  it("is each limit that binds, with what the notes need, the one that costs most first", () => {
    const limits = [limit(0, "most", 4), limit(1, "most", 5), limit(2, "most", 99)];
    const made = { heard: apart(10, 20, 30), count: 3, limits };
    const [first, second] = [
      ["1 at most 5, 20.0 needed", "widen 1", 5, 20, "mm"],
      ["0 at most 4, 10.0 needed", "widen 0", 4, 10, "mm"],
    ];
    expect(inTheWay(made)).toEqual([first, second]);
    expect(inTheWay(made, 1)).toEqual([first]);
    expect(inTheWay({ ...made, isSpent: () => true })).toEqual([]);
    expect(inTheWay({ ...made, limits: [limit(2, "most", 99)] })).toEqual([]);
  });
  it("is two at most, and nothing that would help nobody", () => {
    const three = [0, 1, 2].map((i) => limit(i, "most", 4));
    expect(inTheWay({ heard: apart(10, 20, 30), count: 3, limits: three })).toHaveLength(2);
    const told = (right: number, own: Limit) => inTheWay({ heard: apart(right), count: 1, limits: [own] }).length;
    // By less than shows.
    expect([told(4.05, limit(0, "most", 4)), told(4.2, limit(0, "most", 4))]).toEqual([0, 1]);
    // Less than a third of what it may be, but for walls and the like.
    expect([
      told(9, limit(0, "least", 30)),
      told(11, limit(0, "least", 30)),
      told(0.5, limit(0, "least", 4.9)),
    ]).toEqual([0, 1, 1]);
    // Less than anybody makes.
    expect([
      told(1.9, limit(0, "least", 4, { leastTold: 2 })),
      told(2.1, limit(0, "least", 4, { leastTold: 2 })),
    ]).toEqual([0, 1]);
    expect(told(-1, limit(0, "least", 4))).toBe(0);
  });
  it("is told among other things by what each costs", () => {
    const { problem } = problemOf({
      heard: apart(10, 20),
      count: 2,
      limits: [limit(0, "most", 4), limit(1, "most", 5)],
    });
    const found = coarseFit(problem, [0, 0]);
    const other = (cost: number) => ({
      cost,
      obstacle: { message: "other", advice: "", limit: 0, needed: 0, unit: "mm" } as const,
    });
    const messages = (cost: number) => obstaclesOf(problem, found, [other(cost)]).map(({ message }) => message);
    expect(messages(1)[0]).toBe("other");
    expect(messages(100)[1]).toBe("other");
    expect(messages(1000)).not.toContain("other");
  });
});

describe("what is said of notes that stay off", () => {
  const analysis = {
    instrument: instrumentOf(tube("print: { rounding: 0.2 }\nholes: [{ at: 100, diameter: 6 }]")),
    fingerings: ["G4", "A4", "B4"].map((name) => ({ fingering: { target: { name } } })),
  } as unknown as Analysis;

  it("are the farthest on both sides, where no limit is in the way", () => {
    const { message, needed, limit: bound, unit, advice } = contradiction(analysis, [0, 2], [-7, 4], 2);
    expect(message).toBe(
      "B4 stays 4.0 cents sharp and G4 stays 7.0 cents flat, where at most 2.0 cents is asked for, and these holes and this bore cannot bring both closer",
    );
    expect(advice).toBe("let a refit shape the bore (refit: { taper: free }, another station), or free what is fixed");
    expect({ needed, bound, unit }).toEqual({ needed: 7, bound: 2, unit: "cents" });
    const vessel = { ...analysis, instrument: { ...analysis.instrument, body: { kind: "vessel" } } } as Analysis;
    expect(contradiction(vessel, [0, 2], [-3, 4], 2)).toMatchObject({
      message: expect.stringMatching(/these holes and this chamber cannot bring both closer$/),
      advice: "let the chamber's size change, or give these notes other holes",
      needed: 4,
    });
    expect(contradiction(analysis, [7], [4], 2).message).toMatch(/^a note stays 4\.0 cents sharp and a note/);
  });
  it("is the worst, where only the drawing's steps are too coarse", () => {
    expect(drawingTooCoarse(analysis, [0, 1], [2, -3.1], 2)).toEqual({
      message: "drawn in steps of 0.2 mm, A4 stays 3.1 cents flat, where at most 2.0 cents is asked for",
      advice: "draw in finer steps (print.rounding: 0.1)",
      limit: 2,
      needed: 3.1,
      unit: "cents",
      ofDrawing: true,
    });
    expect(drawingTooCoarse(analysis, [0, 1], [2, -3.1], 2, true)).toMatchObject({
      message: "bored with the drills at hand, A4 stays 3.1 cents flat, where at most 2.0 cents is asked for",
      advice: "name a drill between them (stock.drills)",
      ofDrawing: true,
    });
  });
});

it("notes as they are count as far off as can be where they do not sound or are not wanted", () => {
  const analysis = {
    fingerings: [440, 880, undefined, 440].map((predictedHz) => ({ predictedHz })),
  } as unknown as Analysis;
  expect(presentCents(analysis, [440, 440, 440, undefined], [0, 1, 2, 3])).toEqual([
    expect.closeTo(0, 9),
    expect.closeTo(1200, 9),
    Number.POSITIVE_INFINITY,
    Number.POSITIVE_INFINITY,
  ]);
});

describe("what cannot be solved", () => {
  it("is told of the bore or the chamber, and what is no fault of the limits is passed on", () => {
    const told = (error: unknown, body: "bore" | "chamber") => {
      const found = refusal(error, body);
      return found instanceof CannotRekey ? found.message : found;
    };
    const bug = new TypeError("a fault of ours");
    expect([told(new Infeasible("x"), "bore"), told(new Infeasible("x"), "chamber")]).toEqual([
      "hands, print and the bore contradict each other: relax `hands` or the `limits`",
      "hands, print and the chamber contradict each other: relax `hands` or the `limits`",
    ]);
    expect(told(new RangeError("x"), "bore")).toBe(
      "no size of this instrument sounds all the notes: choose a key closer to its own",
    );
    expect(told(bug, "bore")).toBe(bug);
  });
  it("is hopeless as a prospect", () => {
    const prospect = (error: Error) =>
      unlessImpossible(() => {
        throw error;
      });
    expect([prospect(new Infeasible("x")), prospect(new RangeError("x")), unlessImpossible(() => "can")]).toEqual([
      "hopeless",
      "hopeless",
      "can",
    ]);
    expect(() => prospect(new TypeError("a fault of ours"))).toThrow(TypeError);
  });
});
