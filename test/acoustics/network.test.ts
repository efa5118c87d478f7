import Complex from "complex.js";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { chaigneKergomardAir } from "../../server/src/acoustics/air.js";
import { frustumMatrix, lossRadius } from "../../server/src/acoustics/bore.js";
import type { Column } from "../../server/src/acoustics/column.js";
import { FrequencyPoint } from "../../server/src/acoustics/frequencyPoint.js";
import { waveConstants } from "../../server/src/acoustics/losses.js";
import { inputImpedance, registersOf } from "../../server/src/acoustics/resonance.js";
import { Response } from "../../server/src/acoustics/response.js";
import { TWO_PORT } from "../../server/src/acoustics/twoPort.js";
import { cents, instruments, losslessAir, tube } from "./instruments.js";
import { coneMatrix, inputImpedanceByNodes, lineMatrix } from "./nodalAdmittances.js";

const air = chaigneKergomardAir(20);
const CENTS_PER_LOG = 1200 / Math.LN2;
const real = (min: number, max: number) => fc.double({ min, max, noNaN: true });

/** Our matrix of a frustum as complex.js sees it, in Pa, m³/s. */
function ours(r1: number, r2: number, length: number, k: number, losses: boolean): Complex[][] {
  const frustum = { length, radius1: r1, radius2: r2 };
  const wave = new Float64Array(4);
  const out = new Float64Array(TWO_PORT);
  const area = 1e-4;
  waveConstants({ ...air, losses }, lossRadius(frustum), k, wave);
  frustumMatrix(frustum, area, wave, 0, out);
  const unit = (air.density * air.soundSpeed) / area;
  const at = (i: number, scale: number) => new Complex(out[i] as number, out[i + 1] as number).mul(scale);
  return [
    [at(0, 1), at(2, unit)],
    [at(4, 1 / unit), at(6, 1)],
  ];
}

function apart(one: readonly Complex[][], other: readonly Complex[][], scale: readonly number[][]): number {
  return Math.max(
    ...one.flatMap((row, i) =>
      row.map(
        (value, j) => value.sub((other[i] as Complex[])[j] as Complex).abs() / ((scale[i] as number[])[j] as number),
      ),
    ),
  );
}
const inUnits = (unit: number, size = 1) => [
  [size, size * unit],
  [size / unit, size],
];

describe("a section of the bore, against the textbook's formula in complex.js", () => {
  it("cylinder, with and without losses", () => {
    fc.assert(
      fc.property(real(0.002, 0.02), real(0.001, 0.5), real(1, 60), fc.boolean(), (radius, length, k, losses) => {
        const textbook = lineMatrix({ ...air, losses }, radius, length, k);
        const unit = (air.density * air.soundSpeed) / (Math.PI * radius ** 2);
        expect(apart(ours(radius, radius, length, k, losses), textbook, inUnits(unit))).toBeLessThan(1e-11);
      }),
    );
  });

  it("cone, counted from its apex", () => {
    fc.assert(
      fc.property(
        real(0.002, 0.02),
        real(0.5, 0.98),
        fc.boolean(),
        real(0.01, 0.5),
        real(1, 60),
        fc.boolean(),
        (r, taper, widening, length, k, losses) => {
          const [r1, r2] = widening ? [r * taper, r] : [r, r * taper];
          const mean = (r2 - r1) / Math.log(r2 / r1);
          const textbook = coneMatrix({ ...air, losses }, [r1, r2], length, mean, k);
          const unit = (air.density * air.soundSpeed) / (Math.PI * r1 * r2);
          // The apex's form cancels where the apex is far: by (1/k·x1)² of rounding.
          const far = Math.max(1, 1 / (k * Math.abs((r1 * length) / (r2 - r1))) ** 2);
          expect(apart(ours(r1, r2, length, k, losses), textbook, inUnits(unit, far))).toBeLessThan(1e-10);
        },
      ),
    );
  });

  it("cone from 9.5 to 6 mm, 300 mm, 440 Hz, cut into eighty: Webster's equation with local losses", () => {
    // scipy's DOP853 on Webster's equation with Zwikker–Kosten losses of the local radius: A, B, C, D, printed to 6 digits.
    const k = (2 * Math.PI * 440) / air.soundSpeed;
    const SLICES = 80;
    const radius = (i: number) => 0.0095 - (0.0035 * i) / SLICES;
    let whole = ours(radius(0), radius(1), 0.3 / SLICES, k, true);
    for (let i = 1; i < SLICES; i++) {
      const next = ours(radius(i), radius(i + 1), 0.3 / SLICES, k, true);
      whole = whole.map((row) =>
        [0, 1].map((j) =>
          (row[0] as Complex)
            .mul((next[0] as Complex[])[j] as Complex)
            .add((row[1] as Complex).mul((next[1] as Complex[])[j] as Complex)),
        ),
      );
    }
    const reference = [
      [new Complex(-0.384408, 0.0132477), new Complex(-3.6972e4, 1.49842e6)],
      [new Complex(-9.5606e-9, 3.175047e-7), new Complex(-1.365405, 0.0207489)],
    ];
    expect(apart(whole, reference, inUnits(5e6))).toBeLessThan(2e-6);
  });
});

