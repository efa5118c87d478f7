import { frustumMatrix } from "./bore.js";
import { type Changes, changesBetween } from "./changes.js";
import { sideResistance } from "./hole.js";
import { WAVE_CONSTANTS, type WaveCache, waveConstants } from "./losses.js";
import type { NetworkGeometry, Piece } from "./networkGeometry.js";
import type { Port } from "./ports.js";
import { bluntEnd, endImpedance } from "./radiation.js";
import { identity, multiplyRight, seriesReactance, TWO_PORT } from "./twoPort.js";
import { pointWork, worked } from "./work.js";

/** One matrix in the making. Every point's: nothing is left in it from one to the next. */
const scratch = new Float64Array(TWO_PORT);

/**
 * Everything about a column at one frequency that does not depend on the fingers; every fingering is put together from it. Impedances over
 * ρc/`geometry.area`, flat arrays numbered as `geometry.ports`.
 */
export class FrequencyPoint {
  /** ω/c, 1/m. */
  k = 0;
  /** Two-port of the bore that ends at each port; the mouth's is the cavity upstream of it. */
  readonly sections: Float64Array;
  /** Two-port from the bore to the opening's outer face. */
  readonly chimneys: Float64Array;
  /** Impedance of each chimney closed flush outside. */
  readonly closed: Float64Array;
  /** Radiation impedances: on the diagonal an opening's own, elsewhere that of two with each other. */
  readonly radiationRe: Float64Array;
  readonly radiationIm: Float64Array;
  /** All of these, one behind the other. */
  private readonly numbers: Float64Array;
  private waves: Float64Array;
  private laidOut: NetworkGeometry;
  private readonly changes: Changes | undefined;

  /**
   * @param cache shared among columns that are asked at the same frequencies
   * @param base a column that differs in little: where it stands at the frequency asked for, only the difference is worked out
   */
  constructor(
    geometry: NetworkGeometry,
    private readonly cache?: WaveCache,
    private readonly base?: FrequencyPoint,
  ) {
    this.laidOut = geometry;
    this.changes = base && changesBetween(base.geometry, geometry);
    const m = geometry.ports.length;
    // In one piece of memory: five small ones cost more than what is put into them.
    const all = new Float64Array(2 * m * TWO_PORT + 2 * m + 2 * m * m);
    let taken = 0;
    const next = (length: number) => {
      taken += length;
      return all.subarray(taken - length, taken);
    };
    this.sections = next(m * TWO_PORT);
    this.chimneys = next(m * TWO_PORT);
    this.closed = next(2 * m);
    this.radiationRe = next(m * m);
    this.radiationIm = next(m * m);
    this.numbers = all;
    this.waves = new Float64Array(geometry.lossRadii.length * WAVE_CONSTANTS);
  }

  /** Of the column that it stands for. */
  get geometry(): NetworkGeometry {
    return this.laidOut;
  }

  /** How many numbers it holds. */
  get size(): number {
    return this.numbers.length + this.waves.length;
  }

  /**
   * Changes to another column with as many ports, at frequency `k`.
   * @param changes how that column differs from the present one; undefined where the two share nothing
   */
  reuseFor(geometry: NetworkGeometry, k: number, changes: Changes | undefined): void {
    this.laidOut = geometry;
    const waves = geometry.lossRadii.length * WAVE_CONSTANTS;
    if (this.waves.length < waves) this.waves = new Float64Array(waves);
    if (this.k === k && changes) {
      // As if nothing had been known: work counts the same whatever was asked before.
      worked(pointWork(geometry));
      this.setChanges(changes);
    } else {
      this.numbers.fill(0);
      this.k = k;
      this.setAll();
    }
  }

  /** Moves to another frequency. @param k ω/c, 1/m, above 0 */
  set(k: number): this {
    if (k === this.k) return this;
    this.k = k;
    if (this.base?.k === k && this.changes) this.setChanged(this.base, this.changes);
    else this.setAll();
    return this;
  }

  private setAll(): void {
    worked(pointWork(this.geometry));
    const { lossRadii, sections, cavity, ports, outside } = this.geometry;
    for (let i = 0; i < lossRadii.length; i++) this.setWave(i);
    for (let i = 0; i < sections.length; i++) this.setSection(sections[i] as readonly Piece[], i * TWO_PORT);
    this.setSection(cavity, (ports.length - 1) * TWO_PORT);
    for (let i = 0; i < ports.length; i++) this.setPort(i);
    for (let n = 0; n < outside.length; n++) this.setOutside(n);
  }

