/** From the maker's units to the physics' own: millimetres, inches, percents, and what stands where nothing is written. */

import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { sharedColumn } from "../../server/src/instrument/body.js";
import { columnOf, expectFinding, instrumentOf, tube } from "../support/marked.js";

const HOLE = "holes:\n  - { at: 170, diameter: 7, chimney: 4 }\n";

describe("units of length", () => {
  it("are millimetres by default, metres to the physics", () => {
    const { bore, wall } = columnOf(tube());
    expect(bore[0]).toEqual({ x: 0, radius: 0.008 });
    expect(bore[1]?.x).toBeCloseTo(0.352, 12);
    expect(wall).toBeCloseTo(0.003, 12);
    expect(columnOf(tube("units: mm"))).toEqual(columnOf(tube()));
  });

  it("are inches of 25.4 mm exactly (the international agreement of 1959) for the whole file", () => {
    const text = tube("units: in\nbore:\n  - { at: 0, diameter: 1 }\n  - { at: 10, diameter: 1 }\nwall: 0.125");
    const { bore, wall } = columnOf(text);
    expect(bore[1]?.x).toBeCloseTo(0.254, 12);
    expect(bore[1]?.radius).toBeCloseTo(0.0127, 12);
    expect(wall).toBeCloseTo(0.003175, 12);
    expect(instrumentOf(text).unitMillimetres).toBe(25.4);
  });

  it("make the same instrument of the same lengths in either", () => {
    const lengths = fc.record({
      end: fc.double({ min: 200, max: 900, noNaN: true }),
      tube: fc.double({ min: 10, max: 25, noNaN: true }),
      place: fc.double({ min: 0.3, max: 0.9, noNaN: true }),
      hole: fc.double({ min: 0.2, max: 0.8, noNaN: true }),
      undersize: fc.double({ min: 0, max: 0.3, noNaN: true }),
    });
    fc.assert(
      fc.property(lengths, ({ end, tube: wide, place, hole, undersize }) => {
        const written = (unit: "mm" | "in") => {
          const of = (mm: number) => String(unit === "mm" ? mm : mm / 25.4);
          return JSON.stringify({
            borewright: 1,
            units: unit,
            family: "transverse",
            mouth: { hole: { length: Number(of(wide / 2)), width: Number(of(wide / 3)) } },
            bore: [
              { at: Number(of(-20)), diameter: Number(of(wide)) },
              { at: Number(of(end)), diameter: Number(of(wide)) },
            ],
            wall: Number(of(3)),
            holes: [{ at: Number(of(end * place)), diameter: Number(of(wide * hole)) }],
            print: { holeUndersize: Number(of(undersize)), tolerance: Number(of(0.1)) },
          });
        };
        const flat = (text: string) =>
          JSON.stringify(columnOf(text, "json"), (_, v) => (typeof v === "number" ? Number(v.toPrecision(10)) : v));
        expect(flat(written("in"))).toBe(flat(written("mm")));
        expect(instrumentOf(written("in"), "json").printTolerance).toBeCloseTo(0.0001, 12);
      }),
      { seed: 1, numRuns: 50 },
    );
  });
});

describe("percents", () => {
  it.each([
    ["92.5 %", 0.925],
    ["92.5%", 0.925],
    ["'92.5'", 0.925],
    ["92.5", 0.925],
    ["=185/2", 0.925],
    ["' 110 % '", 1.1],
    [".5e2 %", undefined],
  ])("print scale %s is the factor %d", (written, factor) => {
    const { printScale, body } = instrumentOf(tube(`print: { scale: ${written} }`));
    if (factor === undefined) expect(sharedColumn(body)).toBeUndefined();
    else expect(printScale).toBeCloseTo(factor, 12);
  });

  it("of air are shares to the physics", () => {
    const { air } = instrumentOf(tube("air: { humidity: 60 %, carbonDioxide: 2.5 }"));
    expect(air.humidity).toBeCloseTo(0.6, 12);
    expect(air.carbonDioxide).toBeCloseTo(0.025, 12);
  });

  it("do not take another unit, nor a comma", () => {
    expectFinding(tube("print: { scale: [[92 mm]] }"), "schema/wrong-kind");
    expectFinding(tube("print: { scale: [['92,5 %']] }"), "schema/wrong-kind", "");
  });
});

