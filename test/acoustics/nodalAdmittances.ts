/**
 * The coupled model a second time, as its other textbook form: nodal admittances [[D/B, −1/B], [−1/B, A/B]] of the bore, the ports'
 * impedance matrix inverted and added (docs/coupled-model.md §4, last paragraph), every operation by complex.js. Independent of the
 * project's own network, elimination, two-ports and cones; the lengths of holes, ends and couplings are shared, each held to its
 * sources by tests of its own.
 */
import Complex from "complex.js";
import type { AirState } from "../../server/src/acoustics/airState.js";
import { boreRadiusAt, type Column, type Cover, type ToneHole } from "../../server/src/acoustics/column.js";
import { boreCoupling, effectiveDistance, imageCoupling, type Place } from "../../server/src/acoustics/coupling.js";
import { cylinderFlange, holeLengths } from "../../server/src/acoustics/hole.js";
import { bluntEnd, endImpedance } from "../../server/src/acoustics/radiation.js";

type Matrix = Complex[][];
const complex = (re: number, im = 0): Complex => new Complex(re, im);
const J = complex(0, 1);

/** 2J1(z)/(zJ0(z)) by the continued fraction of J1/J0 from the end backward (Zwikker & Kosten 1949 need it at s·e^(−jπ/4)). */
function wallLayer(s: number): Complex {
  const z = complex(s * Math.SQRT1_2, -s * Math.SQRT1_2);
  let tail = complex(0);
  for (let n = Math.ceil(30 + 2 * s); n >= 1; n--)
    tail = complex(1).div(
      complex(2 * n)
        .div(z)
        .sub(tail),
    );
  return tail.mul(2).div(z);
}

/** Γ, 1/m, and Zc, Pa s/m³, of a cylinder: Γ = √(ZY), Zc = √(Z/Y) with Z = jωρ/S/(1−F_v), Y = jωS/(ρc²)·(1+(γ−1)F_t). */
export function lineConstants(air: AirState, radius: number, k: number): { gamma: Complex; zc: Complex } {
  const { density, soundSpeed, viscosity, prandtl, heatCapacityRatio } = air;
  const area = Math.PI * radius ** 2;
  const omega = k * soundSpeed;
  if (!air.losses) return { gamma: complex(0, k), zc: complex((density * soundSpeed) / area) };
  const s = radius * Math.sqrt((density * omega) / viscosity);
  const viscous = wallLayer(s);
  const thermal = wallLayer(s * Math.sqrt(prandtl));
  const series = complex(0, (omega * density) / area).div(complex(1).sub(viscous));
  const shunt = complex(0, (omega * area) / (density * soundSpeed ** 2)).mul(
    complex(1).add(thermal.mul(heatCapacityRatio - 1)),
  );
  return { gamma: series.mul(shunt).sqrt(), zc: series.div(shunt).sqrt() };
}

/** Matrix of a cylinder of that length. */
export function lineMatrix(air: AirState, radius: number, length: number, k: number): Matrix {
  const { gamma, zc } = lineConstants(air, radius, k);
  const x = gamma.mul(length);
  return [
    [x.cosh(), zc.mul(x.sinh())],
    [x.sinh().div(zc), x.cosh()],
  ];
}

/**
 * Matrix of a cone with the wave constants of one mean radius, distances counted from the apex (Chaigne & Kergomard 2016, §7): with
 * Γ for jk, A = (x2/x1) cosh ΓL − sinh ΓL/(Γx1) and so on, impedances in ρc/S at x1 times the loss factor.
 */
export function coneMatrix(
  air: AirState,
  [r1, r2]: readonly [number, number],
  length: number,
  lossRadius: number,
  k: number,
): Matrix {
  const x1 = (r1 * length) / (r2 - r1);
  const x2 = x1 + length;
  const { gamma, zc } = lineConstants(air, lossRadius, k);
  const at1 = zc.mul(lossRadius ** 2 / r1 ** 2);
  const [ch, sh] = [gamma.mul(length).cosh(), gamma.mul(length).sinh()];
  const g1 = gamma.mul(x1);
  const c = sh.mul(complex(x2 / x1).sub(complex(1).div(g1.mul(g1)))).add(ch.mul(length / x1).div(g1));
  return [
    [ch.mul(x2 / x1).sub(sh.div(g1)), at1.mul(sh).mul(x1 / x2)],
    [c.div(at1), ch.add(sh.div(g1)).mul(x1 / x2)],
  ];
}

export function product(left: Matrix, right: Matrix): Matrix {
  return left.map((row) =>
    (right[0] as Complex[]).map((_, j) =>
      row.reduce((sum, value, i) => sum.add(value.mul((right[i] as Complex[])[j] as Complex)), complex(0)),
    ),
  );
}

