/** The pressure along the bore, to look at. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Column } from "../../server/src/acoustics/column.js";
import { standingWave } from "../../server/src/acoustics/standingWave.js";

const LENGTH = 0.4;
const tube = (more: Partial<Column> = {}): Column => ({
  bore: [
    { x: 0, radius: 0.008 },
    { x: LENGTH, radius: 0.008 },
  ],
  wall: 0.003,
  foot: "open",
  holes: [],
  mouth: { kind: "ideal" },
  ...more,
});

const nodes = (pressure: readonly number[]) =>
  pressure.slice(1).filter((value, i) => value * (pressure[i] as number) < 0).length;

describe("standingWave", () => {
  // Rossing and Fletcher, The Physics of Musical Instruments, 8.1: a stopped cylinder's pressure is a cosine from the stopper.
  it("is a cosine in a stopped cylinder", () => {
    fc.assert(
      fc.property(fc.double({ min: 2, max: 60, noNaN: true }), (k) => {
        const pressure = standingWave(tube({ foot: "stopped" }), [], k);
        const largest = Math.max(
          ...pressure.map((_, i) => Math.abs(Math.cos(k * LENGTH * (1 - i / (pressure.length - 1))))),
        );
        pressure.forEach((value, i) => {
          const expected = Math.cos(k * LENGTH * (1 - i / (pressure.length - 1))) / largest;
          expect(Math.abs(value - expected)).toBeLessThan(0.01);
        });
      }),
    );
  });

  it("has a node more inside in each higher register of an open tube", () => {
    const open = LENGTH + 0.6133 * 0.008;
    for (const register of [1, 2, 3, 4]) {
      const pressure = standingWave(tube(), [], (register * Math.PI) / open);
      // The node at the mouth itself is an end, not one inside.
      expect(nodes(pressure.slice(2))).toBe(register - 1);
    }
  });

  it("ends near the first open hole, and not at a closed one", () => {
    const hole = { x: 0.3, radius: 0.006, chimney: 0.003, angle: 0 };
    const k = Math.PI / 0.31;
    const beyond = (cover: number) => {
      const pressure = standingWave(tube({ holes: [hole] }), [cover], k);
      return Math.max(...pressure.slice(Math.ceil(0.85 * pressure.length)).map(Math.abs));
    };
    expect(beyond(0)).toBeLessThan(0.3);
    expect(beyond(1)).toBeGreaterThan(0.3);
  });

  it("changes slope at an open hole by what flows out there, and is one wave again above it", () => {
    const [at, radius, chimney] = [0.25, 0.003, 0.004];
    const area = Math.PI * 0.008 ** 2;
    for (const k of [6, 9, 13]) {
      const pressure = standingWave(tube({ foot: "stopped", holes: [{ x: at, radius, chimney, angle: 0 }] }), [0], k);
      // Lossless line with a side branch of inertance length/area in it (any textbook); both ends add 1.6 radii in length.
      const below = Math.cos(k * (LENGTH - at));
      const outflow = (below * Math.PI * radius ** 2) / (k * (chimney + 1.6 * radius));
      const flow = -Math.sin(k * (LENGTH - at)) + outflow / area;
      const wave = pressure.map((_, i) => {
        const x = (LENGTH * i) / (pressure.length - 1);
        return x > at ? Math.cos(k * (LENGTH - x)) : below * Math.cos(k * (at - x)) + flow * Math.sin(k * (at - x));
      });
      const largest = Math.max(...wave.map(Math.abs));
      pressure.forEach((value, i) => {
        expect(Math.abs(value - (wave[i] ?? 0) / largest)).toBeLessThan(0.02);
      });
    }
  });
});
