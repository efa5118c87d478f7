import type { FrequencyPoint } from "./frequencyPoint.js";
import type { NetworkGeometry } from "./networkGeometry.js";
import type { PortStates } from "./portStates.js";
import { TWO_PORT } from "./twoPort.js";

/**
 * How far given unknowns are from fulfilling a column's equations (`Network`, row by row, without its right side): the same
 * walk from the foot upstream, with numbers in place of rows of coefficients, and so without a matrix.
 */
export class Residual {
  readonly re: Float64Array;
  readonly im: Float64Array;
  /** Flow out of the bore at each port. */
  private readonly outRe: Float64Array;
  private readonly outIm: Float64Array;
  /** Axial flow that near holes induce at each hole; then the whole flow there. */
  private readonly alongRe: Float64Array;
  private readonly alongIm: Float64Array;
  /** Pressure and flow in the bore where the walk stands. */
  private pr = 0;
  private pi = 0;
  private ur = 0;
  private ui = 0;
  /** Pressure of all outer flows at one opening. */
  private zr = 0;
  private zi = 0;

  constructor(private readonly geometry: NetworkGeometry) {
    const m = geometry.ports.length;
    this.re = new Float64Array(m);
    this.im = new Float64Array(m);
    this.outRe = new Float64Array(m);
    this.outIm = new Float64Array(m);
    this.alongRe = new Float64Array(m);
    this.alongIm = new Float64Array(m);
  }

  /** Writes `re` and `im`. */
  of(point: FrequencyPoint, states: PortStates, xRe: Float64Array, xIm: Float64Array): void {
    const m = xRe.length;
    const mouth = m - 1;
    const foot = m - 2;
    for (let i = 0; i < m; i++) if (i !== foot) this.setOut(point, states, i, xRe, xIm);
    this.outRe[foot] = 0;
    this.outIm[foot] = 0;
    this.induceFlows();
    this.startAtFoot(point, states, foot, xRe, xIm);
    let downstream = foot;
    for (let i = foot - 1; i >= -1; i--) {
      const node = i < 0 ? mouth : i;
      this.step(point, states, node, downstream);
      this.setRow(point, states, node, xRe, xIm);
      downstream = node;
    }
    this.upstreamEnd(point, states, mouth, foot);
    this.insideCoupling(point.k);
    this.inducedCoupling(point.k, states);
  }

  private startAtFoot(
    point: FrequencyPoint,
    states: PortStates,
    foot: number,
    xRe: Float64Array,
    xIm: Float64Array,
  ): void {
    const [r, i] = [xRe[foot] as number, xIm[foot] as number];
    if (!states.open[foot]) {
      this.pr = r;
      this.pi = i;
      this.ur = 0;
      this.ui = 0;
      return;
    }
    this.ur = r;
    this.ui = i;
    this.radiated(point, states, foot, xRe, xIm);
    this.pr = this.zr;
    this.pi = this.zi;
  }

  private radiated(point: FrequencyPoint, states: PortStates, at: number, xRe: Float64Array, xIm: Float64Array): void {
    const m = xRe.length;
    let zr = 0;
    let zi = 0;
    for (let j = 0; j < m; j++) {
      if (!states.open[j]) continue;
      const r = point.radiationRe[at * m + j] as number;
      const i = point.radiationIm[at * m + j] as number;
      zr += r * (xRe[j] as number) - i * (xIm[j] as number);
      zi += r * (xIm[j] as number) + i * (xRe[j] as number);
    }
    this.zr = zr;
    this.zi = zi;
  }

  /** From the node `downstream` to `node`: the branch's flow joins, then half series, bore, half series. */
  private step(point: FrequencyPoint, states: PortStates, node: number, downstream: number): void {
    const s = point.sections;
    const at = downstream * TWO_PORT;
    const x2 = point.k * (states.halfSeries[downstream] as number);
    const x1 = point.k * (states.halfSeries[node] as number);
    const outR = this.outRe[downstream] as number;
    const outI = this.outIm[downstream] as number;
    const turnedR = this.alongRe[downstream] as number;
    const turnedI = this.alongIm[downstream] as number;
    this.alongRe[downstream] = turnedR + this.ur + outR / 2;
    this.alongIm[downstream] = turnedI + this.ui + outI / 2;
    const ur = this.ur + outR;
    const ui = this.ui + outI;
    const pr = this.pr - x2 * (ui + 2 * turnedI);
    const pi = this.pi + x2 * (ur + 2 * turnedR);
    this.through(s, at + 4, pr, pi, ur, ui);
    this.ur = this.zr;
    this.ui = this.zi;
    this.through(s, at, pr, pi, ur, ui);
    this.pr = this.zr - x1 * this.ui;
    this.pi = this.zi + x1 * this.ur;
  }

