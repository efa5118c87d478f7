import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { airState } from "../../server/src/acoustics/air.js";
import { Cancelled } from "../../server/src/acoustics/cancelled.js";
import type { Column } from "../../server/src/acoustics/column.js";
import { inputImpedance, registersOf, soundingFrequencies } from "../../server/src/acoustics/resonance.js";
import { cents, instruments, losslessAir, openedFromFoot, scaled, tube } from "./instruments.js";

const air = airState({ temperature: 22, humidity: 0.6, carbonDioxide: 0.0004, pressure: 101_325, losses: true });
/** Any fingering, cross-fingered and half-holed ones too, as a function of the column it is for. */
const covering = fc
  .array(fc.constantFrom(0, 1, 1, 0.5), { minLength: 7, maxLength: 7 })
  .map((covers) => (column: Column) => covers.slice(0, column.holes.length));
const runs = { numRuns: 60 };

const holeAt = (x: number, diameter: number, angle = 0) => ({
  x: x / 1000,
  radius: diameter / 2000,
  chimney: 0.004,
  angle,
});

/** The first register of a fingering opened from the foot, Hz. */
function first(column: Column, open: number, state = air): number {
  return registersOf(column, state, openedFromFoot(column, open), 1)[0]?.frequency ?? Number.NaN;
}

describe("scaling every dimension", () => {
  it("by s divides every frequency by s, without losses", () => {
    fc.assert(
      fc.property(instruments, covering, fc.double({ min: 0.3, max: 4, noNaN: true }), (column, covers, s) => {
        const one = registersOf(column, losslessAir, covers(column), 3);
        const other = registersOf(scaled(column, s), losslessAir, covers(column), 3);
        expect(other).toHaveLength(one.length);
        one.forEach(({ frequency }, i) => {
          expect(Math.abs(((other[i]?.frequency ?? 0) * s) / frequency - 1)).toBeLessThan(1e-9);
        });
      }),
      runs,
    );
  });

  it("by 5/4 lowers a tube a pure major third, 386.314 cents; with losses a little less", () => {
    // Just intonation 5:4. The losses do not scale: acoustics of the wall layer, Zwikker & Kosten 1949.
    const column = tube(350, 16, { holes: [holeAt(180, 7), holeAt(220, 8)] });
    const drop = (state: typeof air) => cents(first(column, 1, state), first(scaled(column, 5 / 4), 1, state));
    expect(drop(losslessAir)).toBeCloseTo(386.314, 3);
    expect(386.314 - drop(air)).toBeGreaterThan(0.2);
    expect(386.314 - drop(air)).toBeLessThan(5);
  });
});

// Common practice, no source: what every maker knows, and what the model must not break.
describe("what every maker knows", () => {
  it("a longer tube is lower, all holes closed", () => {
    fc.assert(
      fc.property(instruments, (column) => {
        const [top, foot] = column.bore as [{ x: number; radius: number }, { x: number; radius: number }];
        const longer = { ...column, bore: [top, { ...foot, x: foot.x * 1.01 }] };
        expect(first(longer, 0)).toBeLessThan(first(column, 0));
      }),
      runs,
    );
  });

  it("a longer head is lower on every fingering opened from the foot", () => {
    fc.assert(
      fc.property(instruments, fc.nat(7), (column, open) => {
        const more = 0.002;
        const [top, foot] = column.bore as [{ x: number; radius: number }, { x: number; radius: number }];
        const longer = {
          ...column,
          bore: [top, { x: more, radius: top.radius }, { ...foot, x: foot.x + more }],
          holes: column.holes.map((hole) => ({ ...hole, x: hole.x + more })),
        };
        expect(first(longer, open)).toBeLessThan(first(column, open));
      }),
      runs,
    );
  });

  it("the next hole opened from the foot never lowers the first register", () => {
    fc.assert(
      fc.property(instruments, fc.nat(6), (column, open) => {
        expect(first(column, open + 1)).toBeGreaterThanOrEqual(first(column, open));
      }),
      runs,
    );
  });

  it("the uppermost open hole made larger is sharper", () => {
    fc.assert(
      fc.property(instruments, fc.integer({ min: 1, max: 7 }), (column, open) => {
        fc.pre(column.holes.length > 0);
        const uppermost = Math.max(0, column.holes.length - open);
        const holes = column.holes.map((h, i) => (i === uppermost ? { ...h, radius: h.radius * 1.03 } : h));
        expect(first({ ...column, holes }, open)).toBeGreaterThan(first(column, open));
      }),
      runs,
    );
  });

  it("a half-covered hole sounds between open and closed", () => {
    const column = tube(350, 16, { holes: [holeAt(260, 7)] });
    const at = (cover: number) => registersOf(column, air, [cover], 1)[0]?.frequency ?? 0;
    const pitches = [1, 0.99, 0.9, 0.7, 0.5, 0.3, 0.1, 0].map(at);
    expect(pitches).toEqual([...pitches].sort((a, b) => a - b));
    expect(Math.abs(cents(at(1e-9), at(0)))).toBeLessThan(1e-3);
  });
});

