/** The deviations' axis. */
import type { Row } from "../../../server/src/protocol/boreView.js";

/** Cents to either side, of which the smallest is taken that holds all marks and the tolerance. */
const HALF_RANGES = [15, 20, 30, 40, 60, 80, 120];

export function halfRange(rows: readonly Row[], tolerance: number): number {
  const far = Math.max(tolerance * 1.2, ...rows.map(({ cents }) => Math.abs(cents ?? 0)));
  return HALF_RANGES.find((range) => range >= far) ?? (HALF_RANGES.at(-1) as number);
}

/** Where a deviation stands between two ends; beyond the range at its end. */
export function place(cents: number, range: number, from: number, to: number): number {
  const share = Math.max(-1, Math.min(1, cents / range));
  return (from + to) / 2 + (share * (to - from)) / 2;
}
