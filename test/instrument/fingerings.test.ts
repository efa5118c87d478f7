/** Fingerings: their signs, their notes, their registers, and the one that goes without saying. */
import { describe, expect, it } from "vitest";
import { signsLike } from "../../server/src/instrument/fingerings.js";
import { expectFinding, expectNothing, instrumentOf, tube } from "../support/marked.js";

const HOLES =
  "holes:\n  - { name: L1, at: 170, diameter: 7 }\n  - { name: L2, at: 200, diameter: 8 }\n  - { name: L3, at: 230, diameter: 7 }\n";
const playing = (fingering: string) => tube(`${HOLES}fingerings:\n  - ${fingering}`);
const first = (fingering: string) => instrumentOf(playing(fingering)).fingerings[0];

describe("signs for holes", () => {
  it.each([
    ["●◐○", "●◐○", [1, 0.9, 0]],
    ["x/o", "●◐○", [1, 0.9, 0]],
    ["XxO", "●●○", [1, 1, 0]],
    ['"● ●|○"', "●●○", [1, 1, 0]],
    ['" xx o "', "●●○", [1, 1, 0]],
  ])("%s", (written, pattern, covers) => {
    expectNothing(playing(`{ degree: 1, holes: ${written} }`));
    expect(first(`{ degree: 1, holes: ${written} }`)).toMatchObject({ pattern, covers });
  });

  it.each([
    ["●[[0]]●", "For an open hole write o"],
    ["x[[c]]x", "for a closed one x"],
    ["●●[[-]]", "is not a sign for a hole"],
    ["'●[[🎵]]●'", "`🎵` is not a sign for a hole"],
    ['"🎵●●"', undefined],
  ])("%s is told at the sign", (written, says) => {
    if (says !== undefined) expectFinding(playing(`{ degree: 1, holes: ${written} }`), "fingering/sign", says);
    else expectFinding(playing(`{ degree: 1, holes: "[[🎵]]●●" }`), "fingering/sign");
  });

  it.each([
    ["●● ○", "◐○●", "◐○ ●"],
    ["xo/ xx", "●○◐●●", "xo/ xx"],
    ["X|XO OO", "○●◐●○", "O|X/ XO"],
    ["xXo", "◐○●", "/oX"],
    // Of another number of holes, only the kind of signs is taken.
    ["x o", "●○◐", "xo/"],
    ["● ○", "●○◐", "●○◐"],
  ])("like %s, %s is written %s", (sample, drawn, written) => {
    expect(signsLike(sample, drawn)).toBe(written);
  });

  it.each([
    ["[[●●]]", "2 signs for 3 holes: add 1"],
    ["[[●●●○]]", "4 signs for 3 holes: take 1 away"],
    ["[[●]]", "1 sign for 3 holes: add 2"],
    ['[[""]]', "0 signs for 3 holes: add 3"],
  ])("%s are too many or too few", (written, says) => {
    expectFinding(playing(`{ degree: 1, holes: ${written} }`), "fingering/hole-count", says);
  });

  it("are required where there are holes, and not where there are none", () => {
    expectFinding(playing("[[{ degree: 1 }]]"), "fingering/hole-count", '`holes: "●●●"`');
    expectFinding(playing("[[degree]]: 1"), "fingering/hole-count");
    expectNothing(tube("fingerings:\n  - { degree: 1 }\n  - { degree: 8, register: 2 }"));
    expect(instrumentOf(tube("fingerings:\n  - { degree: 1 }")).fingerings[0]?.covers).toEqual([]);
  });

  it("that YAML takes for a number are reported, not guessed at", () => {
    expectFinding(playing("{ degree: 1, holes: [[000]] }"), "schema/wrong-kind", "one sign per hole");
    expect(first("{ degree: 1, holes: 000 }")).toMatchObject({ pattern: undefined, covers: undefined });
  });

  it("keep the note where they cannot be read", () => {
    expect(first("{ degree: 1, holes: ●●? }")?.target?.name).toBe("G4");
  });
});

