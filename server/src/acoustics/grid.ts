/** Frequencies common to all fingerings, and kept from one column to the next: what two columns share is not worked out again. */
import { type Changes, changesBetween } from "./changes.js";
import { FrequencyPoint } from "./frequencyPoint.js";
import type { NetworkGeometry } from "./networkGeometry.js";

/**
 * No more numbers than this are kept for another column: 4 MiB. A flute of ten holes and its two registers take a tenth of it.
 */
const MOST_NUMBERS = 2 ** 19;

/**
 * May outlive the column it was first asked for. Every point knows whose it is and is brought up to date when asked for, so that
 * columns may take turns, and one may be left in the middle.
 */
export class Grid {
  private readonly points: FrequencyPoint[] = [];
  private geometry: NetworkGeometry | undefined;
  private readonly changes = new Map<NetworkGeometry, Changes | undefined>();

  /** The column it was asked for last. */
  get latest(): NetworkGeometry | undefined {
    return this.geometry;
  }

  /** The nth frequency, ω/c = `k`, of the column laid out so. */
  at(n: number, k: number, geometry: NetworkGeometry): FrequencyPoint {
    if (this.geometry !== geometry) {
      this.geometry = geometry;
      this.changes.clear();
    }
    const present = this.points[n];
    if (present?.geometry === geometry && present.k === k) return present;
    if (present === undefined || present.geometry.ports.length !== geometry.ports.length) {
      const made = new FrequencyPoint(geometry).set(k);
      this.points[n] = made;
      return made;
    }
    present.reuseFor(geometry, k, this.changesFrom(present.geometry, geometry));
    return present;
  }

  /** Drops what is too much to keep. */
  trim(): void {
    const size = this.points.reduce((sum, point) => sum + point.size, 0);
    if (size > MOST_NUMBERS) this.points.length = 0;
  }

  private changesFrom(before: NetworkGeometry, after: NetworkGeometry): Changes | undefined {
    if (!this.changes.has(before)) this.changes.set(before, changesBetween(before, after));
    return this.changes.get(before);
  }
}
