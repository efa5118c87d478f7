import type { AirState } from "./airState.js";
import type { Column, Cover } from "./column.js";
import { FrequencyPoint } from "./frequencyPoint.js";
import { Grid } from "./grid.js";
import { IteratedNetwork } from "./iteratedNetwork.js";
import type { WaveCache } from "./losses.js";
import { type Linearised, Network } from "./network.js";
import { layOut, type NetworkGeometry } from "./networkGeometry.js";
import { type PortStates, portStates } from "./portStates.js";
import { Residual } from "./residual.js";
import { eliminationWork, layingOutWork, pointWork, roundWork, settingWork, worked } from "./work.js";

/** A column with at least this many ports is solved by iteration, which is then faster than elimination. */
const MANY_PORTS = 30;
/** Tolerance of the iteration for single samples: small enough for slopes from two of them side by side… */
const FINE = 1e-12;
/**
 * …and for a scan's, where nothing depends on less than a thousandth. Zeros are found between them by single samples, and lie where they
 * would to 1e-8 cents.
 */
const COARSE = 1e-7;

/** Impedance against the jet at one wave number, over ρc/S of the bore at the mouth. */
export interface Sample {
  /** ω/c, 1/m. */
  readonly k: number;
  readonly resistance: number;
  readonly reactance: number;
}

/** A column ready to be asked: the frequencies of the common scan are worked out once and serve all fingerings. */
export class Response {
  readonly geometry: NetworkGeometry;
  private solver: Network | undefined;
  private iterated: IteratedNetwork | undefined;
  private point: FrequencyPoint | undefined;
  private readonly out = new Float64Array(2);
  private residual: Residual | undefined;
  private readonly known = new WeakMap<readonly Cover[], PortStates>();
  /** Work of one frequency, microseconds. */
  readonly pointWork: number;
  /** Done so far but for the grid, which fingerings have in common, microseconds. */
  work = 0;
  /** The farthest index on the grid since it was last reset. */
  reach = 0;

  /**
   * Throws a RangeError with a plain reason where the numbers make no instrument.
   * @param cache shared among columns that are asked at the same frequencies
   * @param base asked before at every frequency this one is: what the two columns share is then not worked out again
   * @param grid of another column before, which may be asked again
   */
  constructor(
    column: Column,
    air: AirState,
    private readonly cache?: WaveCache,
    private readonly base?: Response,
    private readonly grid = new Grid(),
  ) {
    this.geometry = layOut(column, air, base?.geometry ?? grid.latest);
    this.pointWork = pointWork(this.geometry);
    worked(layingOutWork(this.geometry));
  }

  /** The frequency asked about last that is not on the grid. */
  private get single(): FrequencyPoint {
    this.point ??= new FrequencyPoint(this.geometry, this.cache, this.base?.single);
    return this.point;
  }

  /** How many numbers it holds where it is only compared with another. */
  get size(): number {
    return this.single.size;
  }

  /** Made with the first question: columns that are only compared with another one need no matrix. */
  private get network(): Network {
    this.solver ??= new Network(this.geometry);
    return this.solver;
  }

  private get rounds(): IteratedNetwork {
    this.iterated ??= new IteratedNetwork(this.geometry);
    return this.iterated;
  }

  /** @param covers worked out once for the same list, which queries of one fingering may share */
  states(covers: readonly Cover[]): PortStates {
    let states = this.known.get(covers);
    if (states === undefined) {
      states = portStates(this.geometry, covers);
      this.known.set(covers, states);
    }
    return states;
  }

  at(k: number, states: PortStates): Sample {
    this.work += this.pointWork;
    return this.sample(this.single.set(k), states, FINE);
  }

  /** Solves the column's equations and their transpose at one wave number, into `out`. */
  linearise(k: number, states: PortStates, out: Linearised): void {
    worked(2 * eliminationWork(states));
    this.network.linearise(this.single.set(k), states, out);
  }

  /** Residual of this column's equations at `k` with the unknowns of another with the same ports, by row. */
  residualOf(k: number, states: PortStates, { xRe, xIm }: Linearised): Residual {
    worked(roundWork(states));
    this.residual ??= new Residual(this.geometry);
    this.residual.of(this.single.set(k), states, xRe, xIm);
    return this.residual;
  }

  /** The same at the nth frequency, `k`, of a grid common to all fingerings. */
  onGrid(n: number, k: number, states: PortStates): Sample {
    if (n > this.reach) this.reach = n;
    return this.sample(this.grid.at(n, k, this.geometry), states, COARSE);
  }

  private sample(point: FrequencyPoint, states: PortStates, tolerance: number): Sample {
    const { geometry, out } = this;
    const isMany = geometry.ports.length >= MANY_PORTS;
    const rounds = isMany ? this.rounds.impedance(point, states, tolerance, out) : undefined;
    if (rounds === undefined) this.network.impedance(point, states, out);
    const work = rounds === undefined ? eliminationWork(states) : settingWork(states) + rounds * roundWork(states);
    this.work += work;
    worked(work);
    return { k: point.k, resistance: out[0] as number, reactance: out[1] as number };
  }
}
