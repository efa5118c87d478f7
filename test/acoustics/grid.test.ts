/** A grid kept from column to column: what it saves must not be seen in any result. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { chaigneKergomardAir } from "../../server/src/acoustics/air.js";
import { Cancelled } from "../../server/src/acoustics/cancelled.js";
import type { Column } from "../../server/src/acoustics/column.js";
import { Grid } from "../../server/src/acoustics/grid.js";
import { type Query, soundingFrequencies } from "../../server/src/acoustics/resonance.js";
import { instruments, losslessAir, openedFromFoot } from "./instruments.js";

const AIRS = [chaigneKergomardAir(20), chaigneKergomardAir(21), losslessAir];

/** What may become of a column from one edit to the next; `size` and `which` say how much and of what. */
const EDITS: ((column: Column, which: number, size: number) => Column)[] = [
  (column, which, size) => withHole(column, which, (hole) => ({ ...hole, radius: hole.radius * size })),
  (column, which, size) => withHole(column, which, (hole) => ({ ...hole, chimney: hole.chimney * size })),
  (column, which, size) => withHole(column, which, (hole) => ({ ...hole, angle: hole.angle + size })),
  (column, which, size) => withHole(column, which, (hole) => ({ ...hole, x: hole.x * (1 + (size - 1) / 20) })),
  (column, which) => ({
    ...column,
    holes: column.holes.filter((_, i) => i !== which % Math.max(1, column.holes.length)),
  }),
  (column, which, size) => {
    const hole = column.holes[which % Math.max(1, column.holes.length)];
    return hole === undefined
      ? column
      : { ...column, holes: [...column.holes, { ...hole, angle: hole.angle + Math.PI * size }] };
  },
  (column, _, size) => ({ ...column, wall: column.wall * size }),
  (column, which, size) => ({
    ...column,
    bore: column.bore.map((station, i) =>
      i === which % 2 ? { ...station, radius: station.radius * (1 + (size - 1) / 5) } : station,
    ),
  }),
  // Another length has other frequencies.
  (column, _, size) => ({
    ...column,
    bore: column.bore.map((station, i) => (i === 1 ? { ...station, x: station.x * (1.02 + (size - 1) / 5) } : station)),
  }),
  // A stronger taper is cut into more slices, each with losses of its own.
  (column, _, size) => ({
    ...column,
    bore: column.bore.map((station, i) =>
      i === column.bore.length - 1 ? { ...station, radius: station.radius * (0.7 + 3 * (size - 1)) } : station,
    ),
  }),
  // The closed piece of bore upstream of the mouth.
  ({ mouth, ...column }, _, size) => ({
    ...column,
    mouth: "stopper" in mouth && mouth.stopper !== undefined ? { ...mouth, stopper: mouth.stopper * size } : mouth,
  }),
  (column) => ({ ...column, foot: column.foot === "open" ? "stopped" : "open" }),
  (column, which) => ({ ...column, mouth: which % 2 === 0 ? { kind: "ideal" } : { kind: "rim", cover: 0.3 } }),
  (column) => ({ ...column, holes: column.holes.toReversed() }),
];

function withHole(
  column: Column,
  which: number,
  change: (hole: Column["holes"][number]) => Column["holes"][number],
): Column {
  const at = which % Math.max(1, column.holes.length);
  return { ...column, holes: column.holes.map((hole, i) => (i === at ? change(hole) : hole)) };
}

function queriesOf(column: Column, registers: readonly number[]): readonly Query[] {
  return column.holes.flatMap((_, open) =>
    registers.map((register) => ({ covers: openedFromFoot(column, open), register })),
  );
}

/** The soundings, or why there are none. */
function outcome(...args: Parameters<typeof soundingFrequencies>) {
  try {
    return soundingFrequencies(...args);
  } catch (error) {
    return error instanceof Cancelled ? "cancelled" : String(error);
  }
}

describe("a grid kept from column to column", () => {
  const edit = fc.record({
    what: fc.nat(EDITS.length - 1),
    which: fc.nat(20),
    size: fc.double({ min: 0.9, max: 1.1, noNaN: true }),
    undone: fc.boolean(),
    air: fc.nat(20).map((n) => AIRS[n] ?? AIRS[0]),
    registers: fc.constantFrom([1], [1, 2], [3]),
    /** Frequencies after which the work is broken off. */
    patience: fc.oneof(
      { weight: 4, arbitrary: fc.constant(Number.POSITIVE_INFINITY) },
      { weight: 1, arbitrary: fc.nat(200) },
    ),
  });

  it("gives to the last bit what each column gives alone, whatever edits come between", () => {
    fc.assert(
      fc.property(instruments, fc.array(edit, { minLength: 1, maxLength: 8 }), (first, edits) => {
        const grid = new Grid();
        let [column, before] = [first, first];
        for (const { what, which, size, undone, air = losslessAir, registers, patience } of edits) {
          const queries = queriesOf(column, registers);
          let left = patience;
          const together = outcome(column, air, queries, { grid, shouldStop: () => left-- <= 0 });
          if (together !== "cancelled") {
            grid.trim();
            expect(together).toEqual(outcome(column, air, queries));
          }
          const after = undone ? before : (EDITS[what]?.(column, which, size) ?? column);
          [before, column] = [column, after];
        }
      }),
      { numRuns: 100 },
    );
  });
});
