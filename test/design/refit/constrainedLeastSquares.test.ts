import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  constrainedLeastSquares,
  expectedCost,
  type LeastSquaresProblem,
} from "../../../server/src/design/refit/constrainedLeastSquares.js";
import { type Inequality, Infeasible } from "../../../server/src/design/refit/quadraticProgram.js";

const atLeast = (index: number, least: number): Inequality => ({ row: new Map([[index, 1]]), least });
const atMost = (index: number, most: number): Inequality => ({ row: new Map([[index, -1]]), least: -most });
const noPrior = (n: number) => Array.from({ length: n }, () => ({ value: 0, weight: 0 }));

/** Rosenbrock's valley as least squares: minimum 0 at (1, 1) (H. H. Rosenbrock, Computer Journal 3, 1960; from memory). */
const rosenbrock = (inequalities: readonly Inequality[]): LeastSquaresProblem => ({
  start: [-1.2, 1],
  evaluate: ([x = 0, y = 0]) => ({
    residuals: [10 * (y - x * x), 1 - x],
    jacobian: () => [
      [-20 * x, 10],
      [-1, 0],
    ],
  }),
  prior: noPrior(2),
  inequalities,
});

describe("non-linear least squares under linear inequalities", () => {
  it("finds the textbook minimum of Rosenbrock's valley", () => {
    const { x, cost } = constrainedLeastSquares(rosenbrock([atMost(0, 10)]));
    expect(x[0]).toBeCloseTo(1, 5);
    expect(x[1]).toBeCloseTo(1, 5);
    expect(cost).toBeLessThan(1e-10);
  });

  it("is given up where its cost after some steps leads nowhere, with what it has by then", () => {
    const problem = rosenbrock([]);
    const asked: number[] = [];
    const isEnough = (_: unknown, step: number) => asked.push(step) > 0 && step === 3;
    const { x } = constrainedLeastSquares({ ...problem, isEnough });
    expect(asked).toEqual([1, 2, 3]);
    expect(x).toEqual(constrainedLeastSquares({ ...problem, mostSteps: 3 }).x);
  });

  it("stops at an inequality in the way and says which by its multiplier", () => {
    const { x, multipliers } = constrainedLeastSquares(rosenbrock([atMost(0, 0.5), atLeast(1, -5)]));
    // With x = ½ held, the best y is x² exactly.
    expect(x[0]).toBeCloseTo(0.5, 9);
    expect(x[1]).toBeCloseTo(0.25, 5);
    expect(multipliers[0]).toBeGreaterThan(0);
    expect(multipliers[1]).toBe(0);
  });

  it("holds the inequalities at the end, wherever it starts, and is deterministic", () => {
    const number = fc.double({ min: -5, max: 5, noNaN: true });
    fc.assert(
      fc.property(number, number, number, (a, b, limit) => {
        const problem = { ...rosenbrock([atMost(0, limit), atMost(1, limit)]), start: [a, b] };
        const { x } = constrainedLeastSquares(problem);
        expect(Math.max(...x)).toBeLessThanOrEqual(limit + 1e-9);
        expect(constrainedLeastSquares(problem).x).toEqual(x);
      }),
      { numRuns: 50 },
    );
  });

  it("refuses limits that contradict each other", () => {
    expect(() => constrainedLeastSquares(rosenbrock([atLeast(0, 2), atMost(0, 1)]))).toThrow(Infeasible);
  });

  it("steps back from where nothing can be evaluated", () => {
    const problem = rosenbrock([atMost(0, 10)]);
    const { x } = constrainedLeastSquares({
      ...problem,
      start: [0.5, 0.2],
      evaluate: (point) => ((point[0] ?? 0) > 0.9 ? undefined : problem.evaluate(point)),
    });
    expect(x[0]).toBeLessThanOrEqual(0.9);
    expect(x[0]).toBeGreaterThan(0.5);
  });

  it("keeps an unknown that changes nothing at its prior", () => {
    const { x } = constrainedLeastSquares({
      start: [3, 7],
      evaluate: ([a = 0]) => ({ residuals: [a - 1], jacobian: () => [[1, 0]] }),
      prior: [
        { value: 0, weight: 0 },
        { value: 5, weight: 0.1 },
      ],
      inequalities: [atMost(0, 10)],
    });
    expect(x[0]).toBeCloseTo(1, 6);
    expect(x[1]).toBeCloseTo(5, 4);
  });

  it("works slopes out again at most every other step where they foretell what a step brings, and else at each", () => {
    const count = (curved: number, start: number) => {
      let [steps, slopes] = [-1, 0];
      constrainedLeastSquares({
        start: [start],
        evaluate: ([x = 0]) => {
          steps++;
          const off = x - 3;
          return {
            residuals: [off + curved * off * off, 1],
            jacobian: () => {
              slopes++;
              return [[1 + 2 * curved * off], [0]];
            },
          };
        },
        prior: [{ value: start, weight: 0.7 }],
        inequalities: [],
        leastGain: 0,
        mostSteps: 8,
      });
      return { steps, slopes };
    };
    const straight = count(1e-4, 5);
    expect(straight.slopes).toBeLessThan(straight.steps);
    expect(straight.slopes).toBeGreaterThanOrEqual(straight.steps / 2);
    // Beyond 15 from right no slopes are used twice.
    const far = count(1e-4, 4000);
    expect(far.slopes).toBeGreaterThan(straight.slopes);
  });

  describe("ends", () => {
    /** One unknown, right at 10, beside a residual that nothing changes; how often it was evaluated. */
    const from = (start: number, more: Partial<LeastSquaresProblem> = {}, rest = 5) => {
      let asked = 0;
      const found = constrainedLeastSquares({
        start: [start],
        evaluate: ([x = 0]) => {
          asked++;
          return { residuals: [x - 10, rest], jacobian: () => [[1], [0]] };
        },
        prior: noPrior(1),
        inequalities: [],
        ...more,
      });
      return { x: found.x[0], cost: found.cost, asked };
    };

    it("where no step gains anything, without trying ever shorter ones", () => {
      expect(from(10)).toEqual({ x: 10, cost: 25, asked: 2 });
    });
    it("where a step gains less than is worth another", () => {
      // From 125 to 25 in one step, four fifths.
      expect(from(0, { leastGain: 0.9 }).asked).toBe(2);
      expect(from(0, { leastGain: 0.5 }).asked).toBe(3);
    });
    it("where the work is spent, but not before the first step", () => {
      const spent = from(0, { isSpent: () => true });
      expect(spent.asked).toBe(2);
      expect(spent.x).toBeCloseTo(10, 1);
      expect(from(0, { mostSteps: 0 })).toEqual({ x: 0, cost: 125, asked: 1 });
    });
    it("at its start where no step can be evaluated, and says what binds there", () => {
      let asked = 0;
      const { x, multipliers } = constrainedLeastSquares({
        start: [0],
        evaluate: ([x = 0]) => (asked++ > 0 ? undefined : { residuals: [x - 10], jacobian: () => [[1]] }),
        prior: noPrior(1),
        inequalities: [atMost(0, 4)],
      });
      expect(x).toEqual([0]);
      expect(multipliers[0]).toBeGreaterThan(0);
      // Twelve orders of damping, four times as much each time.
      expect(asked).toBeLessThan(25);
    });
    it("nowhere that the start cannot be evaluated", () => {
      expect(() =>
        constrainedLeastSquares({ start: [0], evaluate: () => undefined, prior: noPrior(1), inequalities: [] }),
      ).toThrow(RangeError);
    });
  });

  it("expects of a step without a limit what its slopes say", () => {
    const here = { residuals: [-10, 3], jacobian: [[1], [0]] };
    const cost = (inequalities: readonly Inequality[], weight = 0) =>
      expectedCost({ prior: [{ value: 0, weight }], inequalities }, [0], here);
    expect(cost([])).toBeCloseTo(9, 1);
    // 4 of the 10 are gone.
    expect(cost([atMost(0, 4)])).toBeCloseTo(36 + 9, 6);
    // A prior as strong as the note: half way.
    expect(cost([], 1)).toBeCloseTo(25 + 25 + 9, 0);
  });
});
