/** What decides a note: a hole, the length, the size. Which of them: common practice, no source. */
import { describe, expect, it } from "vitest";
import { analyse } from "../../../server/src/design/predict/analyse.js";
import {
  governedFingerings,
  governingHole,
  governingHoleOf,
  isVentedOctave,
  nameOfFingering,
} from "../../../server/src/design/predict/governing.js";
import { documentOf, fileOf, WHISTLE } from "../../support/designs.js";
import { panPipe, vessel } from "../../support/families.js";

const instrumentOf = (text: string) => documentOf(fileOf(text)).resolution.instrument;
const analysisOf = (text: string) => analyse(instrumentOf(text));

describe("what decides a note of a tube", () => {
  it.each([
    [[1, 0, 0], 1],
    [[0, 0, 0], 0],
    [[0.9, 0.4, 0], 1],
    // A hole that is half covered or more is a vent beside an open one.
    [[0.5, 0.4, 1], 1],
    [[1, 0.5, 1], 1],
    [[0.5, 0.9, 1], 0],
    [[1, 1, 1], undefined],
  ] as const)(
    "of the covers %j is the open hole nearest the mouth, a half one where no other is open",
    (covers, hole) => {
      expect(governingHole(covers)).toBe(hole);
      expect(governingHoleOf(instrumentOf(WHISTLE), { covers, register: 1 })).toBe(hole);
    },
  );
  it.each([
    [[0, 1, 1], 2, true],
    [[0.5, 1, 1, 1], 2, true],
    [[1, 1, 1], 2, false],
    [[0, 1, 1], 1, false],
    [[0, 1, 1], 3, false],
    [[0, 1], 2, false],
    [[0, 1, 0.5], 2, false],
    [[0, 0, 1], 2, false],
    [[], 2, false],
  ] as const)(
    "of the covers %j in register %i: whether the uppermost hole only helps the octave",
    (covers, register, is) => {
      expect(isVentedOctave(covers, register)).toBe(is);
      if (is) expect(governingHoleOf(instrumentOf(WHISTLE), { covers, register })).toBeUndefined();
    },
  );
  it("is nothing where its holes cannot be read", () => {
    expect(governingHoleOf(instrumentOf(WHISTLE), { covers: undefined, register: 1 })).toBeUndefined();
  });
  it("groups the notes from the mouth on, the worst first, the length last", () => {
    const groups = governedFingerings(analysisOf(WHISTLE.replace("394.1", "380")));
    expect(groups).toEqual([
      { hole: 1, fingerings: [5] },
      { hole: 2, fingerings: [4] },
      { hole: 3, fingerings: [3] },
      { hole: 4, fingerings: [2] },
      { hole: 5, fingerings: [1] },
      { hole: undefined, fingerings: [6, 0] },
    ]);
    // Listed the other way round, the worst is still the first; what has no note, or no resonance, is not there.
    const turned = WHISTLE.replace("394.1", "380")
      .replace("degree: 1, holes: ●●●●●●", "degree: 8, holes: ○●●●●●, register: 2")
      .replace("degree: 8, holes: ●●●●●●, register: 2", "degree: 1, holes: ●●●●●●")
      .replace("{ degree: 2, ", "{ note: nothing, ")
      .replace("{ degree: 3, holes: ●●●●○○ }", "{ degree: 3, holes: ●●●●○○, register: 16 }");
    const found = analysisOf(turned);
    expect(Math.abs(found.fingerings[0]?.cents ?? 0)).toBeGreaterThan(Math.abs(found.fingerings[6]?.cents ?? 0));
    expect(governedFingerings(found)).toEqual([
      { hole: 1, fingerings: [5] },
      { hole: 2, fingerings: [4] },
      { hole: 3, fingerings: [3] },
      { hole: undefined, fingerings: [0, 6] },
    ]);
  });
  it("is the first open hole also where another is opened less often", () => {
    // A forked fingering: hole 4 is open nowhere else.
    const forked = WHISTLE.replace("holes: ●○○○○○ }", "holes: ●○●○●● }").replace("holes: ●●●○○○ }", "holes: ●●●●●○ }");
    expect(governedFingerings(analysisOf(forked))[0]).toEqual({ hole: 1, fingerings: [5] });
  });
});

describe("what decides a note of others", () => {
  it("is each pipe for itself, if it has a note", () => {
    const each = (text: string) => governedFingerings(analysisOf(text));
    expect(each(panPipe(""))).toEqual([0, 1, 2].map((index) => ({ hole: undefined, fingerings: [index] })));
    expect(each(panPipe("").replace("length: 140, ", ""))).toEqual(
      [0, 2].map((index) => ({ hole: undefined, fingerings: [index] })),
    );
  });
  const scale = (...patterns: readonly string[]) => {
    const holes = ["60", "-60", "120"].map((angle) => `{ diameter: 6, angle: ${angle} }`).join(", ");
    const notes = patterns.map((pattern, i) => `{ note: ${"CDEFG"[i]}5, holes: ${pattern} }`).join(", ");
    const { instrument, fingerings } = analysisOf(vessel(`holes: [${holes}]\nfingerings: [${notes}]`));
    return fingerings.map(({ fingering }) => governingHoleOf(instrument, fingering));
  };
  it("is the hole of a vessel that is opened last, of those opened as often the last listed", () => {
    expect(scale("●●●", "●○●", "○○●", "○○○")).toEqual([undefined, 1, 0, 2]);
    expect(scale("●●●", "○●○", "○○○")).toEqual([undefined, 2, 1]);
  });
  it("is a half-closed hole of a vessel only for want of another, and such a one does not count as opened", () => {
    // Opened twice, twice and never.
    expect(scale("○○●", "●◐●", "◐○●", "○●●", "●●◐")).toEqual([1, 1, 1, 0, 2]);
    expect(scale("●○◐", "●○●")).toEqual([1, 1]);
    expect(scale("◐◐●", "◐●●", "●○●", "○○●")).toEqual([0, 0, 1, 0]);
  });
});

it("a note is named as it should sound, else by how it is fingered, else not at all", () => {
  const { fingerings } = analysisOf(WHISTLE.replace("note: D5", "note: nothing"));
  expect(fingerings.slice(3, 5).map(nameOfFingering)).toEqual(["C5", "●●○○○○"]);
  const [first] = analysisOf(WHISTLE.replace("{ degree: 1, holes: ●●●●●● }", "{ note: nothing }")).fingerings;
  expect(first && nameOfFingering(first)).toBe("this fingering");
});
