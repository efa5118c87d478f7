/** Where a search for dimensions begins: a tube of two holes with made up notes. Bounds by hand: half a wavelength lies between mouth and foot. */
import { describe, expect, it } from "vitest";
import type { Column } from "../../../server/src/acoustics/column.js";
import type { Unknown } from "../../../server/src/design/constraints/unknowns.js";
import type { Analysis } from "../../../server/src/design/predict/analysis.js";
import { placedByNotes, startsOf } from "../../../server/src/design/refit/starts.js";
import { columnOf, tube } from "../../support/marked.js";

/** Round numbers: a wave of 400 Hz is a metre long. */
const SOUND = 400;
const HOLES = "holes: [{ at: 200, diameter: 6 }, { at: 300, diameter: 8 }]\n";
const BORE =
  "bore: [{ at: -20, diameter: 16 }, { at: 0, diameter: 16 }, { at: 150, diameter: 15 }, { at: 400, diameter: 14 }]\n";
const OPEN = columnOf(tube(BORE + HOLES));
const UNKNOWNS: readonly Unknown[] = (
  [
    ["hole-place", 0],
    ["hole-radius", 0],
    ["hole-place", 1],
    ["station-place", 2],
    ["station-place", 3],
    ["station-radius", 3],
  ] as const
).map(([kind, index]) => ({ kind, index, path: [] }));
const PRESENT = [200, 3, 300, 150, 400, 7];

interface Played {
  readonly covers: readonly number[] | undefined;
  readonly hz: number | undefined;
  readonly wanted: number | undefined;
  readonly register?: number;
}
function asked(notes: readonly Played[], column: Column = OPEN) {
  const fingerings = notes.map(({ covers, hz, register = 1 }) => ({
    fingering: { covers, register },
    predictedHz: hz,
  }));
  const analysis = { air: { soundSpeed: SOUND }, fingerings } as unknown as Analysis;
  return { unknowns: UNKNOWNS, column, analysis, targets: notes.map(({ wanted }) => wanted) };
}
const rounded = (start: readonly number[]) => start.map((value) => Number(value.toFixed(6)));
function placed(notes: readonly Played[], column?: Column) {
  const { unknowns, column: own, analysis, targets } = asked(notes, column);
  return rounded(placedByNotes(unknowns, own, analysis, targets));
}

const CLOSED = { covers: [1, 1], hz: 400, wanted: 400 };
const LOWER = { covers: [1, 0], hz: 500, wanted: 500 };
const UPPER = { covers: [0, 0], hz: 800, wanted: 800 };

describe("places by the notes", () => {
  it("stay where every note is right, and where none is known", () => {
    expect(placed([CLOSED, LOWER, UPPER])).toEqual(PRESENT);
    expect(placed([])).toEqual(PRESENT);
    expect(placed([{ ...CLOSED, hz: undefined, wanted: 200 }])).toEqual(PRESENT);
  });
  it("move by half of what the wave is longer, each hole for its own note; widths stay", () => {
    // 400 Hz to 320: from 1 m to 1.25. The station lies half way between the mouth and the first hole and a little beyond, which stays.
    expect(placed([{ ...CLOSED, wanted: 320 }, LOWER, UPPER])).toEqual([200, 3, 300, 150, 525, 7]);
    // 800 to 1000 Hz: from 0.5 m to 0.4; the station in proportion.
    expect(placed([CLOSED, LOWER, { ...UPPER, wanted: 1000 }])).toEqual([150, 3, 300, 112.5, 400, 7]);
  });
  it("of what decides no note lie in proportion between the neighbours, beyond the last as that one", () => {
    expect(placed([{ ...CLOSED, wanted: 320 }, UPPER])).toEqual([200, 3, 362.5, 150, 525, 7]);
    expect(placed([{ ...UPPER, wanted: 1000 }])).toEqual([150, 3, 225, 112.5, 300, 7]);
  });
  it("go by the lowest register of a fingering, and by the one with most holes open", () => {
    const overblown = { ...CLOSED, hz: 800, wanted: 1000, register: 2 };
    const low = { ...CLOSED, wanted: 320 };
    for (const notes of [
      [low, overblown],
      [overblown, low],
    ])
      expect(placed([...notes, LOWER, UPPER])[4]).toBe(525);
    // Alone, the second register counts whole waves: 0.5 m to 0.4.
    expect(placed([overblown, LOWER, UPPER])[4]).toBe(300);
    const crossed = { covers: [0, 1], hz: 750, wanted: 600 };
    for (const notes of [
      [crossed, { ...UPPER, wanted: 1000 }],
      [{ ...UPPER, wanted: 1000 }, crossed],
    ])
      expect(placed([...notes, CLOSED, LOWER])[0]).toBe(150);
  });
  it("count quarters of a wave above a stopped foot, none below the mouth", () => {
    const stopped = columnOf(tube(`${BORE}${HOLES}foot: stopped\n`));
    const only = [{ ...CLOSED, hz: 200, wanted: 160 }, LOWER, UPPER];
    // 2 m to 2.5, a quarter of it.
    expect(placed(only, stopped)[4]).toBe(525);
    expect(placed([{ ...CLOSED, hz: 600, wanted: 480, register: 2 }, LOWER, UPPER], stopped)[4]).toBe(525);
    // The holes' notes go by halves all the same.
    expect(placed([CLOSED, LOWER, { ...UPPER, wanted: 1000 }], stopped)[0]).toBe(150);
    expect(placed([CLOSED, LOWER, { ...UPPER, hz: 100, wanted: 1000 }])[0]).toBe(0);
  });
});

describe("a search", () => {
  const starts = (notes: readonly Played[], factor: number, staying: readonly number[] = []) =>
    startsOf({ ...asked(notes), factor, staying: new Set(staying) }).map(rounded);
  const scaled = (by: number) => [CLOSED, LOWER, UPPER].map((each) => ({ ...each, wanted: each.hz / by }));

  it("begins from the dimensions as they are, in another key from places grown, all grown, and places by their notes", () => {
    expect(starts([CLOSED, LOWER, UPPER], 1)).toEqual([PRESENT, PRESENT]);
    expect(starts(scaled(1.25), 1.25)).toEqual([
      [250, 3, 375, 187.5, 500, 7],
      [250, 3.75, 375, 187.5, 500, 8.75],
      // 125 mm for the foot, 100 and 62.5 for the holes, the station in proportion.
      [262.5, 3, 400, 196.875, 525, 7],
    ]);
  });
  it("begins from places by their notes where one is farther off than 50 cents in its own key", () => {
    const off = (cents: number) => starts([{ ...CLOSED, wanted: 400 * 2 ** (cents / 1200) }, LOWER, UPPER], 1);
    for (const cents of [49, -49]) expect(off(cents)[0]).toEqual(PRESENT);
    for (const cents of [51, -51]) {
      expect(off(cents)[0]).not.toEqual(PRESENT);
      expect(off(cents)[1]).toEqual(PRESENT);
    }
    // A key alone puts nothing far off.
    expect(starts(scaled(2), 2)[0]).toEqual([400, 3, 600, 300, 800, 7]);
  });
  it("leaves joints that the notes do not need elsewhere, from each start", () => {
    for (const start of starts(scaled(1.25), 1.25, [2])) {
      expect(start[3]).toBe(150);
      expect(start[4]).toBeGreaterThan(400);
    }
  });
});
