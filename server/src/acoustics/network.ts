import { CouplingList } from "./couplingList.js";
import type { FrequencyPoint } from "./frequencyPoint.js";
import { solveAll, solveLast } from "./gauss.js";
import { InducedFlow } from "./inducedFlow.js";
import type { NetworkGeometry } from "./networkGeometry.js";
import { memoryFor } from "./networkMemory.js";
import type { PortStates } from "./portStates.js";
import type { Port } from "./ports.js";
import { addRows, transposed } from "./rows.js";
import { TWO_PORT } from "./twoPort.js";

/** Solution of a network's equations and of their transpose, by unknown. */
export interface Linearised {
  readonly xRe: Float64Array;
  readonly xIm: Float64Array;
  readonly yRe: Float64Array;
  readonly yIm: Float64Array;
}

/**
 * Of openings that couple in the bore by less than this share of 1/(bore radius), what flows out at one counts by its own unknown only: not
 * by what other openings' sound drives into its chimney's springiness. It leaves notes where they are within 0.0003 cent.
 */
const SLIGHT = 1e-3;

/** An impedance that counts as infinite; its square is still finite. */
const ENDLESS = 1e150;

/**
 * The linear system of one column (docs/coupled-model.md §4, written for flows). Unknown are the flow out of each open port's outer face,
 * the flow into each closed chimney, and at a stopped foot the pressure. From the foot upstream every pressure and flow in the bore is
 * a combination of the unknowns; each port gives its node's pressure, and no air passes the upstream end. No step divides
 * by a section's matrix, so neither holes at one place nor half wavelengths between holes are special.
 *
 * In a row the unknowns stand by what depends on them: last the flow the jet drives, before it those out of open ports, before these the
 * closed ones as the walk meets them. The zeros are then at a row's beginning, where they cost nothing.
 */
export class Network {
  private readonly m: number;
  private readonly re: Float64Array;
  private readonly im: Float64Array;
  /** Flow out of the bore at each port, by the unknowns. */
  private readonly outRe: Float64Array;
  private readonly outIm: Float64Array;
  /** Axial flow that near holes induce at each hole; then the whole flow there. By the unknowns. */
  private readonly alongRe: Float64Array;
  private readonly alongIm: Float64Array;
  private readonly pRe: Float64Array;
  private readonly pIm: Float64Array;
  private readonly uRe: Float64Array;
  private readonly uIm: Float64Array;
  private readonly bRe: Float64Array;
  private readonly bIm: Float64Array;
  private readonly answer = new Float64Array(2);
  private readonly inside: CouplingList;
  private readonly induced: InducedFlow;
  /** The port that each place in a row stands for, and the reverse. */
  private readonly portAt: Int32Array;
  private readonly placeOf: Int32Array;
  /** The first place of an open port, and the one behind the last. */
  private open = 0;
  private end = 0;
  /** The first place of what the bore depends on where the walk stands. */
  private reached = 0;
  /** The same of the flow along the bore at each hole: near closed holes upstream induce it, too. */
  private readonly firstAlong: Int32Array;
  /** Rows of flows that are added to another, and by what factors. */
  private readonly sources: Int32Array;
  private readonly factors: Float64Array;

  constructor(private readonly geometry: NetworkGeometry) {
    const m = geometry.ports.length;
    const memory = memoryFor(m);
    this.m = m;
    this.inside = new CouplingList(m, geometry.inside, true, ({ i, coupling }) => {
      const { boreRadius } = geometry.ports[i] as Port;
      return Math.abs(coupling) * boreRadius < SLIGHT;
    });
    this.induced = new InducedFlow(geometry, memory);
    ({ re: this.re, im: this.im, outRe: this.outRe, outIm: this.outIm } = memory);
    ({ alongRe: this.alongRe, alongIm: this.alongIm, firstAlong: this.firstAlong } = memory);
    ({ pRe: this.pRe, pIm: this.pIm, uRe: this.uRe, uIm: this.uIm, bRe: this.bRe, bIm: this.bIm } = memory);
    ({ portAt: this.portAt, placeOf: this.placeOf, sources: this.sources, factors: this.factors } = memory);
  }

