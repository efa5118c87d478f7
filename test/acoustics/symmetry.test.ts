/** What must hold of two openings, and of a whole column, whatever the numbers: nothing here is measured or fitted. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { chaigneKergomardAir } from "../../server/src/acoustics/air.js";
import type { Column } from "../../server/src/acoustics/column.js";
import {
  axialCoupling,
  type BoreOpening,
  boreCoupling,
  effectiveDistance,
  inducedAxialFlow,
  type Place,
} from "../../server/src/acoustics/coupling.js";
import { registersOf } from "../../server/src/acoustics/resonance.js";
import { cents, tube } from "./instruments.js";

const real = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const angle = real(-Math.PI, Math.PI);

const opening: fc.Arbitrary<BoreOpening> = fc.record({
  x: real(0.1, 0.14),
  angle,
  boreRadius: real(0.0078, 0.0082),
  along: real(0.001, 0.004),
  across: real(0.001, 0.004),
});
const side: fc.Arbitrary<Place> = fc.record({
  x: real(0.1, 0.14),
  angle,
  outerRadius: real(0.0105, 0.0115),
  on: fc.constant("side" as const),
  radius: real(0.001, 0.004),
});
/** Ends of the tube look the same from every side. */
const place = fc.oneof(
  { weight: 4, arbitrary: side },
  side.map((own): Place => ({ ...own, x: 0, on: "mouthEnd" })),
  side.map((own): Place => ({ ...own, x: 0.3, on: "footEnd" })),
);

const inBore = { boreCoupling, inducedAxialFlow, axialCoupling };

describe("two openings", () => {
  const near = (value: number, expected: number) =>
    expect(Math.abs(value - expected)).toBeLessThan(1e-9 * Math.max(1, Math.abs(expected)));
  /** The same in other coordinates: turned about the axis and moved along it, or seen in a mirror that holds the axis. */
  const moved = <P extends { readonly x: number; readonly angle: number }>(p: P, by: number, turn: number): P => ({
    ...p,
    x: p.x + by,
    angle: p.angle + turn,
  });
  const mirrored = <P extends { readonly angle: number }>(p: P): P => ({ ...p, angle: -p.angle });

  it("are coupled outside by where they lie from each other, whichever is asked first", () => {
    fc.assert(
      fc.property(place, place, real(-0.1, 0.1), angle, (p, q, by, turn) => {
        fc.pre(p.on === "side" || p.on !== q.on);
        const own = effectiveDistance(p, q);
        near(effectiveDistance(q, p), own);
        near(effectiveDistance(moved(p, by, turn), moved(q, by, turn)), own);
        near(effectiveDistance(mirrored(p), mirrored(q)), own);
      }),
    );
  });

  it.each(Object.entries(inBore))("are coupled inside likewise: %s", (_, coupling) => {
    fc.assert(
      fc.property(opening, opening, real(-0.1, 0.1), angle, (p, q, by, turn) => {
        const own = coupling(p, q);
        near(coupling(q, p), own);
        near(coupling(moved(p, by, turn), moved(q, by, turn)), own);
        near(coupling(mirrored(p), mirrored(q)), own);
      }),
    );
  });

  it("twice as large and twice as far apart are coupled half as much", () => {
    const twice = (p: BoreOpening): BoreOpening => ({
      ...p,
      x: 2 * p.x,
      boreRadius: 2 * p.boreRadius,
      along: 2 * p.along,
      across: 2 * p.across,
    });
    fc.assert(
      fc.property(opening, opening, side, side, (p, q, m, n) => {
        near(2 * boreCoupling(twice(p), twice(q)), boreCoupling(p, q));
        near(inducedAxialFlow(twice(p), twice(q)), inducedAxialFlow(p, q));
        near(2 * axialCoupling(twice(p), twice(q)), axialCoupling(p, q));
        const large = (o: Place): Place => ({
          ...o,
          x: 2 * o.x,
          outerRadius: 2 * o.outerRadius,
          radius: 2 * (o.radius ?? 0),
        });
        near(effectiveDistance(large(m), large(n)) / 2, effectiveDistance(m, n));
      }),
    );
  });

  /**
   * Potential flow: the flow along a bore of radius 1 that an outflow induces is −π times the slope of the pressure it makes there, and a dipole's is the slope of
   * that. Where the near field and the modes are blended, and opposite openings beyond it, whose sizes' part is fitted to each apart, only nearly.
   */
  it.each([
    ["beside each other", 0.5, [0.45, 0.6, 0.75]],
    ["opposite each other", Math.PI, [0.1, 0.3, 0.6, 0.75]],
    ["farther along the bore", 1, [1.25, 1.6, 2.3]],
  ] as const)("%s induce the flow that the slope of their coupling says", (_, turn, places) => {
    const hole = (x: number, at: number): BoreOpening => ({ x, angle: at, boreRadius: 1, along: 0.2, across: 0.25 });
    const slopeOf = (of: (p: BoreOpening, q: BoreOpening) => number, z: number, h: number) =>
      (of(hole(0, 0), hole(z + h, turn)) - of(hole(0, 0), hole(z - h, turn))) / (2 * h);
    for (const z of places) {
      const flow = inducedAxialFlow(hole(0, 0), hole(z, turn));
      expect(flow / (-Math.PI * slopeOf(boreCoupling, z, 1e-4)), `flow at ${z}`).toBeCloseTo(1, 4);
      const dipole = axialCoupling(hole(0, 0), hole(z, turn));
      expect(dipole / -slopeOf(inducedAxialFlow, z, 1e-2), `dipole at ${z}`).toBeCloseTo(1, 2);
    }
  });
});

