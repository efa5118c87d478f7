/** Moves and sizes that put one note right: asked of the whole prediction, whatever way they were found. */

import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { soundingFrequencies } from "../../../server/src/acoustics/resonance.js";
import type { HoleChange } from "../../../server/src/design/fix/change.js";
import { footPlace, holeChangeSteps, holeChanges } from "../../../server/src/design/fix/holeChange.js";
import { analyse } from "../../../server/src/design/predict/analyse.js";
import { sharedColumn } from "../../../server/src/instrument/body.js";
import type { Instrument } from "../../../server/src/instrument/model.js";
import { documentOf, fileOf, WHISTLE } from "../../support/designs.js";
import { vessel } from "../../support/families.js";
import { instrumentOf, tube } from "../../support/marked.js";

/** Found changes are right to a twentieth of a cent; the quick way is exact where it ends. */
const RIGHT = 0.1;

/** The test whistle with hole `hole` moved by `by` metres, and its analysis. */
function whistleWith(hole: number, by: number) {
  const { instrument } = documentOf(fileOf(WHISTLE)).resolution;
  const column = sharedColumn(instrument.body);
  if (column === undefined) throw new Error("no column");
  const holes = column.holes.map((old, i) => (i === hole ? { ...old, x: old.x + by } : old));
  const moved: Instrument = { ...instrument, body: { kind: "tube", column: { ...column, holes } } };
  return { analysis: analyse(moved), column: { ...column, holes } };
}

function changed(column: ReturnType<typeof whistleWith>["column"], change: HoleChange) {
  const holes = column.holes.map((old, i) => {
    if (i !== change.hole) return old;
    return change.kind === "move" ? { ...old, x: change.value } : { ...old, radius: change.value / 2 };
  });
  return { ...column, holes };
}

describe("holeChanges", () => {
  it("put the note right in the whole prediction, in its own register, however far the hole was off", () => {
    const byHole = [6, 5, 4, 3, 2, 1]; // the fingering of WHISTLE that each hole decides, from the mouth; the first decides none
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 5 }), fc.double({ min: -0.012, max: 0.012, noNaN: true }), (hole, by) => {
        const { analysis, column } = whistleWith(hole, by);
        const index = byHole[hole] ?? 0;
        const { fingering, targetHz = 0 } = analysis.fingerings[index] ?? {};
        const { covers, register } = fingering ?? {};
        if (covers === undefined || register === undefined) throw new Error("no fingering");
        for (const change of holeChanges(analysis, hole, index)) {
          const [sounding] = soundingFrequencies(changed(column, change), analysis.air, [{ covers, register }]);
          const cents = 1200 * Math.log2((sounding?.frequency ?? 0) / targetHz);
          expect(Math.abs(cents)).toBeLessThan(RIGHT);
        }
      }),
      { seed: 4, numRuns: 25 },
    );
  });

  it("finds a move for a hole that was moved, and it leads back", () => {
    const at = sharedColumn(documentOf(fileOf(WHISTLE)).resolution.instrument.body)?.holes[3]?.x ?? 0;
    const { analysis } = whistleWith(3, 0.003);
    const move = holeChanges(analysis, 3, 3).find(({ kind }) => kind === "move");
    const own = analyse(documentOf(fileOf(WHISTLE)).resolution.instrument).fingerings[3]?.cents ?? 0;
    // The design's own deviation of that note is a few cents, of about a tenth of a millimetre each.
    expect(Math.abs((move?.value ?? 0) - at)).toBeLessThan(0.0003 * (1 + Math.abs(own)));
  });
});

describe("footPlace", () => {
  it("puts the note with every hole closed right", () => {
    const { analysis, column } = whistleWith(0, 0);
    const place = footPlace(analysis, 0) ?? 0;
    const bore = column.bore.map((station, i) => (i === column.bore.length - 1 ? { ...station, x: place } : station));
    const covers = column.holes.map(() => 1);
    const [sounding] = soundingFrequencies({ ...column, bore }, analysis.air, [{ covers, register: 1 }]);
    expect(
      Math.abs(1200 * Math.log2((sounding?.frequency ?? 0) / (analysis.fingerings[0]?.targetHz ?? 1))),
    ).toBeLessThan(RIGHT);
  });
});

/** A textbook tube with such holes, mm, and notes. */
const drawn = (holes: string, notes: string, bore = "{ at: 0, diameter: 16 }, { at: 425, diameter: 16 }") =>
  analyse(instrumentOf(tube(`bore: [${bore}]\nholes: [${holes}]\nfingerings: [${notes}]\n`)));
const placeOf = (analysis: ReturnType<typeof drawn>, hole: number) => {
  const move = holeChanges(analysis, hole, 0).find(({ kind }) => kind === "move");
  return move && move.value * 1e3;
};

