/** What openings of a vessel are to each other inside and outside: closed forms of the sphere, and what no choice of axes or unit may change. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { Inside } from "../../server/src/acoustics/vesselInside.js";
import { Outside } from "../../server/src/acoustics/vesselOutside.js";
import { volumeOf, type WallPoint, wallPointToward } from "../../server/src/acoustics/vesselShape.js";

type Three = readonly [number, number, number];
const real = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const direction = fc
  .tuple(real(-1, 1), real(-1, 1), real(-1, 1))
  .filter((v) => Math.hypot(...v) > 0.2) as fc.Arbitrary<Three>;
const apart = (p: WallPoint, q: WallPoint) => Math.hypot(p.x - q.x, p.y - q.y, p.z - q.z);

/** Both fields of a body, as functions of two directions from its centre. */
function fields(semiAxes: Three, wall = 0.1 * semiAxes[0]) {
  const inside = new Inside({ semiAxes });
  const outside = new Outside({ semiAxes, wall });
  const at = (to: Three) => wallPointToward(semiAxes, to);
  const exit = (to: Three) => outside.exit(at(to), wall);
  return {
    at,
    within: (one: Three, other: Three) => {
      const [p, q] = [at(one), at(other)];
      return inside.between(p, inside.fieldsAt(p), q, inside.fieldsAt(q));
    },
    without: (one: Three, other: Three) => outside.between(exit(one), exit(other)),
    exit,
    lengths: (one: Three, radius: number) => [
      inside.ownLength(at(one), inside.fieldsAt(at(one)), radius, 1),
      outside.ownLength(exit(one), radius, 1),
    ],
    inside,
  };
}

describe("a sphere's fields", () => {
  const R = 0.03;
  const [wall, sphere] = [0.003, fields([R, R, R], 0.003)];

  // Neumann's functions of the sphere without the uniform part: Σ(2l+1)/l P_l inside, Σ(2l+1)/(l+1) P_l outside, summed (docs/coupled-model.md §10).
  it("are the closed sums of Legendre polynomials", () => {
    fc.assert(
      fc.property(direction, direction, (one, other) => {
        const chi = apart(sphere.at(one), sphere.at(other)) / (2 * R);
        fc.pre(chi > 0.1);
        const inside = (1 / chi - 2 - Math.log(chi * (1 + chi))) / (4 * Math.PI * R);
        // The uniform part's own field is even over the sphere's wall: (2R² − 8R²/5)/6V is what the harmonics' sum leaves out.
        const even = (R * R * (2 - 8 / 5)) / (6 * volumeOf({ semiAxes: [R, R, R] }));
        expect(Math.abs(sphere.within(one, other) - inside - even) * R).toBeLessThan(1e-9);
        const outside = (1 / chi - Math.log(1 + 1 / chi)) / (4 * Math.PI * (R + wall));
        expect(Math.abs(sphere.without(one, other) / outside - 1)).toBeLessThan(1e-5);
      }),
    );
  });

  it("grow with the frequency as spherical Bessel functions of the first degree do", () => {
    // j₁(x)/(x j₁′(x)), j₁ = sin x/x² − cos x/x (any table of functions).
    const [p, q] = [sphere.at([1, 0, 0]), sphere.at([1, 1, 0.5])];
    for (const x of [0.2, 0.6, 1, 1.4]) {
      const j = Math.sin(x) / x ** 2 - Math.cos(x) / x;
      const slope = (2 * Math.cos(x)) / x ** 2 - (2 * Math.sin(x)) / x ** 3 + Math.sin(x) / x;
      const growth = ((p.x * q.x + p.y * q.y + p.z * q.z) / volumeOf({ semiAxes: [R, R, R] })) * (j / (x * slope) - 1);
      expect(sphere.inside.growthAt(x / R)(p, q) / growth, `x ${x}`).toBeCloseTo(1, 4);
    }
  });
});

describe("an ellipsoid's fields", () => {
  const semiAxes: Three = [0.024, 0.03, 0.038];
  const ORDERS = [
    [1, 2, 0],
    [2, 1, 0],
    [0, 2, 1],
  ] as const;
  const near = (value: number, expected: number) => expect(Math.abs(value / expected - 1)).toBeLessThan(1e-6);

  it("do not depend on which axis is called which, nor on which opening is asked first, and go by the size", () => {
    fc.assert(
      fc.property(direction, direction, fc.constantFrom(...ORDERS), (one, other, order) => {
        const turned = (v: Three): Three => [v[order[0]], v[order[1]], v[order[2]]];
        const wall = 0.003;
        const [own, renamed] = [fields(semiAxes, wall), fields(turned(semiAxes), wall)];
        fc.pre(apart(own.at(one), own.at(other)) > 0.006);
        const inside = own.within(one, other);
        // Inside it goes through zero: held against what two openings that far apart are to each other on a plane wall.
        const scale = 1 / (2 * Math.PI * apart(own.at(one), own.at(other)));
        const close = (value: number) => expect(Math.abs(value - inside) / scale).toBeLessThan(1e-6);
        close(own.within(other, one));
        close(renamed.within(turned(one), turned(other)));
        const twice = fields(semiAxes.map((axis) => 2 * axis) as unknown as Three, 2 * wall);
        close(2 * twice.within(one, other));
        const outside = own.without(one, other);
        near(own.without(other, one), outside);
        near(renamed.without(turned(one), turned(other)), outside);
        near(2 * twice.without(one, other), outside);
        own.lengths(one, 0.003).forEach((length, i) => {
          near(renamed.lengths(turned(one), 0.003)[i] ?? 0, length);
          near((twice.lengths(one, 0.006)[i] ?? 0) / 2, length);
        });
      }),
      { numRuns: 30 },
    );
  });

  it("has the curvature of an ellipsoid at its ends, and along them the mean of what a length on the sphere is worth", () => {
    const [a, b, c] = [0.04, 0.03, 0.02];
    // Principal curvatures at the end of an axis a: a/b² and a/c² (any textbook of differential geometry).
    for (const [to, own, one, other] of [
      [[1, 0, 0], a, b, c],
      [[0, 1, 0], b, a, c],
      [[0, 0, 1], c, a, b],
    ] as const)
      expect(wallPointToward([a, b, c], to).curvature).toBeCloseTo((own / one ** 2 + own / other ** 2) / 2, 9);
    const { onSphere, fineness } = wallPointToward([a, b, c], [0.5, -0.3, 0.4]);
    const [u, v, w] = onSphere;
    // Two directions in the unit sphere's tangent plane at right angles, and all between them.
    const level = Math.hypot(u, v);
    const [east, north] = [
      [-v / level, u / level, 0],
      [(-u * w) / level, (-v * w) / level, level],
    ] as const;
    const STEPS = 200;
    const worth = Array.from({ length: STEPS }, (_, i) => {
      const [cos, sin] = [Math.cos((2 * Math.PI * i) / STEPS), Math.sin((2 * Math.PI * i) / STEPS)];
      const [x, y, z] = [0, 1, 2].map((n) => cos * (east[n] ?? 0) + sin * (north[n] ?? 0)) as [number, number, number];
      return 1 / Math.hypot(a * x, b * y, c * z);
    });
    expect(fineness / (worth.reduce((sum, each) => sum + each, 0) / STEPS)).toBeCloseTo(1, 9);
  });
});
