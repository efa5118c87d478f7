import { fingerLength } from "./aperture.js";
import type { Cover } from "./column.js";
import type { FrequencyPoint } from "./frequencyPoint.js";
import { solveAll, solveLast } from "./gauss.js";
import type { Skeleton } from "./skeleton.js";
import { TWO_PORT } from "./twoPort.js";

/** What one fingering makes of the ports, numbered as `skeleton.ports`. */
export interface PortStates {
  /** 1 where air goes out and sound comes in. */
  readonly open: Uint8Array;
  /** Half the series length at each node over (bore radius)², as a share of the yardstick area/π, m. */
  readonly halfSeries: Float64Array;
  /** Length the finger's cover adds outside over the opening's area, times the yardstick area, m. */
  readonly added: Float64Array;
}

/** @param covers one for each hole, in the column's own order */
export function portStates(skeleton: Skeleton, covers: readonly Cover[]): PortStates {
  const { ports, order, foot, area } = skeleton;
  const m = ports.length;
  if (covers.length !== order.length)
    throw new RangeError(`${order.length} holes need as many covers, not ${covers.length}`);
  const states = { open: new Uint8Array(m), halfSeries: new Float64Array(m), added: new Float64Array(m) };
  ports.forEach((port, i) => {
    const cover = i < order.length ? (covers[order[i] as number] as number) : 0;
    if (!(cover >= 0 && cover <= 1)) throw new RangeError("a cover lies between 0 (open) and 1 (closed)");
    const silent = !port.place || (foot === "stopped" && port.place.on === "footEnd");
    states.open[i] = silent || cover === 1 ? 0 : 1;
    const series = port.seriesOpen + cover * (port.seriesClosed - port.seriesOpen);
    states.halfSeries[i] = (series * area) / (2 * Math.PI * port.boreRadius ** 2);
    if (cover > 0 && cover < 1) {
      const radius = Math.sqrt(port.area / Math.PI);
      states.added[i] = (fingerLength(radius, cover) * area) / port.area;
    }
  });
  return states;
}

/** Solution of a network's equations and of their transpose, by unknown. */
export interface Linearised {
  readonly xRe: Float64Array;
  readonly xIm: Float64Array;
  readonly yRe: Float64Array;
  readonly yIm: Float64Array;
}

/** Stands for an impedance without end; its square is still a number. */
const ENDLESS = 1e150;

/**
 * The linear system of one column (docs/coupled-model.md §4, written for flows). Unknown are the flow out of each open port's outer face,
 * the flow into each closed chimney, and at a stopped foot the pressure. From the foot upstream every pressure and flow in the bore is
 * a combination of the unknowns; each port says what its node's pressure is, and the upstream end that no air passes. No step divides
 * by a section's matrix, so neither holes at one place nor half wavelengths between holes are special.
 */
export class Network {
  private readonly m: number;
  private readonly re: Float64Array;
  private readonly im: Float64Array;
  /** Flow out of the bore at each port, by the unknowns. */
  private readonly outRe: Float64Array;
  private readonly outIm: Float64Array;
  /** What near holes turn of the flow along the bore at each hole; then the whole flow there. By the unknowns. */
  private readonly alongRe: Float64Array;
  private readonly alongIm: Float64Array;
  private readonly pRe: Float64Array;
  private readonly pIm: Float64Array;
  private readonly uRe: Float64Array;
  private readonly uIm: Float64Array;
  private readonly bRe: Float64Array;
  private readonly bIm: Float64Array;
  private readonly answer = new Float64Array(2);

  constructor(private readonly skeleton: Skeleton) {
    const m = skeleton.ports.length;
    const vector = () => new Float64Array(m);
    const matrix = () => new Float64Array(m * m);
    this.m = m;
    this.re = matrix();
    this.im = matrix();
    this.outRe = matrix();
    this.outIm = matrix();
    this.alongRe = matrix();
    this.alongIm = matrix();
    this.pRe = vector();
    this.pIm = vector();
    this.uRe = vector();
    this.uIm = vector();
    this.bRe = vector();
    this.bIm = vector();
  }

  /** Impedance the jet works against, over ρc/`skeleton.area`, written to `out` (real, imaginary). */
  impedance(point: FrequencyPoint, states: PortStates, out: Float64Array): void {
    const { m, answer } = this;
    this.setUp(point, states);
    this.bRe.fill(0);
    this.bIm.fill(0);
    this.bRe[m - 1] = -1;
    solveLast(m, this.re, this.im, this.bRe, this.bIm, answer);
    const r = answer[0] as number;
    const i = answer[1] as number;
    const norm = r * r + i * i;
    // Without losses a frequency may be that of a resonance or of an antiresonance to the last digit.
    out[0] = r === Number.POSITIVE_INFINITY || norm === 0 ? 0 : r / norm;
    out[1] = r === Number.POSITIVE_INFINITY ? 0 : norm === 0 ? ENDLESS : -i / norm;
  }

