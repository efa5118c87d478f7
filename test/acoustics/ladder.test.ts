/** The ladder solves exactly the equations of a column whose openings are not coupled: what iterations start from, and need few of. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { chaigneKergomardAir } from "../../server/src/acoustics/air.js";
import { FrequencyPoint } from "../../server/src/acoustics/frequencyPoint.js";
import { Ladder } from "../../server/src/acoustics/ladder.js";
import { layOut } from "../../server/src/acoustics/networkGeometry.js";
import { portStates } from "../../server/src/acoustics/portStates.js";
import { Residual } from "../../server/src/acoustics/residual.js";
import { instruments } from "./instruments.js";

const air = chaigneKergomardAir(20);

describe("a ladder", () => {
  const covers = fc.array(fc.constantFrom(0, 1, 0.5), { minLength: 7, maxLength: 7 });
  const real = (min: number, max: number) => fc.double({ min, max, noNaN: true });
  const values = fc.array(real(-1, 1), { minLength: 18, maxLength: 18 });

  it("solved for any right-hand side leaves nothing of it, whatever the fingers and the foot do", () => {
    fc.assert(
      fc.property(
        instruments,
        fc.boolean(),
        covers,
        real(0.03, 0.6),
        values,
        values,
        (instrument, isStopped, pattern, ka, re, im) => {
          const column = { ...instrument, foot: isStopped ? ("stopped" as const) : ("open" as const) };
          const geometry = { ...layOut(column, air), outside: [], inside: [], induced: [] };
          const states = portStates(geometry, pattern.slice(0, column.holes.length));
          const point = new FrequencyPoint(geometry).set(ka / (column.bore[0]?.radius ?? 1));
          const m = geometry.ports.length;
          const [xRe, xIm] = [Float64Array.from(re.slice(0, m)), Float64Array.from(im.slice(0, m))];
          const ladder = new Ladder(m);
          ladder.set(point, states);
          ladder.solve(xRe, xIm);
          const residual = new Residual(geometry);
          residual.of(point, states, xRe, xIm);
          const largest = Math.max(1, ...xRe.map(Math.abs), ...xIm.map(Math.abs));
          for (let i = 0; i < m; i++)
            expect(
              Math.hypot((residual.re[i] ?? 0) - (re[i] ?? 0), (residual.im[i] ?? 0) - (im[i] ?? 0)) / largest,
            ).toBeLessThan(1e-9);
        },
      ),
      { numRuns: 60 },
    );
  });
});