describe("a hole", () => {
  // Alone it sounds B4 from about 307 mm.
  const alone = placeOf(drawn("{ at: 300, diameter: 7 }", "{ note: B4, holes: ○ }"), 0) ?? Number.NaN;

  it("is moved as far as its neighbours leave it room, on its own side of the tube", () => {
    const beside = (apart: number, angle: number, wide = "diameter: 7") => {
      // Above it a covered hole, below it another: each at so much from where it would be right.
      const own = "at: 300, diameter: 7";
      const other = `at: ${(alone + apart).toFixed(3)}, ${wide}, angle: ${angle}`;
      const [first, second] = apart < 0 ? [other, own.replace("300", "330")] : [own, other];
      const notes = apart < 0 ? "{ note: B4, holes: ●○ }" : "{ note: B4, holes: ○● }";
      return placeOf(drawn(`{ ${first} }, { ${second} }`, notes), apart < 0 ? 1 : 0);
    };
    for (const sign of [-1, 1])
      for (const apart of [5, 6.5, 8, 11]) {
        // One behind is no neighbour: there the hole may lie wherever the note is right.
        const free = beside(sign * apart, 180) ?? Number.NaN;
        const between = sign * (alone + sign * apart - free);
        expect(between).toBeGreaterThan(3);
        // Half of each width: 7 mm between centres, or 3.5 and 6 where the other is 12 mm long.
        expect(beside(sign * apart, 0) !== undefined, `${between} mm`).toBe(between > 7);
        expect(beside(sign * apart, 0, "diameter: 7, length: 12") !== undefined, `${between} mm`).toBe(between > 9.5);
      }
  });
  it("ends above the foot, by half of its width, and is nothing where it would run out of the bore", () => {
    const short = (foot: number) =>
      placeOf(
        drawn(
          "{ at: 200, diameter: 7 }",
          "{ note: B4, holes: ○ }",
          `{ at: 0, diameter: 16 }, { at: ${foot}, diameter: 16 }`,
        ),
        0,
      );
    // Of a shorter bore the hole must lie farther down, until there is no room for it.
    expect(short(400)).toBeGreaterThan(alone);
    for (const foot of [380, 365, 350]) {
      const place = short(foot);
      if (place !== undefined) expect(place + 3.5).toBeLessThanOrEqual(foot);
    }
    expect(short(340)).toBeUndefined();
  });
  it("that is not there, or decides nothing, is not changed", () => {
    const analysis = drawn(
      "{ at: 300, diameter: 7 }",
      "{ note: B4, holes: ○ }, { note: nothing, holes: ○ }, { note: A4, holes: ○, register: 16 }",
    );
    expect(holeChanges(analysis, 1, 0)).toEqual([]);
    expect([1, 2, 3].map((fingering) => holeChanges(analysis, 0, fingering))).toEqual([[], [], []]);
  });
  it("is widened to less than the bore, and not where that is not enough", () => {
    const widthFor = (note: string) =>
      holeChanges(drawn("{ at: 300, diameter: 7 }", `{ note: ${note}, holes: ○ }`), 0, 0)
        .filter(({ kind }) => kind === "resize")
        .map(({ value, change }) => [value, value - change].map((metres) => Number((1e3 * metres).toFixed(6))));
    const [[wide = 0, before = 0] = []] = widthFor("C5");
    expect([wide > 7, wide < 0.95 * 16, before]).toEqual([true, true, 7]);
    expect(widthFor("E5")).toEqual([]);
  });
  it("of a closed tube is resized alone, where it is", () => {
    const closed = analyse(
      instrumentOf(
        vessel(
          "holes: [{ diameter: 5, at: 30 }]\nfingerings: [{ note: A4, holes: ○ }]",
          "shape: tube, length: 90, diameter: 40",
        ),
      ),
    );
    expect(holeChanges(closed, 0, 0).map(({ kind }) => kind)).toEqual(["resize"]);
  });
});

