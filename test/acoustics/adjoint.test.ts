/** Slopes of the reactance by the adjoint method, against the reactance of changed columns solved anew. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { Adjoint } from "../../server/src/acoustics/adjoint.js";
import { chaigneKergomardAir } from "../../server/src/acoustics/air.js";
import type { Column } from "../../server/src/acoustics/column.js";
import { Response } from "../../server/src/acoustics/response.js";
import { instruments } from "./instruments.js";

const air = chaigneKergomardAir(20);
const wave = fc.double({ min: 5, max: 40, noNaN: true });
/** Relative: what it curves within stays below the tolerance even near a pole. */
const STEP = 1e-8;

/** Every dimension that one hole or station has, a little larger: the column and what was turned. */
function turned(column: Column): readonly Column[] {
  const more = (value: number) => value * (1 + STEP);
  const holes = column.holes.flatMap((hole, i) =>
    [{ radius: more(hole.radius) }, { x: more(hole.x) }, { chimney: more(hole.chimney) }].map(
      (change): Column => ({ ...column, holes: column.holes.with(i, { ...hole, ...change }) }),
    ),
  );
  const foot = column.bore.length - 1;
  const last = column.bore[foot];
  if (last === undefined) return holes;
  const bores = [{ x: more(last.x) }, { radius: more(last.radius) }].map(
    (change): Column => ({ ...column, bore: column.bore.with(foot, { ...last, ...change }) }),
  );
  return [...holes, ...bores];
}

describe("the adjoint method", () => {
  it("finds the change of the reactance that solving the changed column finds", () => {
    let compared = 0;
    fc.assert(
      fc.property(instruments, wave, fc.nat(255), (column, k, pattern) => {
        const here = new Response(column, air);
        const covers = column.holes.map((_, i) => (((pattern >> i) & 1) === 1 ? 1 : i % 2 === 0 ? 0 : 0.5));
        const states = here.states(covers);
        const adjoint = new Adjoint(here);
        adjoint.set(k, states);
        const { reactance, resistance } = here.at(k, states);
        // Beside a pole both are large numbers' differences.
        if (Math.hypot(reactance, resistance) > 30) return;
        for (const other of turned(column)) {
          const response = new Response(other, air, undefined, here);
          if (!adjoint.compares(response)) continue;
          const own = response.states(covers);
          const direct = response.at(k, own).reactance - reactance;
          const found = adjoint.change(response, k, own);
          compared++;
          expect(Math.abs(found - direct)).toBeLessThan(
            2e-4 * Math.abs(direct) + 2e-11 * (1 + Math.abs(reactance)) ** 2,
          );
        }
      }),
      { numRuns: 200, seed: 12 },
    );
    expect(compared).toBeGreaterThan(500);
  });

  it("does not compare columns whose holes have changed places or whose reference area is another", () => {
    const hole = { radius: 0.004, chimney: 0.003, angle: 0 };
    const column: Column = {
      bore: [
        { x: 0, radius: 0.008 },
        { x: 0.3, radius: 0.008 },
      ],
      wall: 0.003,
      foot: "open",
      holes: [
        { ...hole, x: 0.2 },
        { ...hole, x: 0.22 },
      ],
      mouth: { kind: "ideal" },
    };
    const adjoint = new Adjoint(new Response(column, air));
    const compares = (other: Column) => adjoint.compares(new Response(other, air));
    expect(compares({ ...column, wall: 0.004 })).toBe(true);
    expect(compares({ ...column, holes: column.holes.toReversed() })).toBe(false);
    expect(compares({ ...column, foot: "stopped" })).toBe(false);
    expect(compares({ ...column, bore: column.bore.with(0, { x: 0, radius: 0.0081 }) })).toBe(false);
  });
});
