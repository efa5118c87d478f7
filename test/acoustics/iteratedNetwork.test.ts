/** Columns solved in rounds rather than by elimination: the same impedance, and work that grows no faster than the square of the holes. */
import Complex from "complex.js";
import fc from "fast-check";
import { describe, expect, it, vi } from "vitest";
import { chaigneKergomardAir } from "../../server/src/acoustics/air.js";
import type { Column, Cover } from "../../server/src/acoustics/column.js";
import { ConjugateResiduals } from "../../server/src/acoustics/conjugateResiduals.js";
import { FrequencyPoint } from "../../server/src/acoustics/frequencyPoint.js";
import { IteratedNetwork } from "../../server/src/acoustics/iteratedNetwork.js";
import { answerSteps } from "../../server/src/acoustics/resonance.js";
import { Response } from "../../server/src/acoustics/response.js";
import { drained } from "../../server/src/acoustics/steps.js";
import { instruments, tube } from "./instruments.js";
import { inputImpedanceByNodes } from "./nodalAdmittances.js";

const air = chaigneKergomardAir(20);
/** Cut-on of the bore's first higher mode, ka. */
const CUT_ON = 1.841;
const TOLERANCE = 1e-12;

/** Holes evenly along 600 mm of bore, no two nearer than half their width to touching. */
function manyHoled(count: number): Column {
  const step = 0.54 / count;
  const holes = Array.from({ length: count }, (_, i) => ({
    x: 0.05 + i * step,
    radius: Math.min(0.003, 0.3 * step),
    chimney: 0.003,
    angle: 0,
  }));
  return tube(600, 16, { wall: 0.003, holes, mouth: { kind: "window", width: 0.01, cutUp: 0.0045, chimney: 0.003 } });
}

/** `open` holes open, counted from the foot. */
const covered = (count: number, open: number): Cover[] =>
  Array.from({ length: count }, (_, hole) => (hole < count - open ? 1 : 0));

/** Of one frequency, over ρc/S, and in how many rounds. */
function solved(response: Response, covers: readonly Cover[], k: number) {
  const out = new Float64Array(2);
  const point = new FrequencyPoint(response.geometry).set(k);
  const rounds = new IteratedNetwork(response.geometry).impedance(point, response.states(covers), TOLERANCE, out);
  return { rounds, z: new Complex(out[0] as number, out[1] as number) };
}

describe("a column solved by iteration", () => {
  it("has the impedance of nodal admittances in complex.js, where all holes are open, some or none", () => {
    fc.assert(
      fc.property(
        instruments,
        fc.boolean(),
        fc.array(fc.constantFrom(0, 1), { minLength: 7, maxLength: 7 }),
        fc.double({ min: 100, max: 3000, noNaN: true }),
        (instrument, isStopped, pattern, frequency) => {
          const column: Column = { ...instrument, mouth: { kind: "ideal" }, foot: isStopped ? "stopped" : "open" };
          const covers = pattern.slice(0, column.holes.length);
          const state = { ...air, losses: false };
          const { z } = solved(new Response(column, state), covers, (2 * Math.PI * frequency) / air.soundSpeed);
          const unit = (air.density * air.soundSpeed) / (Math.PI * (column.bore[0]?.radius ?? 1) ** 2);
          const other = inputImpedanceByNodes(column, state, covers, frequency).div(unit);
          // As between these and elimination (network.test.ts): the near field below 1e-7 is left out.
          expect(other.sub(z).abs() / Math.max(1, other.abs() ** 2)).toBeLessThan(1e-6);
        },
      ),
      { numRuns: 100 },
    );
  });

  it("takes some ten iterations, and hardly more with twice as many holes", () => {
    const most = (count: number) => {
      const response = new Response(manyHoled(count), air);
      const rounds = [count, count / 2, 0].flatMap((open) =>
        [0.02, 0.1, 0.2, 0.25, 0.3, 0.5, 0.7, 0.95].map(
          (share) => solved(response, covered(count, open), (share * CUT_ON) / 0.008).rounds ?? Number.NaN,
        ),
      );
      return Math.max(...rounds);
    };
    const few = most(48);
    expect(few).toBeLessThanOrEqual(12);
    expect(most(96)).toBeLessThanOrEqual(few + 2);
  });
});

describe("the work for a chart of nine fingerings", () => {
  /** Counted, µs (`acoustics/work.ts`): one hole in eight opened after another from the foot, the first and the second register in turn. */
  function workOf(count: number): number {
    const queries = Array.from({ length: 9 }, (_, i) => ({
      covers: covered(count, (i * count) / 8),
      register: 1 + (i % 2),
    }));
    const answers = drained(answerSteps(manyHoled(count), air, queries)).map((answer) => {
      if (typeof answer === "string") throw new Error(answer);
      return answer;
    });
    expect(answers.filter(({ sounding }) => sounding).length).toBeGreaterThan(6);
    return answers.reduce((sum, { work }) => sum + work, Math.max(...answers.map(({ gridWork }) => gridWork)));
  }

  // 2.9 times; elimination, which goes with the cube, makes 7.0 of it.
  it("grows no faster than the square of the holes", () => expect(workOf(96) / workOf(48)).toBeLessThan(4));
});

describe("iterations that do not converge", () => {
  const solve = (
    operator: (value: number, place: number, all: Float64Array) => number,
    right: number[],
    most: number,
  ) => {
    const [re, im] = [Float64Array.from(right), new Float64Array(right.length)];
    const apply = (...parts: Float64Array[]) => {
      for (const part of parts) part.set(part.map((value, i) => operator(value, i, part)));
    };
    return { rounds: new ConjugateResiduals(right.length, most).solve(apply, re, im, TOLERANCE), re: [...re] };
  };
  const ones = Array.from({ length: 50 }, () => 1);

  it("are given up after a set number, and leave the right-hand side as it was", () => {
    const stretch = (value: number, i: number) => (i + 1) * value; // fifty values apart take fifty rounds
    expect(solve(stretch, ones, 20)).toEqual({ rounds: undefined, re: ones });
    const { rounds, re } = solve(stretch, ones, 50);
    expect(rounds).toBeGreaterThan(20);
    for (const [i, value] of re.entries()) expect(value).toBeCloseTo(1 / (i + 1), 9);
  });

  it("are given up where one gains nothing", () => {
    // Each unknown moved on by one place makes what is left square to itself.
    const right = ones.map((_, i) => (i === 0 ? 1 : 0));
    const moved = (_: number, i: number, all: Float64Array) => all[(i + 1) % all.length] as number;
    expect(solve(moved, right, 40)).toEqual({ rounds: undefined, re: right });
  });

  it("fall back to elimination, which finds the same", () => {
    const k = (0.3 * CUT_ON) / 0.008;
    const sample = () => {
      const response = new Response(manyHoled(48), air);
      return response.at(k, response.states(covered(48, 24)));
    };
    const usual = sample();
    const refused = vi.spyOn(IteratedNetwork.prototype, "impedance").mockReturnValue(undefined);
    const instead = sample();
    expect(refused).toHaveBeenCalled();
    refused.mockRestore();
    expect(instead.reactance).toBeCloseTo(usual.reactance, 5);
    expect(instead.resistance).toBeCloseTo(usual.resistance, 5);
  });
});
