/** What a design is to be in tune with, and what was measured of it. */
import { describe, expect, it } from "vitest";
import { frequencyOf } from "../../server/src/music/tuning.js";
import { expectFinding, expectNothing, instrumentOf, tube } from "../support/marked.js";

const EQUAL = "[0, 100, 200, 300, 400, 500, 600, 700, 800, 900, 1000, 1100]";

/** Hz of the key's note in a design. */
function keyHz(changes: string): number {
  const { key, tuning } = instrumentOf(tube(changes));
  if (key === undefined) throw new Error("no key");
  return frequencyOf(key, tuning);
}

describe("pitch standard and temperament", () => {
  it("are 440 Hz (ISO 16:1975) and equal by default", () => {
    expect(instrumentOf(tube())).toMatchObject({ temperament: "equal", tuning: { pitchStandard: 440, root: 0 } });
    expect(keyHz("key: A4")).toBe(440);
    // Middle C of equal temperament at 440 Hz: 440·2^(−9/12), common knowledge of the trade.
    expect(keyHz("key: C4")).toBeCloseTo(261.6256, 4);
  });

  it("can be another", () => {
    expect(keyHz("key: A4\npitchStandard: 415")).toBe(415);
    expect(keyHz("key: A4\npitchStandard: =440*2**(-1/12)")).toBeCloseTo(415.3047, 4);
    expectFinding(tube("pitchStandard: [[44]]"), "value/out-of-range", "at least 300 Hz, and is 44 Hz");
    expect(instrumentOf(tube("pitchStandard: 44")).tuning.pitchStandard).toBe(440);
  });

  it.each(["equal", "just", "pythagorean", "meantone", "werckmeister-3", "kirnberger-3", "vallotti"])(
    "%s is known",
    (name) => {
      expectNothing(tube(`temperament: ${name}`));
      const { temperament, tuning } = instrumentOf(tube(`temperament: ${name}`));
      expect(temperament).toBe(name);
      expect(tuning.cents).toHaveLength(12);
      expect(tuning.cents[0]).toBe(0);
    },
  );

  it("that is misspelt is reported, and equal is used", () => {
    expectFinding(tube("temperament: [[meentone]]"), "schema/unknown-word", "Did you mean `meantone`?");
    expect(instrumentOf(tube("temperament: meentone")).temperament).toBe("equal");
  });
});

describe("a temperament of twelve values", () => {
  it("are taken as written, formulas included", () => {
    const text = tube(`temperament: ${EQUAL.replace("700", "=700 + 1.955")}`);
    expectNothing(text);
    const { temperament, tuning } = instrumentOf(text);
    expect(temperament).toBe("custom");
    expect(tuning.cents[7]).toBeCloseTo(701.955, 9);
  });

  it.each([
    [`[[temperament]]: [0, 100]`, "schema/wrong-count", "exactly 12 entries, not 2"],
    [
      `temperament: ${EQUAL.replace("700", "[[1.955]]")}`,
      "temperament/stray-cents",
      "more than a semitone away from the 700",
    ],
    [`temperament: ${EQUAL.replace("0,", " [[100]],")}`, "temperament/stray-cents", "away from the 0"],
    [`temperament: ${EQUAL.replace("700", "[[fifth]]")}`, "schema/wrong-kind", "a number or a formula"],
    [`temperament: ${EQUAL.replace("700", "[[.nan]]")}`, "value/not-finite", "ordinary, finite number"],
    [`temperament: [[12]]`, "schema/wrong-kind", "not `12`"],
  ])("%s", (changes, code, says) => {
    expectFinding(tube(changes), code, says);
    const plain = changes.replace(/\[\[|\]\]/g, "");
    expect(instrumentOf(tube(plain)).temperament).toBe("equal");
  });

  it("may be arbitrary bytes less than a semitone off", () => {
    expectNothing(tube(`temperament: ${EQUAL.replace("700", "799.9")}`));
  });
});

