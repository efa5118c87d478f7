/**
 * How much is worked out, in microseconds of a processor that does the calibration loop of test/bench in 12 ms. Counted by what is solved,
 * never timed: the same work is cut short at the same place on every machine.
 */
import type { NetworkGeometry } from "./networkGeometry.js";
import type { Steps } from "./steps.js";

let total = 0;

/** Whether more than this many microseconds have been worked since now. For work without a pause, where no other work intervenes. */
export function spentAfter(microseconds: number): () => boolean {
  const begun = total;
  return () => total - begun > microseconds;
}

/** Counts work as done. */
export function worked(microseconds: number): void {
  total += microseconds;
}

/** Ports of a column, and those of them that are open. */
interface Ports {
  readonly open: Uint8Array;
  readonly openings: Int32Array;
}

/**
 * Microseconds of work: of solving for one fingering at one frequency by elimination, and of a scan's use of it; measured with 3 to 102 openings, of which
 * all, half or none were open.
 */
export function eliminationWork({ open, openings }: Ports): number {
  return solvingWork(open.length, openings.length);
}

/** Microseconds of work: of `eliminationWork`, by counts. */
export function solvingWork(openings: number, open: number): number {
  return 4 + 1e-3 * openings * (0.45 * openings ** 2 + open ** 2);
}

/** Microseconds of work: of one iteration of solving without elimination; measured in the same way with 26 to 102 openings, up to nineteen to a bore's width. */
export function roundWork({ open: { length }, openings }: Ports): number {
  return 0.08 * length + 0.7e-3 * length ** 2 + 2.2e-3 * openings.length ** 2;
}

/** Microseconds of work: of what goes before the iterations, and of a scan's use of them. */
export function settingWork({ open: { length } }: Ports): number {
  return 4 + 0.05 * length;
}

/** Microseconds of work: of what one frequency makes of a column, whatever the fingers do; measured with 3 to 102 openings and 2 to 1000 stations. */
export function pointWork({ lossRadii, sections, cavity, outside }: NetworkGeometry): number {
  const pieces = sections.reduce((sum, section) => sum + section.length, cavity.length);
  return 0.3 * (lossRadii.length + pieces) + 0.02 * outside.length;
}

/** Microseconds of work: of laying a column out that differs in little from another: what each two openings are to each other has most of it. */
export function layingOutWork({ ports }: NetworkGeometry): number {
  return 0.5 * ports.length ** 2;
}

/** Work that may be spent. */
export class Budget {
  /** @param left microseconds */
  constructor(private left: number) {}

  get isSpent(): boolean {
    return this.left < 0;
  }

  /** Whether so much more may be spent. */
  allows(work: number): boolean {
    return work <= this.left;
  }

  spend(work: number): void {
    this.left -= work;
  }

  /** Nothing more is to be spent, however little. */
  close(): void {
    this.left = Number.NEGATIVE_INFINITY;
  }
}

/** Does the steps as far as the budget reaches; undefined where it ends on the way. */
export function* within<T>(budget: Budget, steps: Steps<T>): Steps<T | undefined> {
  while (!budget.isSpent) {
    const before = total;
    const { done, value } = steps.next();
    // Other work may be done between two steps, and counts where it is done.
    budget.spend(total - before);
    if (done) return value;
    yield undefined;
  }
  return undefined;
}
