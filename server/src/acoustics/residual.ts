import { CouplingList } from "./couplingList.js";
import type { FrequencyPoint } from "./frequencyPoint.js";
import type { NetworkGeometry } from "./networkGeometry.js";
import type { PortStates } from "./portStates.js";
import { TWO_PORT } from "./twoPort.js";

const NONE = new CouplingList(0, [], false);

/**
 * How far given unknowns are from satisfying a column's equations (`Network`, row by row, without its right-hand side): the same
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
  /** What a row of a two-port makes. */
  private zr = 0;
  private zi = 0;
  /** What the flows out of coupled openings sum to. */
  private sumRe = 0;
  private sumIm = 0;
  /** Pressure at each open port's outer face. */
  private readonly outerRe: Float64Array;
  private readonly outerIm: Float64Array;
  private readonly inside: CouplingList;
  private readonly induced: CouplingList;
  /** The same pairs by the hole that induces. */
  private readonly inducing: CouplingList;

  constructor(private readonly geometry: NetworkGeometry) {
    const m = geometry.ports.length;
    const { inside, induced } = geometry;
    this.inside = new CouplingList(m, inside, true);
    // Rarely any, and there are hundreds of columns that differ slightly from one another.
    const isAny = induced.length > 0;
    const inducedAt = induced.map(({ i, j, share }) => ({ i, j, coupling: share }));
    this.induced = isAny ? new CouplingList(m, inducedAt, false) : NONE;
    const inducingAt = inducedAt.map(({ i, j, coupling }) => ({ i: j, j: i, coupling }));
    this.inducing = isAny ? new CouplingList(m, inducingAt, false) : NONE;
    this.outerRe = new Float64Array(m);
    this.outerIm = new Float64Array(m);
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
    this.radiate(point, states, xRe, xIm);
    for (let i = 0; i < m; i++) if (i !== foot) this.setOut(point, states, i, xRe, xIm);
    this.outRe[foot] = 0;
    this.outIm[foot] = 0;
    this.induceFlows();
    this.startAtFoot(states, foot, xRe, xIm);
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

  private startAtFoot({ open }: PortStates, foot: number, xRe: Float64Array, xIm: Float64Array): void {
    const [r, i] = [xRe[foot] as number, xIm[foot] as number];
    const isOpen = open[foot] === 1;
    this.pr = isOpen ? (this.outerRe[foot] as number) : r;
    this.pi = isOpen ? (this.outerIm[foot] as number) : i;
    this.ur = isOpen ? r : 0;
    this.ui = isOpen ? i : 0;
  }

  /** The pressure at each opening from all flows, with what a finger's cover adds to its own. Two at once: the flows are then read half as often. */
  private radiate(point: FrequencyPoint, states: PortStates, xRe: Float64Array, xIm: Float64Array): void {
    const { outerRe, outerIm } = this;
    const { radiationRe, radiationIm, k } = point;
    const { openings, added } = states;
    const m = xRe.length;
    const count = openings.length;
    for (let n = 0; n < count; n += 2) {
      const one = openings[n] as number;
      const other = openings[Math.min(n + 1, count - 1)] as number;
      const row1 = one * m;
      const row2 = other * m;
      let r1 = 0;
      let i1 = 0;
      let r2 = 0;
      let i2 = 0;
      for (let l = 0; l < count; l++) {
        const j = openings[l] as number;
        const xr = xRe[j] as number;
        const xi = xIm[j] as number;
        const ar = radiationRe[row1 + j] as number;
        const ai = radiationIm[row1 + j] as number;
        const br = radiationRe[row2 + j] as number;
        const bi = radiationIm[row2 + j] as number;
        r1 += ar * xr - ai * xi;
        i1 += ar * xi + ai * xr;
        r2 += br * xr - bi * xi;
        i2 += br * xi + bi * xr;
      }
      outerRe[one] = r1;
      outerIm[one] = i1;
      outerRe[other] = r2;
      outerIm[other] = i2;
    }
    for (let n = 0; n < count; n++) {
      const i = openings[n] as number;
      const covered = k * (added[i] as number);
      outerRe[i] = (outerRe[i] as number) - covered * (xIm[i] as number);
      outerIm[i] = (outerIm[i] as number) + covered * (xRe[i] as number);
    }
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
    const { outerRe: r, outerIm: v } = this;
    const at = i * TWO_PORT + 4;
    this.through(point.chimneys, at, r[i] as number, v[i] as number, xRe[i] as number, xIm[i] as number);
    outRe[i] = this.zr;
    outIm[i] = this.zi;
  }

  private setRow(point: FrequencyPoint, states: PortStates, i: number, xRe: Float64Array, xIm: Float64Array): void {
    const { re, im } = this;
    const xr = xRe[i] as number;
    const xi = xIm[i] as number;
    // The half of the series length below the node feels the induced flow before it.
    const half = point.k * (states.halfSeries[i] as number);
    const nodeR = this.pr - half * (this.alongIm[i] as number);
    const nodeI = this.pi + half * (this.alongRe[i] as number);
    if (!states.open[i]) {
      const isMouth = i === xRe.length - 1;
      const cr = isMouth ? 0 : (point.closed[2 * i] as number);
      const ci = isMouth ? 0 : (point.closed[2 * i + 1] as number);
      re[i] = nodeR - (cr * xr - ci * xi);
      im[i] = nodeI - (cr * xi + ci * xr);
      return;
    }
    this.through(point.chimneys, i * TWO_PORT, this.outerRe[i] as number, this.outerIm[i] as number, xr, xi);
    re[i] = nodeR - this.zr;
    im[i] = nodeI - this.zi;
  }

  private induceFlows(): void {
    const { alongRe, alongIm } = this;
    alongRe.fill(0);
    alongIm.fill(0);
    if (this.induced.count === 0) return;
    for (let i = 0; i < alongRe.length; i++) {
      this.sumFlows(this.induced, i);
      alongRe[i] = this.sumRe;
      alongIm[i] = this.sumIm;
    }
  }

  private inducedCoupling(k: number, { halfSeries }: PortStates): void {
    const { count, starts, from, coupling } = this.inducing;
    if (count === 0) return;
    const { re, im, alongRe, alongIm } = this;
    for (let j = 0; j < re.length; j++) {
      const end = starts[j + 1] as number;
      let sumRe = 0;
      let sumIm = 0;
      for (let n = starts[j] as number; n < end; n++) {
        const i = from[n] as number;
        const x = (halfSeries[i] as number) * (coupling[n] as number);
        sumRe += x * (alongRe[i] as number);
        sumIm += x * (alongIm[i] as number);
      }
      re[j] = (re[j] as number) + 2 * k * sumIm;
      im[j] = (im[j] as number) - 2 * k * sumRe;
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
    const { re, im } = this;
    const scale = k * this.geometry.area;
    for (let i = 0; i < re.length; i++) {
      this.sumFlows(this.inside, i);
      re[i] = (re[i] as number) + scale * this.sumIm;
      im[i] = (im[i] as number) - scale * this.sumRe;
    }
  }

  /** Flows out of the openings that are coupled with opening `i`, each by its coupling, to `sumRe` and `sumIm`. */
  private sumFlows({ starts, from, coupling }: CouplingList, i: number): void {
    const { outRe, outIm } = this;
    const end = starts[i + 1] as number;
    let sumRe = 0;
    let sumIm = 0;
    for (let n = starts[i] as number; n < end; n++) {
      const j = from[n] as number;
      const share = coupling[n] as number;
      sumRe += share * (outRe[j] as number);
      sumIm += share * (outIm[j] as number);
    }
    this.sumRe = sumRe;
    this.sumIm = sumIm;
  }
}
