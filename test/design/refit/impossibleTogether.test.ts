/**
 * Notes that no tube and no chamber plays together, for one forgotten or made up `register`, or a slip in a note's name: named and left aside,
 * however few the notes are. Opening a hole raises a register, and a fingering's registers move together (Rayleigh, from memory).
 */
import { describe, expect, it } from "vitest";
import { retune } from "../../../server/src/design/refit/rekeyByRefit.js";
import { rekey } from "../../../server/src/design/rekey/rekey.js";
import { CannotRekey, type RekeyResult } from "../../../server/src/design/rekey/rekeyResult.js";
import { fileOf } from "../../support/designs.js";
import { tube } from "../../support/marked.js";
import { note } from "../../support/vessel.js";

const whistle = (holes: string, notes: readonly string[], length = 398) =>
  tube(`tolerance: 10
mouth: { window: { width: 9, cutUp: 4.5 } }
bore: [{ at: 0, diameter: 16 }, { at: ${length}, diameter: 16 }]
holes: [${holes}]
fingerings:
${notes.map((each) => `  - { note: ${each} }\n`).join("")}`);
const ONE = "{ at: 300, diameter: 8 }";
const TWO = "{ at: 270, diameter: 8 }, { at: 320, diameter: 8 }";
const [G4, B4, E5] = ["G4, holes: x", "B4, holes: o", "E5, holes: x"];
const [G5, B5] = ["G5, holes: x, register: 2", "B5, holes: o, register: 2"];

/** Names of notes left aside, and the largest deviation of the rest. */
function told({ remarks, after }: RekeyResult) {
  const aside = remarks.flatMap((remark) => /^(\S+) cannot be reached: .* It is left aside/.exec(remark)?.[1] ?? []);
  const rest = after.fingerings.flatMap(({ cents, fingering }) =>
    aside.includes(fingering.target?.name ?? "") ? [] : [Math.abs(cents ?? Number.POSITIVE_INFINITY)],
  );
  return { aside, worst: Math.max(...rest) };
}

/** Retuned, and retuned again. */
function tuned(text: string) {
  const result = retune(fileOf(text), 0, "all");
  expect(retune(fileOf(result.text), 0, "all").text).toBe(result.text);
  return { ...result, ...told(result) };
}

describe("a note that the others rule out", () => {
  it.each([
    ["three notes", whistle(ONE, [G4, B4, E5]), ["E5"]],
    ["four notes", whistle(ONE, [G4, B4, G5, E5]), ["E5"]],
    ["five notes", whistle(ONE, [G4, B4, G5, B5, E5]), ["E5"]],
    ["five notes, it the first of them", whistle(ONE, [E5, G4, B4, G5, B5]), ["E5"]],
    ["five notes of a tube far too short", whistle("{ at: 250, diameter: 8 }", [G4, B4, G5, B5, E5], 330), ["E5"]],
    [
      "six notes, two of which lack their register",
      whistle(TWO, ["G4, holes: xx", "A4, holes: xo", "B4, holes: oo", "G5, holes: xx", "A5, holes: xo"]),
      ["G5", "A5"],
    ],
    [
      "six notes, all upper ones without their register",
      whistle(TWO, [
        "G4, holes: xx",
        "A4, holes: xo",
        "B4, holes: oo",
        "G5, holes: xx",
        "A5, holes: xo",
        "B5, holes: oo",
      ]),
      ["G5", "A5", "B5"],
    ],
    [
      "one of a register that its neighbours have not, alone of its fingering",
      whistle(TWO, ["G4, holes: xx", "A4, holes: xo, register: 2", "B4, holes: oo", "G5, holes: xx, register: 2"]),
      ["A4"],
    ],
  ])("is left aside, and the rest come into tune: %s", (_, text, names) => {
    const { aside, worst, obstacles } = tuned(text);
    expect(aside.toSorted()).toEqual(names.toSorted());
    expect(worst).toBeLessThan(5);
    expect(obstacles).toEqual([]);
  });
  it("is left aside in another key, too", () => {
    const moved = rekey(fileOf(whistle(ONE, [G4, B4, G5, B5, E5])), 0, note("F4"), "refit");
    expect(told(moved)).toEqual({ aside: ["D5"], worst: expect.closeTo(0, -1) });
    expect(rekey(fileOf(moved.text), 0, note("F4"), "refit").text).toBe(moved.text);
  });
  it("is told with the register that it lacks", () => {
    const { remarks } = tuned(whistle(ONE, [G4, B4, "G5, holes: x", B5]));
    expect(remarks).toEqual([
      expect.stringMatching(/^G5 cannot .* Register 2 of that fingering lies near it, .*: say so \(register: 2\)\.$/),
    ]);
  });
  it("is not moved farther off for others that stay far off", () => {
    const text = whistle("{ at: 300, diameter: 8, limits: { at: [299, 301] } }", [G4, B4, G5, B5, E5], 460);
    const { before, after } = retune(fileOf(text), 0, "holes");
    expect(after.fingerings.map(({ cents }) => cents)).toEqual(before.fingerings.map(({ cents }) => cents));
  });
});