describe("the printed object", () => {
  it("is scaled in every length, mouth and chimneys included", () => {
    const changes = `${HOLE}mouth: { window: { width: 9, cutUp: 4.5, chimney: 2 } }\n`;
    const drawn = columnOf(tube(changes));
    const half = columnOf(tube(`${changes}print: { scale: 50 % }`));
    const scaled = JSON.stringify(drawn, (key, v) => (typeof v === "number" && key !== "angle" ? v / 2 : v));
    expect(JSON.stringify(half)).toBe(scaled);
  });

  it("shrinks after scaling", () => {
    const { bore } = columnOf(tube("print: { scale: 110 %, shrinkage: 0.5 % }"));
    expect(bore[1]?.x).toBeCloseTo(0.352 * 1.1 * 0.995, 12);
    expect(instrumentOf(tube("print: { scale: 110 %, shrinkage: 0.5 % }")).printedUnit).toBeCloseTo(
      0.001 * 1.1 * 0.995,
      12,
    );
  });

  it("has its round holes smaller by an amount that does not scale", () => {
    const { holes, bore } = columnOf(tube(`${HOLE}print: { scale: 200 %, holeUndersize: 0.2 }`));
    expect(holes[0]?.radius).toBeCloseTo((7 * 2 - 0.2) / 2000, 12);
    expect(holes[0]?.chimney).toBeCloseTo(0.008, 12);
    expect(bore[0]?.radius).toBeCloseTo(0.016, 12);
  });

  it("has its embouchure hole smaller too, but not its window", () => {
    const print = "print: { holeUndersize: 0.2 }\n";
    const { mouth: hole } = columnOf(tube(`family: transverse\nmouth: { hole: { length: 12, width: 10 } }\n${print}`));
    expect(hole).toMatchObject({
      kind: "embouchure",
      length: expect.closeTo(0.0118, 12),
      width: expect.closeTo(0.0098, 12),
    });
    const { mouth: window } = columnOf(tube(`mouth: { window: { width: 9, cutUp: 4.5 } }\n${print}`));
    expect(window).toMatchObject({
      kind: "window",
      width: expect.closeTo(0.009, 12),
      cutUp: expect.closeTo(0.0045, 12),
    });
  });

  it("is not applied while a number of the print is wrong", () => {
    for (const print of [
      "{ scale: 0 }",
      "{ scale: big }",
      "{ shrinkage: 50 }",
      "{ holeUndersize: -1 }",
      "{ scale: =nowhere }",
    ])
      expect(sharedColumn(instrumentOf(tube(`print: ${print}`)).body)).toBeUndefined();
  });

  it("may come out 0.2 mm off where the maker states nothing", () => {
    expect(instrumentOf(tube()).printTolerance).toBeCloseTo(0.0002, 12);
    expect(instrumentOf(tube("print: { tolerance: 0.05 }")).printTolerance).toBeCloseTo(0.00005, 12);
  });
});

describe("what makes the jet", () => {
  const near = (value: number) => expect.closeTo(value, 12);
  const of = (mouth: string, more = "") => instrumentOf(tube(`mouth: { ${mouth} }\n${more}`));
  const window = "window: { width: 9, cutUp: 4.5 }, ";
  it("is the windway as printed", () => {
    const windway = "windway: { length: 30, width: 8, height: 1, entry: 1.5, labium: -0.1 }";
    const printed = { length: near(0.015), width: near(0.004), entry: near(0.00075), height: near(0.0005) };
    expect(of(window + windway, "print: { scale: 50 % }").windway).toEqual({ ...printed, labium: near(0.00005) });
    expect(of(`${window}windway: { height: 0, labium: 0 }`).windway).toMatchObject({ height: undefined, labium: 0 });
    expect(of("window: { width: 9, cutUp: 4.5 }").windway).toMatchObject({ length: undefined, labium: undefined });
  });
  it("is the player's lips, which do not grow with the print", () => {
    const lips = "lips: { gap: 1, width: 10, distance: 5 }";
    const stated = { gap: near(0.001), width: near(0.01), distance: near(0.005) };
    expect(of(`cover: 0.5, ${lips}`, "print: { scale: 50 % }").lips).toEqual(stated);
    expect(of(`cover: 0.5, ${lips}`, "units: in").lips.gap).toBeCloseTo(0.0254, 12);
    expect(of("cover: 0.5, lips: { gap: 0 }").lips).toEqual({ gap: undefined, width: undefined, distance: undefined });
  });
  it("is the breath", () => {
    expect(instrumentOf(tube("breath: { ordinary: 180, exponent: 1.2 }")).breath).toEqual({
      ordinary: 180,
      exponent: 1.2,
    });
    expect(instrumentOf(tube("breath: { ordinary: 0 }")).breath).toEqual({ ordinary: undefined, exponent: undefined });
  });
});

