import type { FrequencyPoint } from "./frequencyPoint.js";
import type { PortStates } from "./portStates.js";
import { TWO_PORT } from "./twoPort.js";

/** Numbers kept for a node: four, each as (real, imaginary). */
const NODE = 8;
/**
 * This many open ports to either side of one are assumed to move as it does, and its coupling with them counts as its own radiation: among many
 * holes a tenth fewer iterations than with none (`IteratedNetwork`), and as few with 100 as with 50.
 */
const ALIKE = 2;

/**
 * A column whose openings are not coupled: its bore as a ladder network, one impedance across it at each port. Its equations are
 * those of `Residual` without the couplings, rows and unknowns numbered alike. They are solved in one walk from the foot upstream and one
 * back, so that a solution costs as much as there are openings, not as their square.
 *
 * On the way upstream all of the bore depends on one unknown, at first the foot's. Each node has a second, its port's own, and one equation:
 * it is solved for the one that counts more in it, and the other goes on. So nothing grows from hole to hole, as a wave that does not pass
 * a row of open holes would if it were followed from its far end.
 */
export class Ladder {
  private readonly m: number;
  /**
   * By node: pressure by the bore's unknown, pressure by the port's own, one over the larger of the two, and the flow in the bore beyond
   * the port for each unit by which the pressures fail to meet.
   */
  private readonly nodes: Float64Array;
  /** 1 where a node's equation is solved for the bore's unknown. */
  private readonly forBore: Uint8Array;
  /** Two-port from each node, its branch's flow joined, to the next one upstream. */
  private readonly steps: Float64Array;
  /** Coefficients of the last equation (no air passes the upstream end): of pressure and flow at the mouth, and one over that of the last unknown. */
  private readonly end = new Float64Array(6);
  /** By how much the pressures at each node fail to meet, before its equation is solved. */
  private readonly failRe: Float64Array;
  private readonly failIm: Float64Array;
  /** Radiation impedance of each open port. */
  private readonly radiationRe: Float64Array;
  private readonly radiationIm: Float64Array;
  /** Flow out of the bore by the own unknown of the port last set. */
  private branchRe = 0;
  private branchIm = 0;

  /** @param ports how many there are */
  constructor(ports: number) {
    this.m = ports;
    this.nodes = new Float64Array(ports * NODE);
    this.forBore = new Uint8Array(ports);
    this.steps = new Float64Array(ports * TWO_PORT);
    this.failRe = new Float64Array(ports);
    this.failIm = new Float64Array(ports);
    this.radiationRe = new Float64Array(ports);
    this.radiationIm = new Float64Array(ports);
  }

