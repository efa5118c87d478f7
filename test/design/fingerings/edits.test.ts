/** A fingering written into a design, and which notes are asked for: text in, text or names out. */
import { describe, expect, it } from "vitest";
import { addingEdits, replacingEdits } from "../../../server/src/design/fingerings/fingeringEdits.js";
import { chromaticNotes } from "../../../server/src/design/fingerings/notes.js";
import type { Syntax } from "../../../server/src/document/designFile.js";
import { applyEdits } from "../../../server/src/document/edits.js";
import { parseNote } from "../../../server/src/music/note.js";
import { documentOf, fileOf } from "../../support/designs.js";
import { instrumentOf, tube } from "../../support/marked.js";

const HOLES = "holes:\n  - { at: 200, diameter: 7 }\n  - { at: 240, diameter: 6 }\n  - { at: 280, diameter: 6 }\n";
const design = (fingerings: string, key = "key: G4\n") => tube(`${key}${HOLES}fingerings:\n${fingerings}`);
const FOUND = { pattern: "○●◐", register: 2 };
const noteOf = (name: string) => parseNote(name) ?? expect.fail(name);

function edited(text: string, kind: "replace" | "add", found = FOUND, note = "A4", syntax: Syntax = "yaml") {
  const document = documentOf(fileOf(text, syntax));
  const [first] = document.resolution.instrument.fingerings;
  if (first === undefined) throw new Error("no fingering");
  return applyEdits(
    text,
    kind === "replace" ? replacingEdits(document, first, found) : addingEdits(document, first, noteOf(note), found),
  );
}

describe("a fingering that replaces another", () => {
  it("is written with its signs, and its register where that changes", () => {
    expect(edited(design("  - { note: G4, holes: ●●● }\n"), "replace")).toBe(
      design("  - { note: G4, holes: ○●◐, register: 2 }\n"),
    );
    expect(edited(design("  - { note: G4, holes: xxx, register: 2 }\n"), "replace")).toBe(
      design("  - { note: G4, holes: ox/, register: 2 }\n"),
    );
    expect(edited(design("  - { note: G4, holes: xxx, register: 3 }\n"), "replace")).toBe(
      design("  - { note: G4, holes: ox/, register: 2 }\n"),
    );
    expect(
      edited(design("  - { note: G4, holes: xxx, register: 3 }\n"), "replace", { pattern: "○●●", register: 1 }),
    ).toBe(design("  - { note: G4, holes: oxx, register: 1 }\n"));
  });
  it("says nothing of a register that stays, and names the first where that is another", () => {
    expect(edited(design("  - { note: G4, holes: ●●● }\n"), "replace", { pattern: "○●●", register: 1 })).toBe(
      design("  - { note: G4, holes: ○●● }\n"),
    );
  });
  it("changes nothing where it is the same", () => {
    const same = design("  - { note: G4, holes: ○●◐ }\n");
    expect(edited(same, "replace")).toBe(same);
  });
});

describe("a fingering that is added", () => {
  it("stands behind the other, by note or by degree as that one is", () => {
    const more = "  - { note: B4, holes: ●○○ }\n";
    expect(edited(design(`  - { note: G4, holes: ●●● }\n${more}`), "add")).toBe(
      design(`  - { note: G4, holes: ●●● }\n  - { note: A4, holes: ○●◐, register: 2 }\n${more}`),
    );
    const degrees = "  - { degree: 1, holes: ●●● }\n";
    expect(edited(design(degrees), "add", { ...FOUND, register: 1 })).toBe(
      design(`${degrees}  - { degree: 2, holes: ○●◐ }\n`),
    );
    // Without a key there is nothing to count from.
    expect(edited(design(degrees, "key: no\n"), "add")).toContain("  - { note: A4, holes: ○●◐, register: 2 }\n");
  });
  it("is quoted as the other is, and in JSON throughout", () => {
    const quoted = "  - { note: G4, holes: 'x x x' }\n";
    expect(edited(design(quoted), "add", { ...FOUND, register: 1 })).toBe(
      design(`${quoted}  - { note: A4, holes: 'o x /' }\n`),
    );
    const json = (fingerings: string, key = '"G4"') =>
      `{ "borewright": 1, "key": ${key}, "mouth": "ideal", "wall": 3, "bore": [{ "at": 0, "diameter": 16 }, { "at": 352, "diameter": 16 }], "holes": [{ "at": 200, "diameter": 7 }, { "at": 240, "diameter": 6 }, { "at": 280, "diameter": 6 }], "fingerings": [${fingerings}] }`;
    const after = JSON.parse(edited(json('{ "note": "G4", "holes": "xxx" }'), "add", FOUND, "A4", "json"));
    expect(after.fingerings).toEqual([
      { note: "G4", holes: "xxx" },
      { note: "A4", holes: "ox/", register: 2 },
    ]);
    const byDegree = (note: string) =>
      JSON.parse(edited(json('{ "degree": 1, "holes": "xxx" }'), "add", FOUND, note, "json")).fingerings[1].degree;
    // A whole number is one, anything else a text.
    expect([byDegree("A4"), byDegree("Bb4")]).toEqual([2, "b3"]);
  });
});

describe("the notes that are asked for", () => {
  const names = (fingerings: string, key?: string) =>
    chromaticNotes(instrumentOf(design(fingerings, key))).map(({ name }) => name);
  it("are every semitone from the lowest to the highest, spelled as the design does", () => {
    expect(names("  - { note: A#4, holes: ●●● }\n  - { note: C5, holes: ●●○ }\n", "key: A4\n")).toEqual([
      "A4",
      "A#4",
      "B4",
      "C5",
    ]);
    expect(names("  - { note: C5, holes: ●●○ }\n", "key: no\n")).toHaveLength(13);
  });
  it("are an octave from the key where there are no fingerings, and none where there is neither", () => {
    const octave = chromaticNotes(instrumentOf(tube("key: G4\n"))).map(({ midi }) => midi);
    expect(octave).toEqual(Array.from({ length: 13 }, (_, i) => 67 + i));
    expect(chromaticNotes(instrumentOf(tube("key: no\n")))).toEqual([]);
  });
});
