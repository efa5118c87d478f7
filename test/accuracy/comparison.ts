import { cents } from "../acoustics/instruments.js";

/** What the tests hold and docs/accuracy.md lists: one and the same comparison. */
export interface Comparison {
  readonly case: string;
  /** Our number and theirs, in the table's unit; absent where the difference is one of whole curves. */
  readonly ours?: number;
  readonly theirs?: number;
  readonly difference: number;
  /** The tests allow no difference larger than this. Absent: reported, not held. */
  readonly allowed?: number;
}

export interface ComparisonTable {
  readonly title: string;
  readonly source: string;
  /** What the source does not know, or this comparison does not show. */
  readonly unknown: string;
  readonly unit?: string;
  readonly decimals?: number;
  /** Unit of the differences. */
  readonly differenceUnit: string;
  readonly differenceDecimals: number;
  readonly rows: readonly Comparison[];
}

/** A row for the tests, which hold its difference. */
export const isHeld = (row: Comparison): row is Comparison & { allowed: number } => row.allowed !== undefined;

/** Two frequencies, their difference in cents. */
export const inCents = (name: string, ours: number, theirs: number, allowed?: number): Comparison => ({
  case: name,
  ours,
  theirs,
  difference: cents(ours, theirs),
  ...(allowed === undefined ? {} : { allowed }),
});

/** Two numbers, their difference in `scale` of the unit. */
export const apart = (name: string, ours: number, theirs: number, allowed: number, scale = 1): Comparison => ({
  case: name,
  ours,
  theirs,
  difference: (ours - theirs) * scale,
  allowed,
});

/** Two numbers, their difference as a share of theirs, in parts per million. */
export const inMillionths = (name: string, ours: number, theirs: number, allowed: number): Comparison => ({
  case: name,
  ours,
  theirs,
  difference: (ours / theirs - 1) * 1e6,
  allowed,
});

export const largest = (rows: readonly Comparison[]): number =>
  rows.reduce((worst, { difference }) => Math.max(worst, Math.abs(difference)), 0);
