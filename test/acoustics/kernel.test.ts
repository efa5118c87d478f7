import Complex from "complex.js";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { zeroBetween } from "../../server/src/acoustics/bracket.js";
import { solveLast } from "../../server/src/acoustics/gauss.js";
import { multiplyRight, seriesReactance, TWO_PORT } from "../../server/src/acoustics/twoPort.js";

const number = fc.double({ min: -10, max: 10, noNaN: true });
const matrix = fc.array(number, { minLength: TWO_PORT, maxLength: TWO_PORT });
const at = (m: ArrayLike<number>, i: number) => new Complex(m[2 * i] as number, m[2 * i + 1] as number);

/** Each operation of the kernel against complex.js. */
describe("the complex kernel", () => {
  it("multiplies two-ports", () => {
    fc.assert(
      fc.property(matrix, matrix, (left, right) => {
        const product = Float64Array.from(left);
        multiplyRight(product, 0, Float64Array.from(right), 0);
        for (const [row, column] of [
          [0, 0],
          [0, 1],
          [1, 0],
          [1, 1],
        ] as const) {
          const expected = at(left, 2 * row)
            .mul(at(right, column))
            .add(at(left, 2 * row + 1).mul(at(right, 2 + column)));
          expect(
            at(product, 2 * row + column)
              .sub(expected)
              .abs(),
          ).toBeLessThan(1e-11);
        }
      }),
    );
  });

  it("puts a reactance in series", () => {
    fc.assert(
      fc.property(matrix, number, (left, x) => {
        const result = Float64Array.from(left);
        seriesReactance(result, 0, x);
        const j = new Complex(0, x);
        for (const row of [0, 1]) {
          const expected = at(left, 2 * row)
            .mul(j)
            .add(at(left, 2 * row + 1));
          expect(
            at(result, 2 * row + 1)
              .sub(expected)
              .abs(),
          ).toBeLessThan(1e-11);
        }
      }),
    );
  });

  it("solves a linear system for its last unknown", () => {
    const systems = fc.integer({ min: 1, max: 9 }).chain((n) =>
      fc.record({
        n: fc.constant(n),
        entries: fc.array(number, { minLength: 2 * n * n, maxLength: 2 * n * n }),
        x: fc.array(number, { minLength: 2 * n, maxLength: 2 * n }),
      }),
    );
    fc.assert(
      fc.property(systems, ({ n, entries, x }) => {
        const re = new Float64Array(n * n);
        const im = new Float64Array(n * n);
        const bRe = new Float64Array(n);
        const bIm = new Float64Array(n);
        for (let row = 0; row < n; row++) {
          let sum = new Complex(0, 0);
          for (let column = 0; column < n; column++) {
            const i = row * n + column;
            // A heavy diagonal in swapped rows: well conditioned, and nothing without pivoting.
            const entry = at(entries, i).add(column === (row + 1) % n ? 200 : 0);
            re[i] = entry.re;
            im[i] = entry.im;
            sum = sum.add(entry.mul(at(x, column)));
          }
          bRe[row] = sum.re;
          bIm[row] = sum.im;
        }
        const out = new Float64Array(2);
        solveLast(n, re, im, bRe, bIm, out);
        expect(
          at(out, 0)
            .sub(at(x, n - 1))
            .abs(),
        ).toBeLessThan(1e-10);
      }),
    );
  });
});

describe("the search for a zero", () => {
  it("finds cube roots to the tolerance asked for", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 100, noNaN: true }), (value) => {
        const f = (x: number) => x ** 3 - value;
        const root = zeroBetween(f, [0, f(0)], [10, f(10)], 1e-12);
        expect(Math.abs(root / Math.cbrt(value) - 1)).toBeLessThan(1e-11);
      }),
    );
  });
});