  /**
   * The unknowns x of M x = b, and y of Mᵀ y = the unit vector of the flow the jet drives: what that flow makes of a little
   * discord r in the equations is −y · r.
   */
  linearise(point: FrequencyPoint, states: PortStates, { xRe, xIm, yRe, yIm }: Linearised): void {
    const { m, re, im } = this;
    this.setUp(point, states);
    const turnedRe = transposed(m, re);
    const turnedIm = transposed(m, im);
    xRe.fill(0);
    xIm.fill(0);
    xRe[m - 1] = -1;
    solveAll(m, re, im, xRe, xIm);
    yRe.fill(0);
    yIm.fill(0);
    yRe[m - 1] = 1;
    solveAll(m, turnedRe, turnedIm, yRe, yIm);
  }

  private setUp(point: FrequencyPoint, states: PortStates): void {
    const { m } = this;
    const mouth = m - 1;
    const foot = m - 2;
    this.re.fill(0);
    this.im.fill(0);
    this.outRe.fill(0);
    this.outIm.fill(0);
    for (let i = 0; i < m; i++) if (i !== foot) this.setOut(point, states, i);
    this.turnFlows();
    this.startAtFoot(point, states);
    let downstream = foot;
    for (let i = foot - 1; i >= -1; i--) {
      const node = i < 0 ? mouth : i;
      // The foot is no branch: its flow is already in u.
      this.step(point, states, node, downstream, downstream !== foot);
      this.setRow(point, states, node);
      downstream = node;
    }
    this.upstreamEnd(point, states, mouth, foot);
    this.insideCoupling(point);
    this.turnedCoupling(point, states);
  }

  private startAtFoot(point: FrequencyPoint, states: PortStates): void {
    const { m, pRe, pIm, uRe, uIm } = this;
    const foot = m - 2;
    pRe.fill(0);
    pIm.fill(0);
    uRe.fill(0);
    uIm.fill(0);
    if (!states.open[foot]) {
      pRe[foot] = 1;
      return;
    }
    uRe[foot] = 1;
    for (let j = 0; j < m; j++) {
      if (!states.open[j]) continue;
      pRe[j] = point.radiationRe[foot * m + j] as number;
      pIm[j] = point.radiationIm[foot * m + j] as number;
    }
  }

  /** From the node `downstream` to `node`: the branch's flow joins, then half series, bore, half series. */
  private step(point: FrequencyPoint, states: PortStates, node: number, downstream: number, branch: boolean): void {
    const { m, pRe, pIm, uRe, uIm, outRe, outIm, alongRe, alongIm } = this;
    const s = point.sections;
    const at = downstream * TWO_PORT;
    const ar = s[at] as number;
    const ai = s[at + 1] as number;
    const br = s[at + 2] as number;
    const bi = s[at + 3] as number;
    const cr = s[at + 4] as number;
    const ci = s[at + 5] as number;
    const dr = s[at + 6] as number;
    const di = s[at + 7] as number;
    const x2 = point.k * (states.halfSeries[downstream] as number);
    const x1 = point.k * (states.halfSeries[node] as number);
    for (let j = 0; j < m; j++) {
      let ur = uRe[j] as number;
      let ui = uIm[j] as number;
      let turnedR = 0;
      let turnedI = 0;
      if (branch) {
        const at = downstream * m + j;
        turnedR = alongRe[at] as number;
        turnedI = alongIm[at] as number;
        const outR = outRe[at] as number;
        const outI = outIm[at] as number;
        alongRe[at] = turnedR + ur + outR / 2;
        alongIm[at] = turnedI + ui + outI / 2;
        ur += outR;
        ui += outI;
      }
      // Both halves of the series length feel what is turned; the half below has been passed already.
      const pr = (pRe[j] as number) - x2 * (ui + 2 * turnedI);
      const pi = (pIm[j] as number) + x2 * (ur + 2 * turnedR);
      const vr = cr * pr - ci * pi + dr * ur - di * ui;
      const vi = cr * pi + ci * pr + dr * ui + di * ur;
      pRe[j] = ar * pr - ai * pi + br * ur - bi * ui - x1 * vi;
      pIm[j] = ar * pi + ai * pr + br * ui + bi * ur + x1 * vr;
      uRe[j] = vr;
      uIm[j] = vi;
    }
  }

  /** Flow out of the bore at a port, by the unknowns. */
  private setOut(point: FrequencyPoint, states: PortStates, i: number): void {
    const { m, outRe, outIm } = this;
    const own = i * m + i;
    if (!states.open[i]) {
      outRe[own] = 1;
      return;
    }
    const c = point.chimneys;
    const at = i * TWO_PORT;
    const cr = c[at + 4] as number;
    const ci = c[at + 5] as number;
    for (let j = 0; j < m; j++) {
      if (!states.open[j]) continue;
      const zr = point.radiationRe[i * m + j] as number;
      const zi = (point.radiationIm[i * m + j] as number) + (i === j ? point.k * (states.added[i] as number) : 0);
      outRe[i * m + j] = cr * zr - ci * zi;
      outIm[i * m + j] = cr * zi + ci * zr;
    }
    outRe[own] = (outRe[own] as number) + (c[at + 6] as number);
    outIm[own] = (outIm[own] as number) + (c[at + 7] as number);
  }

