/** A point and multipliers that meet the conditions of Karush, Kuhn and Tucker are the minimum of a convex program, and no other is. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Inequality, Infeasible, quadraticProgram } from "../../../server/src/design/refit/quadraticProgram.js";

interface Program {
  readonly g: number[][];
  readonly a: number[];
  readonly limits: Inequality[];
}

const inequality = (row: readonly number[], least: number): Inequality => ({
  row: new Map(row.map((each, i) => [i, each] as const).filter(([, each]) => each !== 0)),
  least,
});
const equality = (row: readonly number[], value: number) => [
  inequality(row, value),
  inequality(
    row.map((each) => -each),
    -value,
  ),
];
const dot = (a: readonly number[], b: readonly number[]) => a.reduce((sum, each, i) => sum + each * (b[i] ?? 0), 0);
const denseRow = ({ row }: Inequality, n: number) => Array.from({ length: n }, (_, i) => row.get(i) ?? 0);

/** Asserts the four conditions, each within `share` of the size of what it is summed up from. */
function expectOptimal({ g, a, limits }: Program, share = 1e-9): readonly number[] {
  const n = a.length;
  const { x, multipliers } = quadraticProgram(g, a, limits);
  const rows = limits.map((limit) => denseRow(limit, n));
  const abs = (each: readonly number[]) => each.map(Math.abs);
  // The programs' points are about as large as one.
  const far = Math.max(1, ...abs(x));
  limits.forEach(({ least }, i) => {
    const row = rows[i] as number[];
    const multiplier = multipliers[i] as number;
    const slack = dot(row, x) - least;
    const size =
      dot(
        abs(row),
        x.map(() => far),
      ) + Math.abs(least);
    const isMet = slack >= -share * size && multiplier >= 0 && (multiplier === 0 || slack <= share * size);
    if (!isMet) expect.fail(`limit ${i}: ${slack} beyond it, multiplier ${multiplier}`);
  });
  const gradients = x.map((_, i) => {
    const normals = rows.map((row) => row[i] as number);
    const forces = dot(normals, multipliers);
    const slope = dot(g[i] as number[], x) + (a[i] as number);
    const size = dot(abs(g[i] as number[]), abs(x)) + Math.abs(a[i] as number) + dot(abs(normals), multipliers);
    return { left: Math.abs(slope - forces), size };
  });
  const largest = Math.max(...gradients.map(({ size }) => size));
  for (const { left } of gradients) expect(left).toBeLessThanOrEqual(share * largest);
  return x;
}

/** Numbers with few digits, so that ties and dependent rows happen often, and numbers with all of them. */
const coarse = fc.integer({ min: -3, max: 3 });
const fine = fc.double({ min: -3, max: 3, noNaN: true }).map((each) => (Math.abs(each) < 1e-3 ? 0 : each));
const number = fc.oneof(coarse, fine);
const vector = (n: number) => fc.array(number, { minLength: n, maxLength: n });

/** BᵀB and a share of the unit matrix, with the unknowns in units up to 100 apart. */
const convex = (n: number) =>
  fc
    .tuple(
      fc.array(vector(n), { minLength: 0, maxLength: n + 2 }),
      fc.constantFrom(1, 1e-3, 1e-6),
      fc.array(fc.constantFrom(1, 1, 10, 0.1), { minLength: n, maxLength: n }),
    )
    .map(([b, ridge, units]) =>
      units.map((own, i) =>
        units.map(
          (other, j) =>
            own *
            other *
            (b.reduce((sum, row) => sum + (row[i] as number) * (row[j] as number), 0) + (i === j ? ridge : 0)),
        ),
      ),
    );

/** A program that a known point keeps: its limits are at that point or beyond it. */
const feasible: fc.Arbitrary<Program> = fc.integer({ min: 1, max: 8 }).chain((n) =>
  fc
    .record({
      g: convex(n),
      a: vector(n),
      inside: vector(n),
      rows: fc.array(fc.tuple(vector(n), fc.constantFrom(0, 0, 0.5, 2)), { maxLength: 2 * n + 3 }),
      equalities: fc.array(vector(n), { maxLength: Math.max(0, n - 2) }),
      bounded: fc.array(fc.boolean(), { minLength: n, maxLength: n }),
      parallel: fc.array(fc.tuple(fc.nat(), fc.constantFrom(0, 1e-2, 1e-4), vector(n)), { maxLength: 4 }),
    })
    .map(({ g, a, inside, rows, equalities, bounded, parallel }) => {
      const limits = rows.map(([row, room]) => inequality(row, dot(row, inside) - room));
      for (const row of equalities) limits.push(...equality(row, dot(row, inside)));
      bounded.forEach((yes, i) => {
        if (!yes) return;
        const unit = inside.map((_, j) => (i === j ? 1 : 0));
        limits.push(inequality(unit, (inside[i] as number) - 1));
        limits.push(
          inequality(
            unit.map((each) => -each),
            -(inside[i] as number) - 0.25,
          ),
        );
      });
      for (const [which, turn, to] of parallel) {
        const like = rows[which % Math.max(1, rows.length)]?.[0];
        if (like === undefined) continue;
        const row = like.map((each, i) => each + turn * (to[i] as number));
        limits.push(inequality(row, dot(row, inside)));
      }
      return { g, a, limits };
    }),
);

