/** Columns worked out by others, compared with ours resonance by resonance. */
import type { Column, Cover } from "../../server/src/acoustics/column.js";
import { registersOf } from "../../server/src/acoustics/resonance.js";
import { losslessAir } from "../acoustics/instruments.js";
import { type ComparisonTable, inCents } from "./comparison.js";

const MM = 1e-3;

/** A column of the finite elements, laid out as ours, and what they found for each of its fingerings. */
export interface ColumnCase {
  readonly name: string;
  readonly column: Column;
  readonly fingerings: readonly {
    /** As the file writes it; empty where there are no holes. */
    readonly holes: string;
    readonly covers: readonly Cover[];
    readonly hz: readonly number[];
    /** Registers that give out much of their energy: to be weighed less. */
    readonly weak?: readonly boolean[] | undefined;
  }[];
}

/** Cents allowed of a register, counted from 1. */
export type Allowance = (title: string, register: number, weak: boolean) => number;

/** One row for each register of each fingering. */
export function columnTable(
  cases: readonly ColumnCase[],
  allowed: Allowance,
  rest: Pick<ComparisonTable, "title" | "source" | "unknown">,
): ComparisonTable {
  const rows = cases.flatMap(({ name, column, fingerings }) =>
    fingerings.flatMap(({ holes, covers, hz, weak }) => {
      const found = registersOf(column, losslessAir, covers, hz.length);
      return hz.map((theirs, i) => {
        const isWeak = weak?.[i] ?? false;
        const title = `${name}${holes && ` ${holes}`}, register ${i + 1}${isWeak ? " (weak)" : ""}`;
        return inCents(title, found[i]?.frequency ?? Number.NaN, theirs, allowed(title, i + 1, isWeak));
      });
    }),
  );
  return { ...rest, unit: "Hz", decimals: 2, differenceUnit: "cents", differenceDecimals: 2, rows };
}

/** A file's outline, mm: places and diameters. */
export const boreOf = (bore: readonly (readonly number[])[]) =>
  bore.map(([x, diameter]) => ({ x: (x as number) * MM, radius: ((diameter as number) / 2) * MM }));
