import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  constrainedLeastSquares,
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
});