/** Holes a fair way apart, none half closed, on an ideal mouth. */
const columns = fc
  .record({ column: instruments, stopped: fc.boolean() })
  .map(({ column, stopped }): Column => ({ ...column, mouth: { kind: "ideal" }, foot: stopped ? "stopped" : "open" }));
const covers = fc.array(fc.constantFrom(0, 1), { minLength: 7, maxLength: 7 });

describe("the whole network, against nodal admittances in complex.js", () => {
  // The admittance form is symmetric by its making: to agree with it is to be reciprocal as a whole. Left out on purpose is the
  // bore's near field between holes where it is below 1e-7 of the bore: hence 1e-6 here, not rounding.
  it("gives the same impedance without losses", () => {
    fc.assert(
      fc.property(columns, covers, real(100, 3000), (column, pattern, frequency) => {
        const fingering = pattern.slice(0, column.holes.length);
        const state = { ...air, losses: false };
        const [z] = inputImpedance(column, state, fingering, [frequency]);
        const other = inputImpedanceByNodes(column, state, fingering, frequency);
        const unit = (air.density * air.soundSpeed) / (Math.PI * (column.bore[0]?.radius ?? 1) ** 2);
        // Near a pole rounding grows with the impedance.
        const size = Math.max(unit, other.abs() ** 2 / unit);
        expect(other.sub(new Complex(z?.re ?? Number.NaN, z?.im ?? Number.NaN)).abs() / size).toBeLessThan(1e-6);
      }),
      { numRuns: 200 },
    );
  });

  // One mean radius for each slice of a cone: nearly always within 1e-3, a little more between many holes.
  it("gives the same impedance with losses, as far as a cone's mean radius goes", () => {
    fc.assert(
      fc.property(columns, covers, real(100, 3000), (column, pattern, frequency) => {
        const fingering = pattern.slice(0, column.holes.length);
        const [z] = inputImpedance(column, air, fingering, [frequency]);
        const other = inputImpedanceByNodes(column, air, fingering, frequency, 12);
        const unit = (air.density * air.soundSpeed) / (Math.PI * (column.bore[0]?.radius ?? 1) ** 2);
        const size = Math.max(unit, other.abs() ** 2 / unit);
        expect(other.sub(new Complex(z?.re ?? Number.NaN, z?.im ?? Number.NaN)).abs() / size).toBeLessThan(3e-3);
      }),
      { numRuns: 100 },
    );
  });

  it("gives the same impedance with losses in a cylinder, as closely", () => {
    fc.assert(
      fc.property(columns, covers, real(100, 3000), (tapered, pattern, frequency) => {
        const radius = tapered.bore[1]?.radius ?? 0;
        const column = { ...tapered, bore: tapered.bore.map(({ x }) => ({ x, radius })) };
        const fingering = pattern.slice(0, column.holes.length);
        const [z] = inputImpedance(column, air, fingering, [frequency]);
        const other = inputImpedanceByNodes(column, air, fingering, frequency);
        const unit = (air.density * air.soundSpeed) / (Math.PI * radius ** 2);
        const size = Math.max(unit, other.abs() ** 2 / unit);
        expect(other.sub(new Complex(z?.re ?? Number.NaN, z?.im ?? Number.NaN)).abs() / size).toBeLessThan(1e-6);
      }),
      { numRuns: 100 },
    );
  });
});

const hole = (x: number, radius: number, angle = 0) => ({ x, radius, chimney: 0.003, angle });

