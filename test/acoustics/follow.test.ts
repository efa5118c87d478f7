/** Resonances followed through a change of the column are those that a scan finds. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { airState } from "../../server/src/acoustics/air.js";
import { Cancelled } from "../../server/src/acoustics/cancelled.js";
import type { Column } from "../../server/src/acoustics/column.js";
import { followedFrequencies } from "../../server/src/acoustics/follow.js";
import { type Query, soundingFrequencies } from "../../server/src/acoustics/resonance.js";
import { centsAbove } from "../../server/src/music/cents.js";

const air = airState({ temperature: 22, humidity: 0.6, carbonDioxide: 0.0004, pressure: 101_325, losses: true });
const PLACES = [0.173, 0.205, 0.23, 0.271, 0.29, 0.321];

/** A six-hole duct flute whose holes lie and are bored `shares` off their place and size. */
function flute(shares: readonly number[]): Column {
  const holes = PLACES.map((x, i) => ({
    x: x * (1 + (shares[2 * i] ?? 0)),
    radius: 0.0037 * (1 + (shares[2 * i + 1] ?? 0)),
    chimney: 0.003,
    angle: 0,
  }));
  const bore = [
    { x: 0, radius: 0.008 },
    { x: 0.395, radius: 0.008 },
  ];
  const mouth = { kind: "window", width: 0.01, cutUp: 0.0045, chimney: 0.003 } as const;
  return { bore, wall: 0.003, foot: "open", holes, mouth };
}

const queries: Query[] = PLACES.flatMap((_, open) =>
  [1, 2].map((register) => ({ covers: PLACES.map((_, i) => (i >= PLACES.length - open ? 0 : 1)), register })),
);
const scanned = (column: Column) =>
  soundingFrequencies(column, air, queries).map((sounding) => sounding?.frequency ?? Number.NaN);

describe("followed resonances", () => {
  it("are the scanned ones after any small change", () => {
    const start = scanned(flute([]));
    const share = fc.double({ min: -0.01, max: 0.01, noNaN: true });
    fc.assert(
      fc.property(fc.array(share, { minLength: 12, maxLength: 12 }), (shares) => {
        const column = flute(shares);
        const followed = followedFrequencies(column, air, queries, start);
        const expected = scanned(column);
        expect(followed).toHaveLength(queries.length);
        followed?.forEach((hz, i) => {
          expect(Math.abs(centsAbove(hz, expected[i] ?? Number.NaN))).toBeLessThan(1e-3);
        });
      }),
      { numRuns: 40, seed: 4 },
    );
  });

  it("are given up where the nearest one lies far off", () => {
    const column = flute([]);
    const far = scanned(column).map((hz) => hz * 1.2);
    expect(followedFrequencies(column, air, queries, far)).toBeUndefined();
  });

  it("stop when told to", () => {
    const column = flute([]);
    const start = scanned(column);
    expect(() => followedFrequencies(column, air, queries, start, { shouldStop: () => true })).toThrow(Cancelled);
  });
});
