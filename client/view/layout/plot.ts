/** The deviations' axis. */
import type { Row } from "../../../server/src/protocol/boreView.js";

/** Cents to either side; the smallest is used that holds all marks and the tolerance. */
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

/** px between numbers over the plot, less than which the middle one, and then all, would touch. */
const MIDDLE_ROOM = 24;
const ROOM = 36;

/**
 * Numbers over the plot, and which side of its line each stands on. Where the zone of tolerance is narrow they stand outside it, and 0 goes without one.
 * @param at place of a deviation, px
 */
export function scaleMarks(
  tolerance: number,
  at: (cents: number) => number,
): readonly { readonly cents: number; readonly side: "end" | "middle" | "start" }[] {
  const half = at(tolerance) - at(0);
  const isNarrow = 2 * half < ROOM;
  return [
    { cents: -tolerance, side: isNarrow ? "end" : "middle" },
    ...(half < MIDDLE_ROOM ? [] : [{ cents: 0, side: "middle" as const }]),
    { cents: tolerance, side: isNarrow ? "start" : "middle" },
  ];
}
