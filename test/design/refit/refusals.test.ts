/** What a refit says where nothing can be solved, and how notes that do not sound count. */
import { describe, expect, it } from "vitest";
import type { Analysis } from "../../../server/src/design/predict/analysis.js";
import { NotDrawable, refusal, unlessImpossible } from "../../../server/src/design/refit/inTune.js";
import { Infeasible } from "../../../server/src/design/refit/quadraticProgram.js";
import { presentCents } from "../../../server/src/design/refit/refit.js";
import { CannotRekey } from "../../../server/src/design/rekey/rekeyResult.js";

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
    expect(told(new NotDrawable("L1 would be 26 mm from the joint", "put the joint elsewhere"), "bore")).toBe(
      "drawn in steps (print.rounding) or bored with the drills at hand (stock.drills), L1 would be 26 mm from the joint: put the joint elsewhere, or allow finer steps",
    );
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