describe("the scan", () => {
  it("skips no register that a search with twenty times as many points finds", () => {
    const any = fc.record({ column: instruments, stopped: fc.boolean(), losses: fc.boolean(), covers: covering });
    fc.assert(
      fc.property(any, ({ column: plain, stopped, losses, covers }) => {
        const column: Column = { ...plain, foot: stopped ? "stopped" : "open" };
        const state = { ...air, losses };
        const fingering = covers(column);
        const ours = registersOf(column, state, fingering, 4);
        const top = (ours[3]?.frequency ?? 0) * 1.0001;
        const length = (column.bore[1]?.x ?? 1) * 1.3;
        // A twentieth of the scan's own step, π/32 in k × length.
        const step = air.soundSpeed / (2 * 32 * length) / 20;
        const frequencies = Array.from({ length: Math.ceil(top / step) }, (_, i) => (i + 1) * step);
        const impedances = inputImpedance(column, state, fingering, frequencies);
        const unit = (air.density * air.soundSpeed) / (Math.PI * (column.bore[0]?.radius ?? 1) ** 2);
        frequencies.forEach((f, i) => {
          const [a, b] = [impedances[i], impedances[i + 1]];
          // Clear of the resistance beyond which a zero is no register.
          if (!a || !b || !(a.im < 0 && b.im >= 0) || Math.max(a.re, b.re) > 0.8 * unit) return;
          expect(ours.some(({ frequency }) => frequency >= f * 0.9999999 && frequency <= (f + step) * 1.0000001)).toBe(
            true,
          );
        });
      }),
      { numRuns: 40 },
    );
  });

  it("is not misled by half wavelengths between holes, nor by holes at one place", () => {
    // A hole that is closed by a vanishing chimney is no hole: the pitches must be those of the plain tube.
    const dot = (x: number, angle: number) => ({ x, radius: 1e-6, chimney: 1e-6, angle });
    const plain = registersOf(tube(300, 16), losslessAir, [], 5);
    const dotted = tube(300, 16, { holes: [dot(0.001, 0), dot(0.299, 0), dot(0.299, Math.PI)] });
    const found = registersOf(dotted, losslessAir, [1, 1, 1], 5);
    expect(found).toHaveLength(5);
    found.forEach(({ frequency }, i) => {
      expect(Math.abs(cents(frequency, plain[i]?.frequency ?? 0))).toBeLessThan(1e-4);
    });
  });

  it("counts an ideal pipe's registers 1 : 2 : 3 open, 1 : 3 : 5 stopped", () => {
    // Textbook: c/4L and its odd multiples for a stopped pipe with an ideal mouth.
    const stopped = registersOf(tube(250, 14, { foot: "stopped" }), losslessAir, [], 6);
    stopped.forEach(({ frequency, quality }, i) => {
      expect(frequency / (losslessAir.soundSpeed / 4 / 0.25)).toBeCloseTo(2 * i + 1, 9);
      expect(quality).toBeGreaterThan(1e6);
    });
  });

  it("takes no energy from nowhere: the resistance is never negative where the formulas hold", () => {
    fc.assert(
      fc.property(instruments, covering, fc.double({ min: 0.02, max: 0.4, noNaN: true }), (column, covers, ka) => {
        const widest = Math.max(...column.bore.map(({ radius }) => radius));
        const frequency = (ka * air.soundSpeed) / (2 * Math.PI * widest);
        const [z] = inputImpedance(column, losslessAir, covers(column), [frequency]);
        const unit = (air.density * air.soundSpeed) / (Math.PI * widest ** 2);
        expect((z?.re ?? -1) / unit).toBeGreaterThan(-1e-6);
      }),
      { numRuns: 300 },
    );
  });
});

describe("asking for soundings", () => {
  const column = tube(350, 16, { holes: [holeAt(180, 7), holeAt(220, 8)] });

  it("answers each query in its place", () => {
    const queries = [
      { covers: [1, 1], register: 2 },
      { covers: [1, 0], register: 1 },
      { covers: [1, 1], register: 1 },
    ];
    const [second, open, lowest] = soundingFrequencies(column, air, queries);
    const alone = registersOf(column, air, [1, 1], 2);
    expect(second).toEqual(alone[1]);
    expect(lowest).toEqual(alone[0]);
    expect(open).toEqual(registersOf(column, air, [1, 0], 1)[0]);
  });

  it("does not mind in which order the holes are listed", () => {
    const turned = { ...column, holes: column.holes.toReversed() };
    expect(registersOf(turned, air, [0, 1], 2)).toEqual(registersOf(column, air, [1, 0], 2));
  });

  it("has no answer beyond the plane waves of the bore", () => {
    const [none] = soundingFrequencies(tube(30, 60), air, [{ covers: [], register: 9 }]);
    expect(none).toBeUndefined();
  });

  it("stops when told to", () => {
    let asked = 0;
    const shouldStop = () => ++asked > 5;
    expect(() => soundingFrequencies(column, air, [{ covers: [1, 1], register: 1 }], { shouldStop })).toThrow(
      Cancelled,
    );
    expect(asked).toBe(6);
  });

  it.each<[string, Column, number[]]>([
    ["a hole beyond the foot", { ...column, holes: [holeAt(400, 7)] }, [1]],
    ["a hole before the mouth", { ...column, holes: [holeAt(-5, 7)] }, [1]],
    ["a bore without width", { ...column, bore: [column.bore[0], { x: 0.35, radius: 0 }] as Column["bore"] }, [1, 1]],
    ["one station", { ...column, bore: column.bore.slice(0, 1) }, [1, 1]],
    ["covers for other holes", column, [1]],
    ["a cover beyond closed", column, [1, 1.2]],
    ["a mouth wholly covered", { ...column, mouth: { kind: "rim", cover: 1 } }, [1, 1]],
  ])("refuses %s plainly", (_, wrong, covers) => {
    expect(() => soundingFrequencies(wrong, air, [{ covers, register: 1 }])).toThrow(RangeError);
  });
});