describe("quadratic programs", () => {
  it("solves the example of Goldfarb and Idnani, Mathematical Programming 27 (1983); numbers from memory, checked by hand", () => {
    const program = {
      g: [
        [4, -2],
        [-2, 4],
      ],
      a: [6, 0],
      limits: [inequality([1, 0], 0), inequality([0, 1], 0), inequality([1, 1], 2)],
    };
    const { x, multipliers } = quadraticProgram(program.g, program.a, []);
    expect(x[0]).toBeCloseTo(-2, 12);
    expect(x[1]).toBeCloseTo(-1, 12);
    expect(multipliers).toEqual([]);
    const bound = quadraticProgram(program.g, program.a, program.limits);
    expect(bound.x[0]).toBeCloseTo(0.5, 12);
    expect(bound.x[1]).toBeCloseTo(1.5, 12);
    expect(bound.multipliers[2]).toBeCloseTo(5, 12);
    expect(bound.multipliers.slice(0, 2)).toEqual([0, 0]);
  });

  it("solves examples 16.2 and 16.4 of Nocedal and Wright, Numerical Optimization, 2nd ed. (2006); from memory", () => {
    const [x = 0, y = 0, z = 0] = expectOptimal({
      g: [
        [6, 2, 1],
        [2, 5, 2],
        [1, 2, 4],
      ],
      a: [-8, -3, -3],
      limits: [...equality([1, 0, 1], 3), ...equality([0, 1, 1], 0)],
    });
    expect(x).toBeCloseTo(2, 12);
    expect(y).toBeCloseTo(-1, 12);
    expect(z).toBeCloseTo(1, 12);
    const [u = 0, v = 0] = expectOptimal({
      g: [
        [2, 0],
        [0, 2],
      ],
      a: [-2, -5],
      limits: [
        inequality([1, -2], -2),
        inequality([-1, -2], -6),
        inequality([-1, 2], -2),
        inequality([1, 0], 0),
        inequality([0, 1], 0),
      ],
    });
    expect(u).toBeCloseTo(1.4, 12);
    expect(v).toBeCloseTo(1.7, 12);
  });

  it("finds the minimum with bounds, equalities, ties, dependent and nearly parallel limits", () => {
    fc.assert(
      fc.property(feasible, (program) => void expectOptimal(program)),
      { numRuns: 1500 },
    );
  });

  it("detects limits that contradict each other, however they are mixed with others", () => {
    const contradiction = feasible.chain((program) =>
      fc.tuple(
        fc.constant(program),
        fc.array(vector(program.a.length), { minLength: 1, maxLength: 4 }),
        fc.array(fc.double({ min: 0.1, max: 3, noNaN: true }), { minLength: 4, maxLength: 4 }),
        fc.array(number, { minLength: 4, maxLength: 4 }),
        fc.constantFrom(1e-3, 1, 100),
        fc.nat(),
      ),
    );
    fc.assert(
      fc.property(contradiction, ([{ g, a, limits }, rows, weights, leasts, gap, seat]) => {
        // Each row is to be at least its number, and their weighted sum less than that comes to (Farkas).
        const against = a.map(
          (_, i) => -rows.reduce((sum, row, r) => sum + (weights[r] as number) * (row[i] as number), 0),
        );
        const most = rows.reduce((sum, _, r) => sum + (weights[r] as number) * (leasts[r] as number), 0) - gap;
        const contradicting = [
          ...rows.map((row, r) => inequality(row, leasts[r] as number)),
          inequality(against, -most),
        ];
        const at = seat % (limits.length + 1);
        const all = [...limits.slice(0, at), ...contradicting, ...limits.slice(at)];
        expect(() => quadraticProgram(g, a, all)).toThrow(Infeasible);
      }),
      { numRuns: 500 },
    );
  });

  it("refuses what is not strictly convex or not finite", () => {
    const unit = [
      [1, 0],
      [0, 1],
    ];
    for (const g of [
      [
        [1, 1],
        [1, 1],
      ],
      [[0]],
      [[-1]],
      [[Number.NaN]],
    ])
      expect(() =>
        quadraticProgram(
          g,
          g.map(() => 1),
          [],
        ),
      ).toThrow(RangeError);
    expect(() => quadraticProgram(unit, [0, 0], [inequality([1, 0], Number.NaN)])).toThrow(RangeError);
    expect(() => quadraticProgram(unit, [0, 0], [inequality([1, 0], Number.POSITIVE_INFINITY)])).toThrow(RangeError);
    expect(() => quadraticProgram(unit, [Number.NaN, 0], [inequality([1, 0], 1)])).toThrow(RangeError);
    expect(quadraticProgram(unit, [0, 0], [inequality([1, 0], Number.NEGATIVE_INFINITY)]).x).toEqual([0, 0]);
  });
});