  /** Moves to a frequency and a fingering. */
  set(point: FrequencyPoint, states: PortStates): void {
    const { m, nodes, forBore, steps, end } = this;
    const mouth = m - 1;
    const foot = m - 2;
    this.setRadiation(point, states);
    // Pressure and flow by the bore's unknown: the foot's flow, or where it is stopped its pressure.
    const isOpen = states.open[foot] === 1;
    let pr = isOpen ? (this.radiationRe[foot] as number) : 1;
    let pi = isOpen ? (this.radiationIm[foot] as number) : 0;
    let ur = isOpen ? 1 : 0;
    let ui = 0;
    for (let node = foot; node !== mouth; ) {
      const downstream = node;
      node = downstream > 0 ? downstream - 1 : mouth;
      this.setStep(point, states, downstream, node);
      const at = downstream * TWO_PORT;
      const nr = realOf(steps, at, pr, pi, ur, ui);
      const ni = imaginaryOf(steps, at, pr, pi, ur, ui);
      const vr = realOf(steps, at + 4, pr, pi, ur, ui);
      const vi = imaginaryOf(steps, at + 4, pr, pi, ur, ui);
      this.setPort(point, states, node);
      const { branchRe: yr, branchIm: yi } = this;
      const n = node * NODE;
      const zr = nodes[n + 2] as number;
      const zi = nodes[n + 3] as number;
      const boreSize = nr * nr + ni * ni;
      const portSize = zr * zr + zi * zi;
      const isForBore = boreSize >= portSize;
      const size = isForBore ? boreSize : portSize;
      const ir = (isForBore ? nr : zr) / size;
      const ii = -(isForBore ? ni : zi) / size;
      // The bore's flow by the pressure of its unknown, or the port's by that of its own.
      const fr = isForBore ? vr * ir - vi * ii : yr * ir - yi * ii;
      const fi = isForBore ? vr * ii + vi * ir : yr * ii + yi * ir;
      const [qr, qi] = isForBore ? [zr, zi] : [nr, ni];
      ur = fr * qr - fi * qi + (isForBore ? yr : vr);
      ui = fr * qi + fi * qr + (isForBore ? yi : vi);
      pr = qr;
      pi = qi;
      nodes[n] = nr;
      nodes[n + 1] = ni;
      nodes[n + 4] = ir;
      nodes[n + 5] = ii;
      nodes[n + 6] = isForBore ? fr : -fr;
      nodes[n + 7] = isForBore ? fi : -fi;
      forBore[node] = isForBore ? 1 : 0;
    }
    this.setEnd(point, states);
    const gr = realOf(end, 0, pr, pi, ur, ui);
    const gi = imaginaryOf(end, 0, pr, pi, ur, ui);
    const size = gr * gr + gi * gi;
    end[4] = gr / size;
    end[5] = -gi / size;
  }

  private setRadiation({ radiationRe, radiationIm, k }: FrequencyPoint, { openings, added }: PortStates): void {
    const { m } = this;
    const last = openings.length - 1;
    for (let n = 0; n <= last; n++) {
      const i = openings[n] as number;
      let re = 0;
      let im = k * (added[i] as number);
      const end = Math.min(last, n + ALIKE);
      for (let other = Math.max(0, n - ALIKE); other <= end; other++) {
        const at = i * m + (openings[other] as number);
        re += radiationRe[at] as number;
        im += radiationIm[at] as number;
      }
      this.radiationRe[i] = re;
      this.radiationIm[i] = im;
    }
  }

  /** Half series, bore, half series. */
  private setStep(point: FrequencyPoint, states: PortStates, downstream: number, node: number): void {
    const { steps } = this;
    const { sections, k } = point;
    const at = downstream * TWO_PORT;
    const x1 = k * (states.halfSeries[node] as number);
    const x2 = k * (states.halfSeries[downstream] as number);
    for (let part = 0; part < 4; part += 2) {
      const cr = sections[at + 4 + part] as number;
      const ci = sections[at + 5 + part] as number;
      steps[at + part] = (sections[at + part] as number) - x1 * ci;
      steps[at + part + 1] = (sections[at + part + 1] as number) + x1 * cr;
      steps[at + 4 + part] = cr;
      steps[at + 5 + part] = ci;
    }
    for (let row = at; row < at + TWO_PORT; row += 4) {
      steps[row + 2] = (steps[row + 2] as number) - x2 * (steps[row + 1] as number);
      steps[row + 3] = (steps[row + 3] as number) + x2 * (steps[row] as number);
    }
  }

  private setEnd(point: FrequencyPoint, states: PortStates): void {
    const { m, end } = this;
    const { sections, k } = point;
    const at = (m - 1) * TWO_PORT + 4;
    const x = k * (states.halfSeries[m - 1] as number);
    end[0] = sections[at] as number;
    end[1] = sections[at + 1] as number;
    end[2] = (sections[at + 2] as number) - x * (end[1] as number);
    end[3] = (sections[at + 3] as number) + x * (end[0] as number);
  }