describe("where nothing is written", () => {
  it("the air is that of the schema's defaults, its temperature not stated", () => {
    const { air, airPreset } = instrumentOf(tube());
    expect(air).toEqual({
      temperature: undefined,
      humidity: 0.5,
      carbonDioxide: 0.0004,
      pressure: 101_325,
      losses: true,
    });
    expect(airPreset).toBeUndefined();
  });

  it("a word stands for the whole air", () => {
    const { air, airPreset } = instrumentOf(tube("air: played"));
    expect(air).toMatchObject({ temperature: 27, humidity: 1, carbonDioxide: 0.025 });
    expect(airPreset).toBe("played");
    expectFinding(tube("air: [[plaed]]"), "schema/unknown-word", "Did you mean `played`?");
  });

  it("losses can be turned off and the speed of sound be given", () => {
    const { air } = instrumentOf(tube("air: { losses: false, speedOfSound: 343.37, pressure: 95 }"));
    expect(air).toMatchObject({ losses: false, soundSpeed: 343.37, pressure: 95_000 });
  });

  it("a hole lies in front, with the wall as its chimney", () => {
    const [hole] = columnOf(tube("holes:\n  - { at: 170, diameter: 7 }")).holes;
    expect(hole?.angle).toBe(0);
    expect(hole?.chimney).toBeCloseTo(0.003, 12);
  });

  it("the mouth's sizes are those of the trade", () => {
    const flute = "family: transverse\nmouth: { hole: { diameter: 10 } }\n";
    expect(columnOf(tube(flute)).mouth).toMatchObject({
      length: expect.closeTo(0.01, 12),
      width: expect.closeTo(0.01, 12),
      chimney: expect.closeTo(0.003, 12),
      cover: 0.28,
      stopper: expect.closeTo(0.016, 12),
      extra: 0,
    });
    expect(columnOf(tube("family: rim\nmouth: {}")).mouth).toEqual({ kind: "rim", cover: 0.88, extra: 0 });
    // 0.7 of the wall's depth is what a printed labium leaves (test/reference/fem/labium.json).
    expect(columnOf(tube("mouth: { window: { width: 9, cutUp: 4 } }")).mouth).toMatchObject({
      chimney: expect.closeTo(0.7 * 0.003, 12),
    });
    expect(columnOf(tube("mouth: { window: { width: 9, cutUp: 4, labium: 1 } }")).mouth).toMatchObject({
      chimney: expect.closeTo(0.003, 12),
    });
  });

  it("the foot is open", () => {
    expect(columnOf(tube()).foot).toBe("open");
    expect(columnOf(tube("foot: stopped")).foot).toBe("stopped");
    expectFinding(tube("foot: [[closed]]"), "schema/unknown-word", "It takes `open` or `stopped`");
  });
});

describe("directions around the bore", () => {
  it.each([
    ["side: front", 0],
    ["side: back", Math.PI],
    ["angle: 90", Math.PI / 2],
    ["angle: -20", -Math.PI / 9],
    ["angle: =40/2", Math.PI / 9],
  ])("%s", (written, angle) => {
    expect(columnOf(tube(`holes:\n  - { at: 170, diameter: 7, ${written} }`)).holes[0]?.angle).toBeCloseTo(angle, 12);
  });
});