describe("where other forms of the network divide by zero", () => {
  it("a half wave between two holes is nothing special", () => {
    // sin kL = 0 between the holes, exactly as far as numbers go: the impedance there is that of its neighbours.
    const half = losslessAir.soundSpeed / 2 / 0.2;
    const column = tube(450, 16, { wall: 0.003, holes: [hole(0.15, 0.003), hole(0.35, 0.004)] });
    for (const pattern of [
      [0, 0],
      [1, 0],
      [1, 1],
    ]) {
      const step = half * 1e-5;
      const [below, at, above] = inputImpedance(column, losslessAir, pattern, [half - step, half, half + step]);
      const mean = { re: ((below?.re ?? 0) + (above?.re ?? 0)) / 2, im: ((below?.im ?? 0) + (above?.im ?? 0)) / 2 };
      expect(Math.hypot((at?.re ?? 0) - mean.re, (at?.im ?? 0) - mean.im) / Math.hypot(mean.re, mean.im)).toBeLessThan(
        1e-6,
      );
    }
  });

  it("two holes at one place are the limit of two that approach each other, in either order of the list", () => {
    const back = hole(0.2, 0.0035, Math.PI);
    const at = (frontX: number, turned = false) => {
      const holes = [back, hole(frontX, 0.003)];
      const column = tube(350, 16, { wall: 0.003, holes: turned ? holes.toReversed() : holes });
      return registersOf(column, air, [0, 0], 3).map(({ frequency }) => frequency);
    };
    const together = at(back.x);
    expect(together).toHaveLength(3);
    const farthest = (others: readonly number[]) =>
      Math.max(...others.map((frequency, i) => Math.abs(cents(frequency, together[i] as number))));
    expect(at(back.x, true)).toEqual(together);
    // At one place the front one counts as the upper, and it makes no difference: of the other's flow each is passed by half.
    expect(farthest(at(back.x - 1e-7))).toBeLessThan(1e-2);
    expect(farthest(at(back.x + 1e-7))).toBeLessThan(1e-2);
  });

  it("an instrument turned end for end sounds the same, blown at its other end", () => {
    // Reciprocity: both ends are plain rims, and a resonance is one of all the air. What the openings give away shifts a zero of the
    // reactance against the resonance by the order of 1/Q² of itself.
    fc.assert(
      fc.property(instruments, (column) => {
        const length = column.bore[1]?.x ?? 0;
        const straight: Column = { ...column, mouth: { kind: "rim", cover: 0 } };
        const turned: Column = {
          ...straight,
          bore: column.bore.toReversed().map(({ x, radius }) => ({ x: length - x, radius })),
          holes: column.holes.toReversed().map((h) => ({ ...h, x: length - h.x })),
        };
        const closed = column.holes.map(() => 1);
        const one = registersOf(straight, losslessAir, closed, 2);
        const other = registersOf(turned, losslessAir, closed, 2);
        expect(one).toHaveLength(2);
        one.forEach(({ frequency, quality }, i) => {
          expect(Math.abs(cents(frequency, other[i]?.frequency ?? 0))).toBeLessThan((2 * CENTS_PER_LOG) / quality ** 2);
        });
      }),
      { numRuns: 60 },
    );
  });

  it("the jet's power is what the openings radiate, however crowded the holes", () => {
    // Energy: in lossless bores the sum over openings of Re Z_mn U_m U_n*. A system that is not reciprocal makes energy, or loses some:
    // up to 4e-3 where a hole's induced flow was put wholly above its node. What is left is slight couplings (1e-5).
    const crowd = fc.record({
      gap: real(0.004, 0.01),
      sizes: fc.array(fc.record({ radius: real(0.0028, 0.0048), angle: fc.constantFrom(0, 1.5, Math.PI) }), {
        minLength: 2,
        maxLength: 7,
      }),
    });
    fc.assert(
      fc.property(crowd, covers, real(300, 2500), ({ gap, sizes }, pattern, frequency) => {
        const holes = sizes.map((size, i) => ({ ...size, x: 0.1 + gap * i, chimney: 0.002 }));
        const response = new Response(tube(150 + 1000 * gap * holes.length, 16, { wall: 0.002, holes }), losslessAir);
        const states = response.states(pattern.slice(0, holes.length));
        const k = (2 * Math.PI * frequency) / losslessAir.soundSpeed;
        const m = response.geometry.ports.length;
        const vector = () => new Float64Array(m);
        const solution = { xRe: vector(), xIm: vector(), yRe: vector(), yIm: vector() };
        response.linearise(k, states, solution);
        const { radiationRe } = new FrequencyPoint(response.geometry).set(k);
        const [re, im] = [[...solution.xRe], [...solution.xIm]];
        let radiated = 0;
        for (const i of states.openings)
          for (const j of states.openings)
            radiated += (radiationRe[i * m + j] ?? 0) * ((re[i] ?? 0) * (re[j] ?? 0) + (im[i] ?? 0) * (im[j] ?? 0));
        // The jet is a unit of pressure.
        const driven = re[m - 1] ?? 0;
        expect(Math.abs(radiated / driven - 1)).toBeLessThan(1e-4);
      }),
      { numRuns: 200 },
    );
  });
});