  /** Pressure at the node and flow out of the bore by the port's own unknown. */
  private setPort(point: FrequencyPoint, states: PortStates, i: number): void {
    const { m, nodes } = this;
    const z = i * NODE + 2;
    this.branchRe = 1;
    this.branchIm = 0;
    if (!states.open[i]) {
      // A mouth that is a bare node has no impedance.
      nodes[z] = i === m - 1 ? 0 : (point.closed[2 * i] as number);
      nodes[z + 1] = i === m - 1 ? 0 : (point.closed[2 * i + 1] as number);
      return;
    }
    const { chimneys } = point;
    const at = i * TWO_PORT;
    const rr = this.radiationRe[i] as number;
    const ri = this.radiationIm[i] as number;
    nodes[z] = realOf(chimneys, at, rr, ri, 1, 0);
    nodes[z + 1] = imaginaryOf(chimneys, at, rr, ri, 1, 0);
    this.branchRe = realOf(chimneys, at + 4, rr, ri, 1, 0);
    this.branchIm = imaginaryOf(chimneys, at + 4, rr, ri, 1, 0);
  }

  /** Solves for the unknowns from the right-hand side, by row. */
  solve(re: Float64Array, im: Float64Array): void {
    const { m, nodes, forBore, steps, end, failRe, failIm } = this;
    const mouth = m - 1;
    const foot = m - 2;
    // What of pressure and flow does not depend on the bore's unknown.
    let pr = 0;
    let pi = 0;
    let ur = 0;
    let ui = 0;
    for (let node = foot; node !== mouth; ) {
      const at = node * TWO_PORT;
      node = node > 0 ? node - 1 : mouth;
      const n = node * NODE;
      const nr = realOf(steps, at, pr, pi, ur, ui);
      const ni = imaginaryOf(steps, at, pr, pi, ur, ui);
      const vr = realOf(steps, at + 4, pr, pi, ur, ui);
      const vi = imaginaryOf(steps, at + 4, pr, pi, ur, ui);
      const rr = re[node] as number;
      const ri = im[node] as number;
      const dr = rr - nr;
      const di = ri - ni;
      failRe[node] = dr;
      failIm[node] = di;
      const fr = nodes[n + 6] as number;
      const fi = nodes[n + 7] as number;
      ur = vr + fr * dr - fi * di;
      ui = vi + fr * di + fi * dr;
      pr = forBore[node] ? rr : nr;
      pi = forBore[node] ? ri : ni;
    }
    const lr = (re[foot] as number) - realOf(end, 0, pr, pi, ur, ui);
    const li = (im[foot] as number) - imaginaryOf(end, 0, pr, pi, ur, ui);
    let xr = lr * (end[4] as number) - li * (end[5] as number);
    let xi = lr * (end[5] as number) + li * (end[4] as number);
    for (let node = mouth; node !== foot; node = node === mouth ? 0 : node + 1) {
      const n = node * NODE;
      const isForBore = forBore[node] === 1;
      const from = isForBore ? n + 2 : n;
      const zr = nodes[from] as number;
      const zi = nodes[from + 1] as number;
      const ir = nodes[n + 4] as number;
      const ii = nodes[n + 5] as number;
      const sign = isForBore ? 1 : -1;
      const sr = zr * xr - zi * xi + sign * (failRe[node] as number);
      const si = zr * xi + zi * xr + sign * (failIm[node] as number);
      const yr = sr * ir - si * ii;
      const yi = sr * ii + si * ir;
      re[node] = isForBore ? xr : yr;
      im[node] = isForBore ? xi : yi;
      if (isForBore) {
        xr = yr;
        xi = yi;
      }
    }
    re[foot] = xr;
    im[foot] = xi;
  }
}

/** Of two complex numbers at `at`, the first times p plus the second times u. */
function realOf(numbers: Float64Array, at: number, pr: number, pi: number, ur: number, ui: number): number {
  return (
    (numbers[at] as number) * pr -
    (numbers[at + 1] as number) * pi +
    (numbers[at + 2] as number) * ur -
    (numbers[at + 3] as number) * ui
  );
}

function imaginaryOf(numbers: Float64Array, at: number, pr: number, pi: number, ur: number, ui: number): number {
  return (
    (numbers[at] as number) * pi +
    (numbers[at + 1] as number) * pr +
    (numbers[at + 2] as number) * ui +
    (numbers[at + 3] as number) * ur
  );
}