describe("a hole of a round vessel", () => {
  const ball = (diameter: number, note = "E5") =>
    vessel(
      `tolerance: 1\nholes: [{ diameter: 8, angle: 40 }, { diameter: ${diameter}, angle: 120 }]\nfingerings: [{ note: ${note}, holes: ●○ }]`,
    );
  const changes = (text: string, hole = 1) => holeChanges(analyse(instrumentOf(text)), hole, 0);
  it("is as wide as puts the note right, within the chamber", () => {
    const [change, ...others] = changes(ball(7));
    expect(others).toEqual([]);
    expect(change).toMatchObject({ kind: "resize", hole: 1, fingering: 0 });
    expect((change?.value ?? 0) - (change?.change ?? 0)).toBeCloseTo(0.007, 12);
    const right = analyse(instrumentOf(ball(1e3 * (change?.value ?? 0)))).fingerings[0]?.cents;
    expect(Math.abs(right ?? Number.NaN)).toBeLessThan(RIGHT);
    // Other holes stay as they are, open or not.
    const open = (text: string) => text.replace("holes: ●○", "holes: ○○");
    const [alone] = changes(open(ball(7, "A5")));
    const sounding = analyse(instrumentOf(open(ball(1e3 * (alone?.value ?? 0), "A5")))).fingerings[0]?.cents;
    expect(Math.abs(sounding ?? Number.NaN)).toBeLessThan(RIGHT);
    // It is searched for up to 0.95 of the chamber's narrowest half, 22.5 mm.
    const widths = ["G5", "C6", "D6", "E6", "F6", "G6", "A6", "C7"].flatMap((each) =>
      changes(ball(7, each)).map(({ value }) => 1e3 * value),
    );
    expect(Math.max(...widths)).toBeGreaterThan(20);
    expect(Math.max(...widths)).toBeLessThanOrEqual(2 * 0.95 * 22.5);
    // No hole makes it four octaves sharper, nor flatter than closed.
    expect(changes(ball(7, "C8"))).toEqual([]);
    expect(changes(ball(7, "C3"))).toEqual([]);
    expect(changes(ball(7), 2)).toEqual([]);
    expect(changes(ball(7, "nothing"))).toEqual([]);
  });
});

describe("the foot's place", () => {
  const place = (note: string, bore: string, holes = "") =>
    footPlace(drawn(holes, `{ note: ${note}, holes: '${holes === "" ? "" : "●"}' }`, bore), 0);
  const plain = "{ at: 0, diameter: 16 }, { at: 425, diameter: 16 }";
  it("is no more than three times as far, and none above the station or the hole before it", () => {
    // As drawn it sounds 22 cents above G4: 17.2 semitones down are 2.7 times the length and some end correction, 20 beyond three times.
    expect((place("D3", plain) ?? 0) / 0.425).toBeCloseTo(2 ** (17.2 / 12), 1);
    expect(place("B2", plain)).toBeUndefined();
    // An octave up is half the length.
    expect(place("G5", plain)).toBeCloseTo(0.2132, 3);
    const station = (at: number) => `{ at: 0, diameter: 16 }, { at: ${at}, diameter: 16 }, { at: 425, diameter: 16 }`;
    // It keeps half a millimetre to a station, and to the edge of a hole 7 mm wide.
    expect(place("G5", station(212))).toBeCloseTo(0.2132, 3);
    expect(place("G5", station(213))).toBeUndefined();
    expect(place("G5", plain, "{ at: 209, diameter: 7 }")).toBeCloseTo(0.2132, 3);
    expect(place("G5", plain, "{ at: 209.5, diameter: 7 }")).toBeUndefined();
  });
});

describe("a note far from where it sounds", () => {
  /** One hole high up, that stays covered or not; places in mm. */
  const column = (note: string, register: number, at: number, foot: number, holes: string) =>
    drawn(
      `{ at: ${at}, diameter: 7 }`,
      `{ note: ${note}, holes: ${holes}, register: ${register} }`,
      `{ at: 0, diameter: 16 }, { at: ${foot}, diameter: 16 }`,
    );
  const off = (analysis: ReturnType<typeof drawn>) => Math.abs(analysis.fingerings[0]?.cents ?? Number.NaN);

  // Any place at which some register sounds it looks right from afar.
  it.each([
    ["E5", 1],
    ["G5", 1],
    ["D6", 1],
    ["F4", 2],
    ["C5", 2],
    ["E5", 2],
    ["C5", 3],
    ["B5", 3],
  ] as const)("has the foot where it is right in its own register: %s in %i", (note, register) => {
    const place = footPlace(column(note, register, 100, 425, "●"), 0) ?? Number.NaN;
    expect(off(column(note, register, 100, 1e3 * place, "●"))).toBeLessThan(RIGHT);
  });

  it.each([
    ["A4", 1, 1],
    ["C5", 1, 1],
    ["E5", 1, 0],
    ["B5", 1, 0],
    ["C5", 2, 0],
    ["B6", 2, 0],
  ] as const)("has no place of a hole that is right in another register alone: %s in %i", (note, register, found) => {
    const places = [placeOf(column(note, register, 300, 425, "○"), 0) ?? []].flat();
    expect(places).toHaveLength(found);
    for (const place of places) expect(off(column(note, register, place, 425, "○"))).toBeLessThan(RIGHT);
  });
});

it("a change for a note within half a semitone is taken without a scan that checks it, and given up without one", () => {
  /** How often the search lets others in between: after every impedance or two. */
  const steps = (note: string) => {
    const search = holeChangeSteps(drawn("{ at: 300, diameter: 7 }", `{ note: ${note}, holes: ○ }`), 0, 0);
    let count = 0;
    while (search.next().done !== true) count++;
    return count;
  };
  // As drawn it sounds 35 cents below C5, 65 above B4.
  const [near, far] = [steps("C5"), steps("B4")];
  expect(near).toBeGreaterThan(0);
  expect(far).toBeGreaterThan(2 * near);
});
