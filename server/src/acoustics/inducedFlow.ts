/** Axial flow that the outflow of a hole induces at others near it (docs/coupled-model.md §3): its part of a network's equations. */
import { CouplingList } from "./couplingList.js";
import type { FrequencyPoint } from "./frequencyPoint.js";
import type { NetworkGeometry } from "./networkGeometry.js";
import type { NetworkMemory } from "./networkMemory.js";
import type { PortStates } from "./portStates.js";
import { addRows } from "./rows.js";

/**
 * What flows out of an open hole counts at another by its own unknown only where less than this share of it is induced there. It leaves
 * notes where they are within 0.0003 cent.
 */
const SLIGHT = 0.1;

/** Dimensionless, over `geometry.area`, as the equations are; `open` and `end` bound the places of open ports in a row. */
export class InducedFlow {
  private readonly list: CouplingList;

  constructor(
    { induced, ports }: NetworkGeometry,
    private readonly memory: NetworkMemory,
  ) {
    const pairs = induced.map(({ i, j, share }) => ({ i, j, coupling: share }));
    this.list = new CouplingList(ports.length, pairs, false, ({ coupling }) => Math.abs(coupling) < SLIGHT);
  }

  get isAny(): boolean {
    return this.list.count > 0;
  }

  /** Lowers the first place of what the flow along each hole depends on by what near holes upstream induce there. */
  reach(): void {
    const { starts, from } = this.list;
    const { ports, firstAlong } = this.memory;
    for (let i = 0; i < ports; i++)
      for (let n = starts[i] as number; n < (starts[i + 1] as number); n++)
        firstAlong[i] = Math.min(firstAlong[i] as number, firstAlong[from[n] as number] as number);
  }

  /** Writes the induced flow along each hole, by the unknowns. */
  induce(states: PortStates, open: number, end: number): void {
    if (!this.isAny) return;
    const { starts, from, coupling, slight } = this.list;
    const { ports, outRe, outIm, alongRe, alongIm, placeOf, sources, factors } = this.memory;
    alongRe.fill(0);
    alongIm.fill(0);
    for (let i = 0; i < ports; i++) {
      const row = i * ports;
      let count = 0;
      for (let n = starts[i] as number; n < (starts[i + 1] as number); n++) {
        const j = from[n] as number;
        const share = coupling[n] as number;
        if (states.open[j] && slight[n] === 0) {
          sources[count] = j * ports;
          factors[count++] = share;
          continue;
        }
        const place = placeOf[j] as number;
        alongRe[row + place] = (alongRe[row + place] as number) + share * (outRe[j * ports + place] as number);
        alongIm[row + place] = (alongIm[row + place] as number) + share * (outIm[j * ports + place] as number);
      }
      addRows(alongRe, row, open, end, outRe, sources, factors, count, 1);
      addRows(alongIm, row, open, end, outIm, sources, factors, count, 1);
    }
  }

  /**
   * Adds to the row of node `i` the pressure that the induced flow makes over the half of the series length below it. The port stands above
   * that half, while the bore goes on with both halves' share at once (`Network.step`): without this the system is not reciprocal.
   */
  addAtNode({ k }: FrequencyPoint, { halfSeries }: PortStates, i: number, end: number): void {
    if (this.list.starts[i] === this.list.starts[i + 1]) return;
    const { ports, re, im, alongRe, alongIm, firstAlong } = this.memory;
    const row = i * ports;
    const x = k * (halfSeries[i] as number);
    for (let n = row + (firstAlong[i] as number); n < row + end; n++) {
      re[n] = (re[n] as number) - x * (alongIm[n] as number);
      im[n] = (im[n] as number) + x * (alongRe[n] as number);
    }
  }

  /** Adds the reciprocal effect: the axial flow at one hole gives a pressure at the port of the other. Nearness is mutual. */
  addReciprocal({ k }: FrequencyPoint, { halfSeries }: PortStates, end: number): void {
    const { starts, from, coupling } = this.list;
    const { ports, re, im, alongRe, alongIm, firstAlong, sources, factors } = this.memory;
    for (let j = 0; j < ports; j++) {
      let count = 0;
      let first = end;
      for (let n = starts[j] as number; n < (starts[j + 1] as number); n++) {
        const i = from[n] as number;
        first = Math.min(first, firstAlong[i] as number);
        sources[count] = i * ports;
        // What j makes at i has the other sign of what i makes at j.
        factors[count++] = -2 * k * (halfSeries[i] as number) * (coupling[n] as number);
      }
      addRows(re, j * ports, first, end, alongIm, sources, factors, count, 1);
      addRows(im, j * ports, first, end, alongRe, sources, factors, count, -1);
    }
  }
}
