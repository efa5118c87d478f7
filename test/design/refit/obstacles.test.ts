/** What a refit names as holding it back: limits that bind, notes that contradict each other, steps that are too coarse. */
import { describe, expect, it } from "vitest";
import type { Limit } from "../../../server/src/design/constraints/limit.js";
import type { Analysis } from "../../../server/src/design/predict/analysis.js";
import { coarseFit } from "../../../server/src/design/refit/fit.js";
import { contradiction, drawingTooCoarse, obstaclesOf } from "../../../server/src/design/refit/obstacles.js";
import { apart, limit, type Made, problemOf } from "../../support/formulaNotes.js";
import { instrumentOf, tube } from "../../support/marked.js";

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
  it("are two registers of one bore, where it has no holes: a window's size brings them together, where they lie too far apart", () => {
    const pair = (mouth: string, low: number, high: number) => {
      const instrument = instrumentOf(tube(`mouth: ${mouth}`));
      const fingerings = [392, 784].map((targetHz, i) => ({ targetHz, fingering: { target: { name: `G${4 + i}` } } }));
      const { message, advice } = contradiction(
        { instrument, fingerings } as unknown as Analysis,
        [0, 1],
        [low, high],
        2,
      );
      expect(message).toMatch(
        /cents flat, where at most 2\.0 cents is asked for, and this bore cannot bring both closer$/,
      );
      return advice;
    };
    const window = "{ window: { width: 9, cutUp: 4.5 } }";
    const shape = "let a refit shape the bore (refit: { taper: free }, another station)";
    expect(pair(window, -5, 6)).toBe(
      `take a larger window or a narrower bore, which bring the registers closer together, or ${shape}`,
    );
    expect([pair(window, 5, -6), pair("ideal", -5, 6)]).toEqual([shape, shape]);
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