describe("where a temperament starts", () => {
  it.each([
    ["temperament: just", 7],
    ["temperament: just\nkey: Bb4", 10],
    ["temperament: just\ntemperamentRoot: D", 2],
    ["temperament: meantone", 0],
    ["temperament: meantone\ntemperamentRoot: Eb", 3],
    ["temperament: meantone\ntemperamentRoot: f♯", 6],
    [`temperament: ${EQUAL}`, 0],
    [`temperament: ${EQUAL}\ntemperamentRoot: B`, 11],
    ["temperament: just\ntemperamentRoot: Cb", 11],
  ])("%s", (changes, root) => {
    expectNothing(tube(changes));
    expect(instrumentOf(tube(changes)).tuning.root).toBe(root);
  });

  it("is reported where it is not a letter", () => {
    expectFinding(tube("temperamentRoot: [[H]]"), "schema/wrong-kind", "such as `C` or `D`");
    expectFinding(tube("temperamentRoot: [[G4]]"), "schema/wrong-kind");
  });

  it("makes the third above the key pure in just intonation: 5 to 4", () => {
    const third = keyHz("key: B4\ntemperament: just\ntemperamentRoot: G");
    expect(third / keyHz("key: G4\ntemperament: just\ntemperamentRoot: G")).toBeCloseTo(5 / 4, 12);
  });
});

describe("the tolerance", () => {
  it("is the design's own, or undefined", () => {
    expect(instrumentOf(tube("tolerance: 7.5")).tolerance).toBe(7.5);
    expect(instrumentOf(tube()).tolerance).toBeUndefined();
    expectFinding(tube("tolerance: [[0]]"), "value/not-positive");
    expect(instrumentOf(tube("tolerance: 0")).tolerance).toBeUndefined();
  });
});

describe("measured notes", () => {
  const HOLES = "holes:\n  - { at: 170, diameter: 7 }\n  - { at: 200, diameter: 8 }\n";

  it("keep what was measured", () => {
    const text = tube(
      `${HOLES}measured:\n  - { note: G4, hz: 389.4, temperature: 23 }\n  - { note: A4, hz: =440 + 1, holes: ●○ }`,
    );
    expectNothing(text);
    expect(instrumentOf(text).measured).toEqual([
      {
        path: ["measured", 0],
        note: expect.objectContaining({ name: "G4" }),
        hz: 389.4,
        covers: undefined,
        temperature: 23,
        uncertainty: 6,
      },
      {
        path: ["measured", 1],
        note: expect.objectContaining({ name: "A4" }),
        hz: 441,
        covers: [1, 0],
        temperature: undefined,
        uncertainty: 6,
      },
    ]);
  });

  it.each([
    ["{ note: [[X]], hz: 400 }", "note/unreadable"],
    ["{ note: G4, hz: [[0]] }", "value/not-positive"],
    ["[[{ note: G4 }]]", "schema/missing-property"],
    ["{ note: G4, hz: 400, holes: [[●]] }", "fingering/hole-count"],
    ["{ note: G4, hz: 400, holes: ●[[?]] }", "fingering/sign"],
    ["{ note: G4, hz: [[390 Hz]] }", "schema/wrong-kind"],
  ])("%s is told and left out", (entry, code) => {
    const text = tube(`${HOLES}measured:\n  - ${entry}\n  - { note: A4, hz: 441 }`);
    expectFinding(text, code);
    expect(instrumentOf(text.replace(/\[\[|\]\]/g, "")).measured).toMatchObject([{ path: ["measured", 1] }]);
  });

  it("or a correction make the mouth a known one", () => {
    expect(instrumentOf(tube("mouth: { correction: 42 }")).calibrated).toBe(true);
    expect(instrumentOf(tube("mouth: { window: { width: 9, cutUp: 4 }, extra: 0.8 }")).calibrated).toBe(true);
    expect(instrumentOf(tube("mouth: { window: { width: 9, cutUp: 4 } }")).calibrated).toBe(false);
    expect(instrumentOf(tube()).calibrated).toBe(false);
  });
});
