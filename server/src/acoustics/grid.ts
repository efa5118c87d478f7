/** Frequencies common to all fingerings, and from one column to the next: what two columns share is not worked out again. */
import { type Changes, changesBetween } from "./changes.js";
import { FrequencyPoint } from "./frequencyPoint.js";
import type { Skeleton } from "./skeleton.js";

/**
 * More numbers than this are not kept for another column: 4 MiB. A flute of ten holes and its two registers take a tenth of it.
 */
const MOST_NUMBERS = 2 ** 19;

/**
 * May outlive the column it was first asked for. Every point knows whose it is and is brought up to date when asked for, so that
 * columns may take turns, and one may be left in the middle.
 */
export class Grid {
  private readonly points: FrequencyPoint[] = [];
  private skeleton: Skeleton | undefined;
  private readonly changes = new Map<Skeleton, Changes | undefined>();

  /** The column it was asked for last. */
  get latest(): Skeleton | undefined {
    return this.skeleton;
  }

  /** The nth frequency, ω/c = `k`, of the column laid out so. */
  at(n: number, k: number, skeleton: Skeleton): FrequencyPoint {
    if (this.skeleton !== skeleton) {
      this.skeleton = skeleton;
      this.changes.clear();
    }
    const present = this.points[n];
    if (present?.skeleton === skeleton && present.k === k) return present;
    if (present === undefined || present.skeleton.ports.length !== skeleton.ports.length) {
      const made = new FrequencyPoint(skeleton).set(k);
      this.points[n] = made;
      return made;
    }
    present.become(skeleton, k, this.changesFrom(present.skeleton, skeleton));
    return present;
  }

  /** Forgets what is too much to keep. */
  trim(): void {
    const size = this.points.reduce((sum, point) => sum + point.size, 0);
    if (size > MOST_NUMBERS) this.points.length = 0;
  }

  private changesFrom(before: Skeleton, after: Skeleton): Changes | undefined {
    if (!this.changes.has(before)) this.changes.set(before, changesBetween(before, after));
    return this.changes.get(before);
  }
}
