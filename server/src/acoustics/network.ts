import { fingerLength } from "./aperture.js";
import type { Cover } from "./column.js";
import type { FrequencyPoint } from "./frequencyPoint.js";
import { solveAll, solveLast } from "./gauss.js";
import type { NetworkGeometry } from "./networkGeometry.js";
import type { Port } from "./ports.js";
import { TWO_PORT } from "./twoPort.js";
import { solvingWork } from "./work.js";

/** What one fingering makes of the ports, numbered as `geometry.ports`. */
export interface PortStates {
  /** 1 where air goes out and sound comes in. */
  readonly open: Uint8Array;
  /** Half the series length at each node over (bore radius)², as a share of the reference area/π, m. */
  readonly halfSeries: Float64Array;
  /** Length the finger's cover adds outside over the opening's area, times the reference area, m. */
  readonly added: Float64Array;
  /** Of one solution, microseconds (`work.ts`). */
  readonly work: number;
}

/** @param covers one for each hole, in the column's own order */
export function portStates(geometry: NetworkGeometry, covers: readonly Cover[]): PortStates {
  const { ports, order, foot, area } = geometry;
  const m = ports.length;
  if (covers.length !== order.length)
    throw new RangeError(`${order.length} holes need as many covers, not ${covers.length}`);
  const states = { open: new Uint8Array(m), halfSeries: new Float64Array(m), added: new Float64Array(m) };
  let open = 0;
  ports.forEach((port, i) => {
    const cover = i < order.length ? (covers[order[i] as number] as number) : 0;
    if (!(cover >= 0 && cover <= 1)) throw new RangeError("a cover lies between 0 (open) and 1 (closed)");
    const silent = !port.place || (foot === "stopped" && port.place.on === "footEnd");
    states.open[i] = silent || cover === 1 ? 0 : 1;
    open += states.open[i] as number;
    const series = port.seriesOpen + cover * (port.seriesClosed - port.seriesOpen);
    states.halfSeries[i] = (series * area) / (2 * Math.PI * port.boreRadius ** 2);
    if (cover > 0 && cover < 1) {
      const radius = Math.sqrt(port.area / Math.PI);
      states.added[i] = (fingerLength(radius, cover) * area) / port.area;
    }
  });
  return { ...states, work: solvingWork(m, open) };
}

/** Solution of a network's equations and of their transpose, by unknown. */
export interface Linearised {
  readonly xRe: Float64Array;
  readonly xIm: Float64Array;
  readonly yRe: Float64Array;
  readonly yIm: Float64Array;
}

/**
 * Of openings that couple in the bore by less than this share of 1/(bore radius), what flows out at one counts by its own unknown only: not
 * by what other openings' sound drives into its chimney's springiness.
 */