  /** Pressure at the node = pressure the port makes of the outer flows; at the mouth the jet's unit pressure comes on top. */
  private setRow(point: FrequencyPoint, states: PortStates, i: number): void {
    const { m, re, im, pRe, pIm } = this;
    const row = i * m;
    for (let j = 0; j < m; j++) {
      re[row + j] = pRe[j] as number;
      im[row + j] = pIm[j] as number;
    }
    if (!states.open[i]) {
      if (i === m - 1) return;
      re[row + i] = (re[row + i] as number) - (point.closed[2 * i] as number);
      im[row + i] = (im[row + i] as number) - (point.closed[2 * i + 1] as number);
      return;
    }
    const c = point.chimneys;
    const at = i * TWO_PORT;
    const ar = c[at] as number;
    const ai = c[at + 1] as number;
    for (let j = 0; j < m; j++) {
      if (!states.open[j]) continue;
      const zr = point.radiationRe[row + j] as number;
      const zi = (point.radiationIm[row + j] as number) + (i === j ? point.k * (states.added[i] as number) : 0);
      re[row + j] = (re[row + j] as number) - ar * zr + ai * zi;
      im[row + j] = (im[row + j] as number) - ar * zi - ai * zr;
    }
    const own = row + i;
    re[own] = (re[own] as number) - (c[at + 2] as number);
    im[own] = (im[own] as number) - (c[at + 3] as number);
  }

  /** No air passes the rigid end upstream of the mouth; the row of the foot holds this. */
  private upstreamEnd(point: FrequencyPoint, states: PortStates, mouth: number, foot: number): void {
    const { m, re, im, pRe, pIm, uRe, uIm, outRe, outIm } = this;
    const s = point.sections;
    const at = mouth * TWO_PORT;
    const cr = s[at + 4] as number;
    const ci = s[at + 5] as number;
    const dr = s[at + 6] as number;
    const di = s[at + 7] as number;
    const x = point.k * (states.halfSeries[mouth] as number);
    for (let j = 0; j < m; j++) {
      const ur = (uRe[j] as number) + (outRe[mouth * m + j] as number);
      const ui = (uIm[j] as number) + (outIm[mouth * m + j] as number);
      const pr = (pRe[j] as number) - x * ui;
      const pi = (pIm[j] as number) + x * ur;
      re[foot * m + j] = cr * pr - ci * pi + dr * ur - di * ui;
      im[foot * m + j] = cr * pi + ci * pr + dr * ui + di * ur;
    }
  }

  /** The bore's near field carries each hole's flow to its neighbours (docs/coupled-model.md §3). */
  private insideCoupling(point: FrequencyPoint): void {
    const { inside, area } = this.skeleton;
    for (let n = 0; n < inside.length; n++) {
      const { i, j, coupling } = inside[n] as { i: number; j: number; coupling: number };
      const x = point.k * area * coupling;
      this.couple(i, j, x);
      if (i !== j) this.couple(j, i, x);
    }
  }

  /** What flows out of a hole turns the flow along the bore at another near it (docs/coupled-model.md §3). */
  private turnFlows(): void {
    const { m, outRe, outIm, alongRe, alongIm } = this;
    alongRe.fill(0);
    alongIm.fill(0);
    const { turned } = this.skeleton;
    for (let n = 0; n < turned.length; n++) {
      const { i, j, share } = turned[n] as { i: number; j: number; share: number };
      for (let u = 0; u < m; u++) {
        alongRe[i * m + u] = (alongRe[i * m + u] as number) + share * (outRe[j * m + u] as number);
        alongIm[i * m + u] = (alongIm[i * m + u] as number) + share * (outIm[j * m + u] as number);
      }
    }
  }

  /** And by reciprocity the flow along the bore at the one is heard at the other. */
  private turnedCoupling(point: FrequencyPoint, states: PortStates): void {
    const { m, re, im, alongRe, alongIm } = this;
    const { turned } = this.skeleton;
    for (let n = 0; n < turned.length; n++) {
      const { i, j, share } = turned[n] as { i: number; j: number; share: number };
      const x = 2 * point.k * (states.halfSeries[i] as number) * share;
      for (let u = 0; u < m; u++) {
        re[j * m + u] = (re[j * m + u] as number) + x * (alongIm[i * m + u] as number);
        im[j * m + u] = (im[j * m + u] as number) - x * (alongRe[i * m + u] as number);
      }
    }
  }

  private couple(row: number, from: number, x: number): void {
    const { m, re, im, outRe, outIm } = this;
    for (let j = 0; j < m; j++) {
      const at = row * m + j;
      re[at] = (re[at] as number) + x * (outIm[from * m + j] as number);
      im[at] = (im[at] as number) - x * (outRe[from * m + j] as number);
    }
  }
}

function transposed(n: number, matrix: Float64Array): Float64Array {
  const turned = new Float64Array(n * n);
  for (let i = 0; i < n; i++) for (let j = 0; j < n; j++) turned[j * n + i] = matrix[i * n + j] as number;
  return turned;
}