describe("a whole column", () => {
  const air = chaigneKergomardAir(20);
  /** In cents from another, note by note. */
  const apart = (one: Column, other: Column) => {
    const covers = one.holes.map((_, i) => (i === 0 ? 1 : i === 1 ? 0.5 : 0));
    const found = registersOf(other, air, covers, 3);
    expect(found).toHaveLength(3);
    return Math.max(
      ...registersOf(one, air, covers, 3).map(({ frequency }, i) =>
        Math.abs(cents(frequency, found[i]?.frequency ?? Number.NaN)),
      ),
    );
  };
  const holes = [
    { x: 0.17, radius: 0.004, chimney: 0.003, angle: 0.3 },
    { x: 0.18, radius: 0.003, chimney: 0.003, angle: 2.9 },
    { x: 0.23, radius: 0.0035, chimney: 0.003, angle: -0.8 },
    { x: 0.245, radius: 0.003, chimney: 0.004, angle: 0.4 },
  ];
  const rim = tube(300, 16, { wall: 0.003, mouth: { kind: "rim", cover: 0.3 }, holes });

  it("blown at its end sounds the same turned about its axis, and in a mirror", () => {
    const turned = { ...rim, holes: holes.map((hole) => ({ ...hole, angle: hole.angle + 1.3 })) };
    const mirrored = { ...rim, holes: holes.map((hole) => ({ ...hole, angle: -hole.angle })) };
    expect(apart(turned, rim)).toBeLessThan(1e-6);
    expect(apart(mirrored, rim)).toBeLessThan(1e-6);
  });

  it("blown at its side sounds the same in a mirror, and hears holes beside the window more than those behind it", () => {
    const mouth = { kind: "window", width: 0.01, cutUp: 0.005, chimney: 0.003 } as const;
    const whistle: Column = { ...rim, mouth };
    const mirrored = { ...whistle, holes: holes.map((hole) => ({ ...hole, angle: -hole.angle })) };
    expect(apart(mirrored, whistle)).toBeLessThan(1e-6);
    const behind = { ...whistle, holes: holes.map((hole) => ({ ...hole, angle: hole.angle + Math.PI })) };
    expect(apart(behind, whistle)).toBeGreaterThan(1e-3);
  });

  it("sounds the same where a station stands in the middle of a straight piece of bore", () => {
    const cylinder = [0, 0.1, 0.3].map((x) => ({ x, radius: 0.008 }));
    expect(apart({ ...rim, bore: cylinder }, rim)).toBeLessThan(1e-6);
  });
});
