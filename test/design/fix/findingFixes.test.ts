/** Which fixes a finding has: what it says was meant, what puts its notes right, and nothing for all others. */
import { describe, expect, it } from "vitest";
import { drained } from "../../../server/src/acoustics/steps.js";
import { checkDocument } from "../../../server/src/design/check.js";
import { findingFixes } from "../../../server/src/design/fix/findingFixes.js";
import { documentOf, fileOf } from "../../support/designs.js";
import { tube } from "../../support/marked.js";

/** Titles of the fixes of each finding, by its code. */
function titlesOf(text: string, fingering?: number) {
  const file = fileOf(text);
  const document = documentOf(file);
  const { findings, analysis } = checkDocument(document);
  return findings.map((finding) => [
    finding.code,
    drained(findingFixes(file, document, analysis, finding, fingering)).map(({ title }) => title),
  ]);
}
const NOTES =
  "tolerance: 20\nbore: [{ at: 0, diameter: 16 }, { at: 425, diameter: 16 }]\nholes: [{ name: A, at: 320, diameter: 7 }]\n";

describe("the fixes of a finding", () => {
  it("are what it says was meant", () => {
    expect(titlesOf(tube("keyy: G4\n"))).toContainEqual(["schema/unknown-property", []]);
    expect(titlesOf(tube("walll: 4\n").replace("wall: 3\n", ""))).toContainEqual([
      "schema/unknown-property",
      ["Change `walll` to `wall`"],
    ]);
  });
  it("are none where it says nothing of how it is put right", () => {
    expect(titlesOf("borewright: 1\n")).toEqual([["design/incomplete", []]]);
  });
  it("are of the worst note, or of the one that is asked for", () => {
    const text = tube(`${NOTES}fingerings: [{ note: G#4, holes: ● }, { note: A4, holes: ● }]\n`);
    const fix = (name: string) => [["pitch/out-of-tune", [expect.stringMatching(`so that ${name} is in tune`)]]];
    expect(titlesOf(text)).toEqual(fix("A4"));
    expect(titlesOf(text, 0)).toEqual(fix("G#4"));
  });
  it("come with the smallest change first", () => {
    const off = (at: number) => tube(`${NOTES.replace("at: 320", `at: ${at}`)}fingerings: [{ note: B4, holes: ○ }]\n`);
    // Beyond what widening does, only the move is left.
    for (const at of [290, 338]) {
      const found = titlesOf(off(at)).flatMap(([, titles]) => titles as string[]);
      const size = (title: string) =>
        title.startsWith("Move")
          ? Number(/ ([\d.]+) mm/.exec(title)?.[1])
          : Math.abs(Number(/to ([\d.]+) mm/.exec(title)?.[1]) - 7);
      expect(found.length).toBeGreaterThan(0);
      expect(found.map(size)).toEqual(found.map(size).sort((a, b) => a - b));
    }
  });
  it("are of the size and of the key where all notes are off together", () => {
    const shifted = tube(
      `${NOTES}key: A4\nfingerings: [{ degree: 1, holes: ● }, { degree: 1, holes: ● }, { degree: 8, holes: ●, register: 2 }, { note: C#5, holes: ○ }]\n`,
    );
    const [code, titles] = titlesOf(shifted)[0] ?? [];
    expect([code, titles]).toEqual([
      "pitch/out-of-tune",
      [
        expect.stringMatching(/^Print it at \d+\.\d+ %, so that the notes are in tune on the whole$/),
        "Keep its size and call its key G4",
      ],
    ]);
  });
});
