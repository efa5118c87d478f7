/** The secant method on functions whose roots are known. */
import { describe, expect, it } from "vitest";
import { secant } from "../../../server/src/design/fix/solve.js";

const WIDE = { least: -10, greatest: 10, tolerance: 1e-6 };

/** What it finds, and where it looked. */
function found(f: (x: number) => number | undefined, first: number, second: number, options = {}) {
  const asked: number[] = [];
  const root = secant(
    (x) => {
      asked.push(x);
      return f(x);
    },
    first,
    second,
    { ...WIDE, ...options },
  );
  return { root, asked };
}

describe("the secant method", () => {
  it("finds a line's root in one step, a curve's in a few", () => {
    expect(found((x) => 3 * x - 6, 0, 1)).toEqual({ root: 2, asked: [0, 1, 2] });
    const { root, asked } = found((x) => x ** 3 - 2, 1, 1.2);
    expect(root).toBeCloseTo(Math.cbrt(2), 6);
    expect(asked.length).toBeLessThan(9);
  });
  it("asks no more where it begins right, and not for what is known", () => {
    expect(found((x) => x - 1, 1, 2)).toEqual({ root: 1, asked: [1] });
    expect(found((x) => x - 2, 1, 2)).toEqual({ root: 2, asked: [1, 2] });
    expect(found((x) => 3 * x - 6, 0, 1, { atFirst: -6 }).asked).toEqual([1, 2]);
    // What is known elsewhere is not known where the bounds make it begin.
    expect(found((x) => 3 * x - 6, -20, 1, { atFirst: -66 }).asked).toEqual([-10, 1, 2]);
  });
  it("keeps within its bounds", () => {
    expect(found((x) => x - 20, 0, 1).root).toBeUndefined();
    expect(Math.max(...found((x) => x - 20, 0, 1).asked)).toBe(10);
    expect(found((x) => x + 20, 0, 1).root).toBeUndefined();
    expect(Math.min(...found((x) => x + 20, 0, 1).asked)).toBe(-10);
    expect(found((x) => x - 5, 20, 30)).toEqual({ root: undefined, asked: [10] });
  });
  it("comes half way back from where there is no value, and gives up where it begins without", () => {
    expect(found((x) => (x > 3 ? undefined : x - 1), 0, 8)).toEqual({ root: 1, asked: [0, 8, 4, 2, 1] });
    const refusing = (x: number) => {
      if (x > 3) throw new RangeError("no instrument");
      return x - 1;
    };
    expect(found(refusing, 0, 4).root).toBe(1);
    expect(found(() => undefined, 0, 1)).toEqual({ root: undefined, asked: [0] });
  });
  it("gives up where nothing comes nearer: at a level, at a least value", () => {
    expect(found(() => 2, 0, 1)).toEqual({ root: undefined, asked: [0, 1] });
    const { root, asked } = found((x) => x * x + 1, 2, 2.5);
    expect(root).toBeUndefined();
    expect(asked.length).toBeLessThan(14);
    // Three steps in a row that come no nearer, by as much as nothing; one that does begins the count anew.
    const heights = (...values: readonly (number | undefined)[]) => {
      let at = 0;
      return found(() => values[at++], 0, 1).asked.length;
    };
    expect(heights(-1, 1, -1, 1, -1, 1, -1)).toBe(4);
    expect(heights(-1, 1, -1, 0.9, -1, 1, -1, 1)).toBe(7);
    // Twelve steps at most.
    expect(heights(-1)).toBe(13);
    expect(heights(...Array.from({ length: 30 }, (_, i) => (i % 2 === 0 ? -1 : 1) * 0.99 ** i))).toBe(13);
  });
});