  private setChanged(base: FrequencyPoint, changes: Changes): void {
    this.numbers.set(base.numbers);
    this.setChanges(changes);
  }

  private setChanges(changes: Changes): void {
    const { sections, cavity, ports } = this.geometry;
    for (const i of changes.waves) this.setWave(i);
    for (const i of changes.sections) this.setSection(sections[i] as readonly Piece[], i * TWO_PORT);
    if (changes.cavity) this.setSection(cavity, (ports.length - 1) * TWO_PORT);
    for (const i of changes.ports) this.setPort(i);
    for (const n of changes.outside) this.setOutside(n);
  }

  private setWave(i: number): void {
    const { waves, cache, k } = this;
    const { air, lossRadii } = this.geometry;
    const radius = lossRadii[i] as number;
    if (cache) cache.constants(air, radius, k, waves, i * WAVE_CONSTANTS);
    else waveConstants(air, radius, k, waves, i * WAVE_CONSTANTS);
  }

  private setOutside(n: number): void {
    const { k } = this;
    const { outside, area, ports } = this.geometry;
    const m = ports.length;
    const { i, j, distance } = outside[n] as { i: number; j: number; distance: number };
    const size = (k * area) / (4 * Math.PI * distance);
    this.radiationRe[i * m + j] = this.radiationRe[j * m + i] = size * Math.sin(k * distance);
    this.radiationIm[i * m + j] = this.radiationIm[j * m + i] = size * Math.cos(k * distance);
  }

  private setSection(pieces: readonly Piece[], at: number): void {
    const { sections, waves, geometry } = this;
    const first = pieces[0];
    if (first === undefined) {
      identity(sections, at);
      return;
    }
    let from = 1;
    if (first.step === 0) {
      frustumMatrix(first, geometry.area, waves, first.wave * WAVE_CONSTANTS, sections, at);
    } else {
      identity(sections, at);
      from = 0;
    }
    for (let i = from; i < pieces.length; i++) {
      const piece = pieces[i] as Piece;
      if (piece.step !== 0) seriesReactance(sections, at, this.k * piece.step * geometry.area);
      frustumMatrix(piece, geometry.area, waves, piece.wave * WAVE_CONSTANTS, scratch);
      multiplyRight(sections, at, scratch, 0);
    }
  }

  private setPort(i: number): void {
    const { k, geometry, chimneys } = this;
    const { ports, area } = geometry;
    const port = ports[i] as Port;
    const at = i * TWO_PORT;
    const own = i * ports.length + i;
    const scale = area / port.area;
    identity(chimneys, at);
    const { chimney, place } = port;
    if (!place) return;
    if (!chimney) {
      const end = endImpedance(bluntEnd(port.boreRadius, place.outerRadius, k), k);
      this.radiationRe[own] = end.re * scale;
      this.radiationIm[own] = (end.im + k * port.added) * scale;
      return;
    }
    const inner = chimney.inner + chimney.innerGrowth * (k * port.boreRadius) ** 2;
    seriesReactance(chimneys, at, (k * inner * area) / chimney.innerArea);
    const wave = (geometry.chimneyWave[i] as number) * WAVE_CONSTANTS;
    frustumMatrix(chimney, area, this.waves, wave, scratch);
    multiplyRight(chimneys, at, scratch, 0);
    const outer = chimney.outer + chimney.outerGrowth * k * k;
    this.radiationRe[own] = sideResistance(port.area, place.outerRadius, k) * scale;
    this.radiationIm[own] = (Math.tan(k * outer) + k * port.added) * scale;
    this.setClosed(i);
  }

  /** A / C of the line alone, which `scratch` holds: its impedance with a rigid plug at the outer end. */
  private setClosed(i: number): void {
    const { closed } = this;
    const [ar, ai, cr, ci] = [scratch[0] as number, scratch[1] as number, scratch[4] as number, scratch[5] as number];
    const norm = cr * cr + ci * ci;
    closed[2 * i] = (ar * cr + ai * ci) / norm;
    closed[2 * i + 1] = (ai * cr - ar * ci) / norm;
  }
}