  /** One row of a two-port: `z` ← matrix[at] p + matrix[at+2] u. */
  private through(s: Float64Array, at: number, pr: number, pi: number, ur: number, ui: number): void {
    const ar = s[at] as number;
    const ai = s[at + 1] as number;
    const br = s[at + 2] as number;
    const bi = s[at + 3] as number;
    this.zr = ar * pr - ai * pi + br * ur - bi * ui;
    this.zi = ar * pi + ai * pr + br * ui + bi * ur;
  }

  private setOut(point: FrequencyPoint, states: PortStates, i: number, xRe: Float64Array, xIm: Float64Array): void {
    const { outRe, outIm } = this;
    if (!states.open[i]) {
      outRe[i] = xRe[i] as number;
      outIm[i] = xIm[i] as number;
      return;
    }
    this.radiatedAt(point, states, i, xRe, xIm);
    this.through(point.chimneys, i * TWO_PORT + 4, this.zr, this.zi, xRe[i] as number, xIm[i] as number);
    outRe[i] = this.zr;
    outIm[i] = this.zi;
  }

  /** As `radiated`, with what a finger's cover adds. */
  private radiatedAt(point: FrequencyPoint, states: PortStates, i: number, xRe: Float64Array, xIm: Float64Array): void {
    this.radiated(point, states, i, xRe, xIm);
    const covered = point.k * (states.added[i] as number);
    this.zr -= covered * (xIm[i] as number);
    this.zi += covered * (xRe[i] as number);
  }

  private setRow(point: FrequencyPoint, states: PortStates, i: number, xRe: Float64Array, xIm: Float64Array): void {
    const { re, im } = this;
    const xr = xRe[i] as number;
    const xi = xIm[i] as number;
    if (!states.open[i]) {
      const isMouth = i === xRe.length - 1;
      const cr = isMouth ? 0 : (point.closed[2 * i] as number);
      const ci = isMouth ? 0 : (point.closed[2 * i + 1] as number);
      re[i] = this.pr - (cr * xr - ci * xi);
      im[i] = this.pi - (cr * xi + ci * xr);
      return;
    }
    this.radiatedAt(point, states, i, xRe, xIm);
    this.through(point.chimneys, i * TWO_PORT, this.zr, this.zi, xr, xi);
    re[i] = this.pr - this.zr;
    im[i] = this.pi - this.zi;
  }

  private induceFlows(): void {
    const { outRe, outIm, alongRe, alongIm } = this;
    alongRe.fill(0);
    alongIm.fill(0);
    for (const { i, j, share } of this.geometry.induced) {
      alongRe[i] = (alongRe[i] as number) + share * (outRe[j] as number);
      alongIm[i] = (alongIm[i] as number) + share * (outIm[j] as number);
    }
  }

  private inducedCoupling(k: number, states: PortStates): void {
    const { re, im, alongRe, alongIm } = this;
    for (const { i, j, share } of this.geometry.induced) {
      const x = 2 * k * (states.halfSeries[i] as number) * share;
      re[j] = (re[j] as number) + x * (alongIm[i] as number);
      im[j] = (im[j] as number) - x * (alongRe[i] as number);
    }
  }

  private upstreamEnd(point: FrequencyPoint, states: PortStates, mouth: number, foot: number): void {
    const x = point.k * (states.halfSeries[mouth] as number);
    const ur = this.ur + (this.outRe[mouth] as number);
    const ui = this.ui + (this.outIm[mouth] as number);
    this.through(point.sections, mouth * TWO_PORT + 4, this.pr - x * ui, this.pi + x * ur, ur, ui);
    this.re[foot] = this.zr;
    this.im[foot] = this.zi;
  }

  private insideCoupling(k: number): void {
    const { inside, area } = this.geometry;
    for (const { i, j, coupling } of inside) {
      const x = k * area * coupling;
      this.couple(i, j, x);
      if (i !== j) this.couple(j, i, x);
    }
  }

  private couple(row: number, from: number, x: number): void {
    const { re, im, outRe, outIm } = this;
    re[row] = (re[row] as number) + x * (outIm[from] as number);
    im[row] = (im[row] as number) - x * (outRe[from] as number);
  }
}
