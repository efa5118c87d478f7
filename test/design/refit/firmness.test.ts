/** How firmly a refit keeps dimensions where they are. */
import { expect, it } from "vitest";
import { type FitProblem, STIFFNESS, solveFit } from "../../../server/src/design/refit/fit.js";
import type { Tuner } from "../../../server/src/design/refit/tuner.js";

/** One note, so many cents off, that one hole's radius moves by so many cents a millimetre. */
function oneNote(off: number, slope: number): FitProblem {
  const at = ([x = 0]: readonly number[]) => ({ cents: [off + slope * x] });
  return {
    tuner: { at, slopes: () => [[slope]] } as unknown as Tuner,
    unknowns: [{ kind: "hole-radius" }] as unknown as FitProblem["unknowns"],
    limits: [],
    comfort: [],
    enough: 5,
    isSpent: () => false,
    mostSteps: 50,
  };
}

/** What a prior leaves of the deviation: ridge regression (A. E. Hoerl and R. W. Kennard, Technometrics 12, 1970). */
const left = (off: number, slope: number, firmness: number) => {
  const prior = (firmness * STIFFNESS["hole-radius"]) ** 2;
  return (off * prior) / (prior + slope ** 2);
};

/** Below 1.5 cents nothing is tried less firmly. */
it.each([
  ["a note that is easily had is had by the least move", 10, 3, 12],
  ["one that the firm prior leaves off, less firmly", 10, 1, 2],
  ["one that is hard to move, with the weakest prior", 10, 0.25, 1],
])("%s", (_, off, slope, firmness) => {
  expect(solveFit(oneNote(off, slope), [0]).cents[0]).toBeCloseTo(left(off, slope, firmness), 4);
});

it("is not loosened again where loosening it once has brought nothing", () => {
  const problem = oneNote(10, 1);
  const asked: number[] = [];
  const at = (x: readonly number[]) => {
    asked.push(...x);
    return problem.tuner.at(x);
  };
  // Two millimetres are allowed where ten are needed.
  const limits = [{ row: new Map([[0, 1]]), least: -2 }] as unknown as FitProblem["limits"];
  const tuner = { ...problem.tuner, at } as unknown as Tuner;
  expect(solveFit({ ...problem, tuner, limits }, [0]).x).toEqual([-2]);
  // Each prior's fit asks where it begins, where it goes, and whether it goes on.
  expect(asked).toEqual([0, -2, -2, -2, -2]);
});