  /** Impedance the jet works against, over ρc/`geometry.area`, written to `out` (real, imaginary). */
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
    // Without losses a frequency may hit a resonance or an antiresonance exactly.
    out[0] = r === Number.POSITIVE_INFINITY || norm === 0 ? 0 : r / norm;
    out[1] = r === Number.POSITIVE_INFINITY ? 0 : norm === 0 ? ENDLESS : -i / norm;
  }

  /**
   * The unknowns x of M x = b, and y of Mᵀ y = the unit vector of the flow the jet drives: a small residual r in the equations
   * changes that flow by −y · r.
   */
  linearise(point: FrequencyPoint, states: PortStates, { xRe, xIm, yRe, yIm }: Linearised): void {
    const { m, re, im, portAt } = this;
    this.setUp(point, states);
    const turnedRe = transposed(m, re);
    const turnedIm = transposed(m, im);
    const { bRe, bIm } = this;
    bRe.fill(0);
    bIm.fill(0);
    bRe[m - 1] = -1;
    solveAll(m, re, im, bRe, bIm);
    for (let n = 0; n < m; n++) {
      xRe[portAt[n] as number] = bRe[n] as number;
      xIm[portAt[n] as number] = bIm[n] as number;
    }
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
    this.number(states);
    for (let i = 0; i < m; i++) if (i !== foot) this.setOut(point, states, i);
    this.induced.induce(states, this.open, this.end);
    this.startAtFoot(point, states);
    let downstream = foot;
    for (let i = foot - 1; i >= -1; i--) {
      const node = i < 0 ? mouth : i;
      // The foot is not a branch: its flow is already in u.
      this.step(point, states, node, downstream, downstream !== foot);
      this.setRow(point, states, node);
      downstream = node;
    }
    this.upstreamEnd(point, states, mouth, foot);
    this.insideCoupling(point, states);
    this.induced.addReciprocal(point, states, this.end);
  }

  /** Gives each unknown its place in the rows. */
  private number({ open }: PortStates): void {
    const { m, portAt, placeOf, firstAlong } = this;
    const mouth = m - 1;
    portAt[mouth] = mouth;
    // A mouth that is a bare node drives nothing that others depend on.
    this.end = open[mouth] ? m : mouth;
    let place = mouth;
    for (let i = mouth - 1; i >= 0; i--) if (open[i]) portAt[--place] = i;
    this.open = place;
    this.reached = place;
    // As the walk meets them.
    for (let i = mouth - 1; i >= 0; i--) {
      if (!open[i]) portAt[--place] = i;
      firstAlong[i] = place;
    }
    for (let n = 0; n < m; n++) placeOf[portAt[n] as number] = n;
    this.induced.reach();
  }

  private startAtFoot(point: FrequencyPoint, states: PortStates): void {
    const { m, pRe, pIm, uRe, uIm, portAt, placeOf } = this;
    const foot = m - 2;
    pRe.fill(0);
    pIm.fill(0);
    uRe.fill(0);
    uIm.fill(0);
    const own = placeOf[foot] as number;
    if (!states.open[foot]) {
      pRe[own] = 1;
      this.reached = own;
      return;
    }
    uRe[own] = 1;
    for (let n = this.open; n < this.end; n++) {
      const j = foot * m + (portAt[n] as number);
      pRe[n] = point.radiationRe[j] as number;
      pIm[n] = point.radiationIm[j] as number;
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
    const row = downstream * m;
    if (branch && !states.open[downstream]) this.reached = Math.min(this.reached, this.placeOf[downstream] as number);
    const induces = branch && this.induced.isAny;
    // A near hole may induce flow by an unknown that has not entered the bore downstream yet.
    if (induces)
      this.reached = this.firstAlong[downstream] = Math.min(this.reached, this.firstAlong[downstream] as number);
    const { end } = this;
    for (let j = this.reached; j < end; j++) {
      let ur = uRe[j] as number;
      let ui = uIm[j] as number;
      let turnedR = 0;
      let turnedI = 0;
      if (branch) {
        const own = row + j;
        const outR = outRe[own] as number;
        const outI = outIm[own] as number;
        if (induces) {
          turnedR = alongRe[own] as number;
          turnedI = alongIm[own] as number;
          alongRe[own] = turnedR + ur + outR / 2;
          alongIm[own] = turnedI + ui + outI / 2;
        }
        ur += outR;
        ui += outI;
      }
      // Both halves of the series length feel the induced flow; the half below has been passed already.
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
    const { m, outRe, outIm, portAt, open, end } = this;
    const row = i * m;
    const own = row + (this.placeOf[i] as number);
    if (!states.open[i]) {
      outRe[own] = 1;
      return;
    }
    const { chimneys, radiationRe, radiationIm } = point;
    const at = i * TWO_PORT;
    const cr = chimneys[at + 4] as number;
    const ci = chimneys[at + 5] as number;
    for (let n = open; n < end; n++) {
      const j = row + (portAt[n] as number);
      const zr = radiationRe[j] as number;
      const zi = radiationIm[j] as number;
      outRe[row + n] = cr * zr - ci * zi;
      outIm[row + n] = cr * zi + ci * zr;
    }
    const added = point.k * (states.added[i] as number);
    outRe[own] = (outRe[own] as number) - ci * added + (chimneys[at + 6] as number);
    outIm[own] = (outIm[own] as number) + cr * added + (chimneys[at + 7] as number);
  }

  /** Pressure at the node = pressure the port makes of the outer flows; at the mouth the jet's unit pressure comes on top. */
  private setRow(point: FrequencyPoint, states: PortStates, i: number): void {
    const { m, re, im, pRe, pIm, portAt, open, end } = this;
    const row = i * m;
    re.set(pRe, row);
    im.set(pIm, row);
    this.induced.addAtNode(point, states, i, end);
    const own = row + (this.placeOf[i] as number);
    if (!states.open[i]) {
      if (i === m - 1) return;
      re[own] = (re[own] as number) - (point.closed[2 * i] as number);
      im[own] = (im[own] as number) - (point.closed[2 * i + 1] as number);
      return;
    }
    const { chimneys, radiationRe, radiationIm } = point;
    const at = i * TWO_PORT;
    const ar = chimneys[at] as number;
    const ai = chimneys[at + 1] as number;
    for (let n = open; n < end; n++) {
      const j = row + (portAt[n] as number);
      const zr = radiationRe[j] as number;
      const zi = radiationIm[j] as number;
      re[row + n] = (re[row + n] as number) - ar * zr + ai * zi;
      im[row + n] = (im[row + n] as number) - ar * zi - ai * zr;
    }
    const added = point.k * (states.added[i] as number);
    re[own] = (re[own] as number) + ai * added - (chimneys[at + 2] as number);
    im[own] = (im[own] as number) - ar * added - (chimneys[at + 3] as number);
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
  private insideCoupling({ k }: FrequencyPoint, states: PortStates): void {
    const { starts, from, coupling, slight } = this.inside;
    const { m, re, im, outRe, outIm, placeOf, open, end, sources, factors } = this;
    const scale = k * this.geometry.area;
    for (let i = 0; i < m; i++) {
      const row = i * m;
      let count = 0;
      for (let n = starts[i] as number; n < (starts[i + 1] as number); n++) {
        const j = from[n] as number;
        const x = scale * (coupling[n] as number);
        if (states.open[j] && slight[n] === 0) {
          sources[count] = j * m;
          factors[count++] = x;
          continue;
        }
        // What flows into a closed chimney is an unknown itself.
        const place = placeOf[j] as number;
        re[row + place] = (re[row + place] as number) + x * (outIm[j * m + place] as number);
        im[row + place] = (im[row + place] as number) - x * (outRe[j * m + place] as number);
      }
      // The pressure is the factor times the flow, a quarter of a period ahead.
      addRows(re, row, open, end, outIm, sources, factors, count, 1);
      addRows(im, row, open, end, outRe, sources, factors, count, -1);
    }
  }
}