describe("the note of a fingering", () => {
  it.each([
    ["degree: 1", "G4", "degree"],
    ["degree: 3", "B4", "degree"],
    ["degree: 7", "F#5", "degree"],
    ["degree: 8", "G5", "degree"],
    ["degree: b7", "F5", "degree"],
    ['degree: "#4"', "C#5", "degree"],
    ["degree: 15", "G6", "degree"],
    ["note: A4", "A4", "note"],
    ["note: bb4", "Bb4", "note"],
    ["note: F♯5", "F#5", "note"],
  ])("%s in G is %s", (written, name, kind) => {
    expectNothing(playing(`{ ${written}, holes: ●●● }`));
    expect(first(`{ ${written}, holes: ●●● }`)).toMatchObject({ target: { name }, targetKind: kind });
  });

  it("may be missing, which is reported", () => {
    expectFinding(playing("[[{ holes: ●●● }]]"), "fingering/no-target", "Give it `degree: 1`");
    expect(first("{ holes: ●●● }")).toMatchObject({ target: undefined, covers: [1, 1, 1] });
  });

  it("is one of two: the note counts", () => {
    expectFinding(playing("{ degree: 1, [[note]]: A4, holes: ●●● }"), "fingering/two-targets");
    expect(first("{ degree: 1, note: A4, holes: ●●● }")).toMatchObject({ target: { name: "A4" }, targetKind: "note" });
  });

  it("needs a key where it is a degree, reported once for all", () => {
    const fingerings = "fingerings:\n  - { degree: [[1]] }\n  - { degree: 2 }\n";
    expectFinding(tube(fingerings).replace("key: G4\n", ""), "key/missing", "for example `key: G4`");
    expectNothing(tube("fingerings:\n  - { note: G4 }").replace("key: G4\n", ""));
  });

  it("is not checked against a key that cannot be read", () => {
    expectFinding(
      tube("key: [[H4]]\nfingerings:\n  - { degree: 1 }\n  - { degree: 2 }"),
      "note/unreadable",
      "written B: B4",
    );
  });

  it.each([
    ["degree: [[0]]", "schema/wrong-kind"],
    ["degree: [[-1]]", "schema/wrong-kind"],
    ["degree: [[100]]", "schema/wrong-kind"],
    ["degree: [[2.5]]", "schema/wrong-kind"],
    ["degree: [[tonic]]", "schema/wrong-kind"],
    ["degree: [[bb3]]", "schema/wrong-kind"],
    ["[[degree]]: #4", "value/missing"],
    ["degree: [[99]]", "note/out-of-range"],
    ["note: [[G]]", "note/unreadable"],
    ["note: [[G12]]", "note/out-of-range"],
    ["note: [[C-3]]", "note/out-of-range"],
    ["note: [[Hello]]", "note/unreadable"],
    ["note: [[440]]", "schema/wrong-kind"],
  ])("%s", (written, code) => {
    expectFinding(playing(`\n    ${written}\n    holes: ●●●`), code);
  });
});

describe("a note's own faults are explained", () => {
  it.each([
    ["G", "Add the octave: G4"],
    ["bb", "Add the octave: Bb4"],
    ["h5", "written B: B5"],
    ["H", "written B: B4"],
    ["G44", "notes go from C0 to"],
    ["Sol4", "Write a letter, # or b, and the octave"],
    ["a very long text in place of any note", /`a very long text in…` is not a note/],
  ])("%s", (written, says) => {
    expectFinding(tube(`key: [[${written}]]`), /^G\d\d$/.test(written) ? "note/out-of-range" : "note/unreadable", says);
  });

  it("wherever one is written", () => {
    expectFinding(tube("measured:\n  - { note: [[X4]], hz: 400 }"), "note/unreadable");
    const panpipe = "borewright: 1\nfamily: panpipe\npipes:\n  - { note: [[X4]], length: 150, diameter: 12 }\n";
    expectFinding(panpipe, "note/unreadable", "", { alone: false });
  });
});

describe("the register", () => {
  it.each([
    ["", 1],
    [", register: 2", 2],
    [", register: =1 + 2", 3],
    [", register: 0", 1],
    [", register: 1.5", 1],
    [", register: 17", 1],
    [", register: high", 1],
  ])("%s counts as %d", (written, register) => {
    expect(first(`{ degree: 1, holes: ●●●${written} }`)?.register).toBe(register);
  });

  it("is reported where it is not one", () => {
    expectFinding(playing("{ degree: 1, holes: ●●●, register: [[0]] }"), "value/out-of-range", "at least 1");
    expectFinding(playing("{ degree: 1, holes: ●●●, register: [[1.5]] }"), "value/out-of-range", "a whole number");
  });
});

describe("without any fingerings", () => {
  it("a design with a key plays it with every hole closed", () => {
    expectNothing(tube(HOLES));
    expect(instrumentOf(tube(HOLES)).fingerings).toEqual([
      {
        path: ["key"],
        pattern: "●●●",
        covers: [1, 1, 1],
        target: expect.objectContaining({ name: "G4" }),
        targetKind: "degree",
        register: 1,
        breath: 0,
      },
    ]);
    expect(instrumentOf(tube()).fingerings).toMatchObject([{ covers: [], pattern: "" }]);
  });

  it("a design without a key, or with one that cannot be read, plays nothing", () => {
    expect(instrumentOf(tube().replace("key: G4\n", "")).fingerings).toEqual([]);
    expect(instrumentOf(tube("key: H4")).fingerings).toEqual([]);
  });

  it("written but empty, they are not replaced", () => {
    expect(instrumentOf(tube("fingerings: []")).fingerings).toEqual([]);
  });

  it("entries that are not fingerings are left out, the others keep their places", () => {
    const text = tube("fingerings:\n  - nonsense\n  - { degree: 2 }");
    expect(instrumentOf(text).fingerings).toMatchObject([{ path: ["fingerings", 1] }]);
  });
});