describe("notes that contradict each other little", () => {
  const semitone = whistle(TWO, [
    "G4, holes: xx",
    "A4, holes: xo",
    "B4, holes: oo",
    "A#4, holes: xo",
    "G5, holes: xx, register: 2",
  ]);
  it("are both tried, and the one that is left aside stays it", () => {
    const { aside, worst } = tuned(semitone);
    expect(aside).toEqual(["A4"]);
    expect(worst).toBeLessThan(5);
  });
  it("are told that the bore may help where only holes may move", () => {
    const { remarks } = retune(fileOf(semitone), 0, "holes");
    expect(remarks.join()).toMatch(/A4 cannot be reached: .*\. Let the bore change, too, give it another fingering,/);
  });
  it("are all kept where the octave is no worse than a stopper may leave it", () => {
    expect(tuned(whistle(ONE, [G4, B4, G5, B5])).aside).toEqual([]);
  });
  it("in a row of pipes, each cut for itself, contradict nothing", () => {
    const pipes = `borewright: 1
family: panpipe
key: D4
pipes: [{ note: A4, length: 51.4, diameter: 6.3 }, { note: F4, length: 170.5, diameter: 5 }]
`;
    expect(told(retune(fileOf(pipes), 0, "all"))).toEqual({ aside: [], worst: expect.closeTo(0, 0) });
  });
});

/** Two hard limits, and a note of another register: what comes nearest cannot be drawn. */
const CANNOT_BE_DRAWN = `borewright: 1
family: rim
key: C5
temperament: just
tolerance: 2
print: { scale: 93.5 %, holeUndersize: 0, rounding: 0.05 }
hands: { fingertip: 8.6 }
mouth: { cover: 0.63 }
bore: [{ at: 0, diameter: 7 }, { at: 101.04, diameter: 7 }, { at: 101.04, diameter: 6.3 }, { at: 505.2, diameter: 7 }]
wall: 2.2
holes:
  - { name: H1, at: 196.04, diameter: 3.36, limits: { at: [196.04, 196.04], diameter: [3.36, 3.36] } }
  - { name: H2, at: 363.87, diameter: 2.87, side: back, limits: { at: [363.87, 363.87], diameter: [2.87, 2.87] } }
  - { name: H3, at: 398.01, diameter: 2.87, limits: { at: [392.01, 404.01], diameter: [2.87, 2.87] } }
  - { name: H4, at: 425.62, diameter: 4.34 }
  - { name: H5, at: 454.68, diameter: 3.15, side: back }
fingerings: [{ degree: 5, holes: ●◐○◐● }, { degree: 4, holes: ●●●○○, register: 2 }]
`;

it("a search for what stands in the way that ends in nothing that can be drawn says so, and is no fault of ours", () => {
  const work = () => retune(fileOf(CANNOT_BE_DRAWN), 0, "all");
  expect(work).not.toThrow(/no dimensions as drawn/);
  try {
    expect(work().obstacles).toHaveLength(1);
  } catch (error) {
    expect(error).toBeInstanceOf(CannotRekey);
  }
});