/** Inverse by Gauss and Jordan. */
export function inverse(matrix: Matrix): Matrix {
  const n = matrix.length;
  const rows = matrix.map((row, i) => [...row, ...row.map((_, j) => complex(i === j ? 1 : 0))]);
  for (let i = 0; i < n; i++) {
    const best = rows.reduce((b, row, r) => (r >= i && absAt(row, i) > absAt(rows[b] as Complex[], i) ? r : b), i);
    [rows[i], rows[best]] = [rows[best] as Complex[], rows[i] as Complex[]];
    const lead = (rows[i] as Complex[])[i] as Complex;
    rows[i] = (rows[i] as Complex[]).map((value) => value.div(lead));
    for (let r = 0; r < n; r++) {
      if (r === i) continue;
      const factor = (rows[r] as Complex[])[i] as Complex;
      rows[r] = (rows[r] as Complex[]).map((value, j) => value.sub(factor.mul((rows[i] as Complex[])[j] as Complex)));
    }
  }
  return rows.map((row) => row.slice(n));
}
const absAt = (row: readonly Complex[], i: number): number => (row[i] as Complex).abs();

interface OnePort {
  readonly place: Place;
  /** From the bore to the outer face. */
  readonly chimney: Matrix;
  /** Radiation of the outer face alone; absent when closed. */
  readonly radiation?: Complex;
  /** Closed chimney, seen from the bore. */
  readonly closed?: Complex;
}

function holePort(hole: ToneHole, a: number, closed: boolean, air: AirState, k: number): OnePort {
  const { radius, chimney, x, angle } = hole;
  const l = holeLengths(a, radius, chimney);
  const unit = (air.density * air.soundSpeed) / (Math.PI * radius ** 2);
  const line = lineMatrix(air, radius, l.line, k) as [[Complex, Complex], [Complex, Complex]];
  const outerRadius = a + chimney;
  const place: Place = { x, angle, outerRadius, on: "side", radius };
  if (closed) return { place, chimney: line, closed: line[0][0].div(line[1][0]) };
  const inner = l.inner + l.innerGrowth * (k * a) ** 2;
  const series = [
    [complex(1), complex(0, k * unit * inner)],
    [complex(0), complex(1)],
  ];
  const kR = k * outerRadius;
  // t_r = b(0.822 − 0.47 q^0.8) + t_o + 0.19 b²k²R, resistance ¼(kb)²(1 − 0.13 x + 0.8 x²).
  const outer =
    radius * cylinderFlange(radius / outerRadius) + l.outerSaddle + 0.19 * radius ** 2 * k ** 2 * outerRadius;
  const resistance = 0.25 * (k * radius) ** 2 * (1 - 0.13 * kR + 0.8 * kR ** 2);
  return { place, chimney: product(series, line), radiation: complex(resistance, Math.tan(k * outer)).mul(unit) };
}

/**
 * Input impedance, Pa s/m³, of a column with an `ideal` mouth and one cylinder or cone from mouth to foot, holes open (0) or closed (1)
 * at places of their own. @param slices that losses cut a cone into between two holes
 */
export function inputImpedanceByNodes(
  column: Column,
  air: AirState,
  covers: readonly Cover[],
  frequency: number,
  slices = 1,
): Complex {
  const k = (2 * Math.PI * frequency) / air.soundSpeed;
  const { bore, holes, wall } = column;
  const end = bore[bore.length - 1] as { x: number; radius: number };
  const nodes = [0, ...holes.map(({ x }) => x), end.x];
  const radiusAt = (x: number) => boreRadiusAt(bore, x);
  const seriesHalf = (i: number): number => {
    const hole = holes[i - 1];
    if (hole === undefined) return 0;
    const l = holeLengths(radiusAt(hole.x), hole.radius, hole.chimney);
    return (covers[i - 1] === 1 ? l.seriesClosed : l.seriesOpen) / 2;
  };
  const n = nodes.length;
  const y: Matrix = Array.from({ length: n }, () => Array.from({ length: n }, () => complex(0)));
  const add = (i: number, j: number, value: Complex): void => {
    const row = y[i] as Complex[];
    row[j] = (row[j] as Complex).add(value);
  };
  for (let i = 0; i + 1 < n; i++) {
    const section = sectionMatrix(air, radiusAt, nodes[i] as number, nodes[i + 1] as number, k, slices);
    const [[a, b], [, d]] = product(
      product(seriesMatrix(air, radiusAt(nodes[i] as number), seriesHalf(i), k), section),
      seriesMatrix(air, radiusAt(nodes[i + 1] as number), seriesHalf(i + 1), k),
    ) as [[Complex, Complex], [Complex, Complex]];
    add(i, i, d.div(b));
    add(i + 1, i + 1, a.div(b));
    add(i, i + 1, complex(-1).div(b));
    add(i + 1, i, complex(-1).div(b));
  }
  const ports: { node: number; port: OnePort; hole?: ToneHole }[] = holes.map((hole, i) => ({
    node: i + 1,
    hole,
    port: holePort(hole, radiusAt(hole.x), covers[i] === 1, air, k),
  }));
  if (column.foot === "open") ports.push({ node: n - 1, port: footPort(end, wall, air, k) });
  const stop = column.foot === "stopped" ? column.bore.at(-1)?.x : undefined;
  portAdmittances(ports, air, radiusAt, k, stop).forEach((row, i) => {
    row.forEach((value, j) => {
      add(ports[i]?.node as number, ports[j]?.node as number, value);
    });
  });
  return (inverse(y)[0] as Complex[])[0] as Complex;
}