const SLIGHT = 1e-3;
/** The same of the share of its flow that is induced along the bore at another. Either leaves notes where they are within 0.0003 cent. */
const SLIGHT_TURN = 0.1;

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
  /** Unknowns by which something is not zero: the flows out of `open` openings, then what lies downstream of where the walk stands. */
  private readonly columns: Int32Array;
  private open = 0;
  private reached = 0;

  constructor(private readonly geometry: NetworkGeometry) {
    const m = geometry.ports.length;
    const vector = () => new Float64Array(m);
    const matrix = () => new Float64Array(m * m);
    this.m = m;
    this.columns = new Int32Array(m);
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
    // Without losses a frequency may be that of a resonance or of an antiresonance to the last digit.
    out[0] = r === Number.POSITIVE_INFINITY || norm === 0 ? 0 : r / norm;
    out[1] = r === Number.POSITIVE_INFINITY ? 0 : norm === 0 ? ENDLESS : -i / norm;
  }

  /**
   * The unknowns x of M x = b, and y of Mᵀ y = the unit vector of the flow the jet drives: what that flow makes of a little
   * residual r in the equations is −y · r.
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
    this.reached = 0;
    for (let j = 0; j < m; j++) if (states.open[j]) this.columns[this.reached++] = j;
    this.open = this.reached;
    for (let i = 0; i < m; i++) if (i !== foot) this.setOut(point, states, i);
    this.turnFlows(states);
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
    this.insideCoupling(point, states);
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
      this.reach(foot);
      return;
    }
    uRe[foot] = 1;
    for (let c = 0; c < this.open; c++) {
      const j = this.columns[c] as number;
      pRe[j] = point.radiationRe[foot * m + j] as number;
      pIm[j] = point.radiationIm[foot * m + j] as number;
    }
  }

  /** What stands in the bore upstream from here depends on this unknown, too: one that acts nowhere but in the bore. */
  private reach(unknown: number): void {
    this.columns[this.reached++] = unknown;
  }

  /** From the node `downstream` to `node`: the branch's flow joins, then half series, bore, half series. */
  private step(point: FrequencyPoint, states: PortStates, node: number, downstream: number, branch: boolean): void {
    const { m, pRe, pIm, uRe, uIm, outRe, outIm, alongRe, alongIm, columns } = this;
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
    if (branch && !states.open[downstream]) this.reach(downstream);
    const induces = branch && this.geometry.induced.length > 0;
    // A near hole may induce flow by an unknown that the bore downstream does not know of yet.
    const last = induces ? m : this.reached;
    for (let c = 0; c < last; c++) {
      const j = induces ? c : (columns[c] as number);
      let ur = uRe[j] as number;
      let ui = uIm[j] as number;
      let turnedR = 0;
      let turnedI = 0;
      if (branch) {
        const own = downstream * m + j;
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
    const { m, outRe, outIm, columns, open } = this;
    const row = i * m;
    const own = row + i;
    if (!states.open[i]) {
      outRe[own] = 1;
      return;
    }
    const { chimneys, radiationRe, radiationIm } = point;
    const at = i * TWO_PORT;
    const cr = chimneys[at + 4] as number;
    const ci = chimneys[at + 5] as number;
    for (let c = 0; c < open; c++) {
      const j = row + (columns[c] as number);
      const zr = radiationRe[j] as number;
      const zi = radiationIm[j] as number;
      outRe[j] = cr * zr - ci * zi;
      outIm[j] = cr * zi + ci * zr;
    }
    const added = point.k * (states.added[i] as number);
    outRe[own] = (outRe[own] as number) - ci * added + (chimneys[at + 6] as number);
    outIm[own] = (outIm[own] as number) + cr * added + (chimneys[at + 7] as number);
  }

  /** Pressure at the node = pressure the port makes of the outer flows; at the mouth the jet's unit pressure comes on top. */
  private setRow(point: FrequencyPoint, states: PortStates, i: number): void {
    const { m, re, im, pRe, pIm, columns, open } = this;
    const row = i * m;
    re.set(pRe, row);
    im.set(pIm, row);
    const own = row + i;
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
    for (let c = 0; c < open; c++) {
      const j = row + (columns[c] as number);
      const zr = radiationRe[j] as number;
      const zi = radiationIm[j] as number;
      re[j] = (re[j] as number) - ar * zr + ai * zi;
      im[j] = (im[j] as number) - ar * zi - ai * zr;
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
    const { inside, area, ports } = this.geometry;
    for (let n = 0; n < inside.length; n++) {
      const { i, j, coupling } = inside[n] as { i: number; j: number; coupling: number };
      const x = k * area * coupling;
      const isSlight = Math.abs(coupling) * (ports[i] as Port).boreRadius < SLIGHT;
      this.couple(states, i, j, x, isSlight);
      if (i !== j) this.couple(states, j, i, x, isSlight);
    }
  }

  /** The outflow of a hole induces an axial flow at another near it (docs/coupled-model.md §3). */
  private turnFlows(states: PortStates): void {
    const { induced } = this.geometry;
    if (induced.length === 0) return;
    const { m, outRe, outIm, alongRe, alongIm, columns, open } = this;
    alongRe.fill(0);
    alongIm.fill(0);
    for (let n = 0; n < induced.length; n++) {
      const { i, j, share } = induced[n] as { i: number; j: number; share: number };
      const [to, from] = [i * m, j * m];
      if (!states.open[j] || Math.abs(share) < SLIGHT_TURN) {
        alongRe[to + j] = (alongRe[to + j] as number) + share * (outRe[from + j] as number);
        alongIm[to + j] = (alongIm[to + j] as number) + share * (outIm[from + j] as number);
        continue;
      }
      for (let c = 0; c < open; c++) {
        const u = columns[c] as number;
        alongRe[to + u] = (alongRe[to + u] as number) + share * (outRe[from + u] as number);
        alongIm[to + u] = (alongIm[to + u] as number) + share * (outIm[from + u] as number);
      }
    }
  }

  /** And by reciprocity the flow along the bore at the one is heard at the other. */
  private turnedCoupling(point: FrequencyPoint, states: PortStates): void {
    const { m, re, im, alongRe, alongIm } = this;
    const { induced } = this.geometry;
    for (let n = 0; n < induced.length; n++) {
      const { i, j, share } = induced[n] as { i: number; j: number; share: number };
      const x = 2 * point.k * (states.halfSeries[i] as number) * share;
      addTurned(m, re, im, j * m, alongRe, alongIm, i * m, x);
    }
  }

  /** A flow out of the bore at `from` makes `x` times its pressure, a quarter of a period ahead, in the row of another. */
  private couple(states: PortStates, row: number, from: number, x: number, isSlight: boolean): void {
    const { m, re, im, outRe, outIm } = this;
    // What flows into a closed chimney is an unknown itself.
    if (isSlight || !states.open[from]) {
      const [at, own] = [row * m + from, from * m + from];
      re[at] = (re[at] as number) + x * (outIm[own] as number);
      im[at] = (im[at] as number) - x * (outRe[own] as number);
    } else addTurned(m, re, im, row * m, outRe, outIm, from * m, x);
  }
}

/** row of the matrix += −jx · row of flows, each by the `m` unknowns. */
function addTurned(
  m: number,
  re: Float64Array,
  im: Float64Array,
  row: number,
  flowRe: Float64Array,
  flowIm: Float64Array,
  from: number,
  x: number,
): void {
  for (let u = 0; u < m; u++) {
    re[row + u] = (re[row + u] as number) + x * (flowIm[from + u] as number);
    im[row + u] = (im[row + u] as number) - x * (flowRe[from + u] as number);
  }
}

function transposed(n: number, matrix: Float64Array): Float64Array {
  const turned = new Float64Array(n * n);
  for (let i = 0; i < n; i++) for (let j = 0; j < n; j++) turned[j * n + i] = matrix[i * n + j] as number;
  return turned;
}