function footPort(end: { x: number; radius: number }, wall: number, air: AirState, k: number): OnePort {
  const outerRadius = end.radius + wall;
  const z = endImpedance(bluntEnd(end.radius, outerRadius, k), k);
  const unit = (air.density * air.soundSpeed) / (Math.PI * end.radius ** 2);
  const identity = [
    [complex(1), complex(0)],
    [complex(0), complex(1)],
  ];
  return {
    place: { x: end.x, angle: 0, outerRadius, on: "footEnd" },
    chimney: identity,
    radiation: complex(z.re, z.im).mul(unit),
  };
}

function seriesMatrix(air: AirState, radius: number, length: number, k: number): Matrix {
  const z = (k * length * air.density * air.soundSpeed) / (Math.PI * radius ** 2);
  return [
    [complex(1), complex(0, z)],
    [complex(0), complex(1)],
  ];
}

function sectionMatrix(
  air: AirState,
  radiusAt: (x: number) => number,
  from: number,
  to: number,
  k: number,
  slices: number,
): Matrix {
  let whole: Matrix | undefined;
  for (let i = 0; i < slices; i++) {
    const x1 = from + ((to - from) * i) / slices;
    const x2 = from + ((to - from) * (i + 1)) / slices;
    const [r1, r2] = [radiusAt(x1), radiusAt(x2)];
    const cylinder = Math.abs(r2 - r1) < 1e-9 * r1;
    const next = cylinder
      ? lineMatrix(air, r1, x2 - x1, k)
      : coneMatrix(air, [r1, r2], x2 - x1, (r2 - r1) / Math.log(r2 / r1), k);
    whole = whole ? product(whole, next) : next;
  }
  return whole as Matrix;
}

/** Z_P = (A Z_rad + B)(C Z_rad + D)⁻¹ of the open ports, closed ones on the diagonal, the bore's near field on top; inverted. */
function portAdmittances(
  ports: readonly { readonly port: OnePort; readonly hole?: ToneHole }[],
  air: AirState,
  radiusAt: (x: number) => number,
  k: number,
  /** Where a wall ends the bore. */
  stop: number | undefined,
): Matrix {
  const unit = complex(0, k * air.density * air.soundSpeed);
  const open = ports.filter(({ port }) => port.radiation);
  const radiation = open.map(({ port: p }, i) =>
    open.map(({ port: q }, j) => {
      if (i === j) return p.radiation as Complex;
      const d = effectiveDistance(p.place, q.place);
      return unit.mul(J.mul(-k * d).exp()).div(4 * Math.PI * d);
    }),
  );
  const entry = (row: 0 | 1, column: 0 | 1): Matrix =>
    open.map(({ port }, i) =>
      open.map((_, j) => (i === j ? ((port.chimney[row] as Complex[])[column] as Complex) : complex(0))),
    );
  const sum = (left: Matrix, right: Matrix): Matrix =>
    left.map((row, i) => row.map((value, j) => value.add((right[i] as Complex[])[j] as Complex)));
  const seen =
    open.length === 0
      ? []
      : product(
          sum(product(entry(0, 0), radiation), entry(0, 1)),
          inverse(sum(product(entry(1, 0), radiation), entry(1, 1))),
        );
  const z = ports.map(({ port: p, hole: h }, i) =>
    ports.map(({ port: q, hole: g }, j) => {
      const [m, o] = [open.findIndex(({ port }) => port === p), open.findIndex(({ port }) => port === q)];
      let value = m >= 0 && o >= 0 ? ((seen[m] as Complex[])[o] as Complex) : complex(0);
      if (i === j && p.closed) value = p.closed;
      if (h && g) {
        const opening = (t: ToneHole) => ({
          x: t.x,
          angle: t.angle,
          boreRadius: radiusAt(t.x),
          along: t.radius,
          across: t.radius,
        });
        if (i !== j) value = value.add(unit.mul(boreCoupling(opening(h), opening(g))));
        if (stop !== undefined) {
          const image = { ...opening(g), x: 2 * stop - g.x };
          const felt = i === j ? imageCoupling(opening(h), 2 * (stop - h.x)) : boreCoupling(opening(h), image);
          value = value.add(unit.mul(felt));
        }
      }
      return value;
    }),
  );
  return z.length === 0 ? [] : inverse(z);
}
