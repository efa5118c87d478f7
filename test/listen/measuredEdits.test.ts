/** Heard notes in the text. */
import { describe, expect, it } from "vitest";
import { applyEdits } from "../../server/src/document/edits.js";
import { readDesign } from "../../server/src/document/read.js";
import { type MeasuredEntry, measuredEdits } from "../../server/src/listen/measuredEdits.js";

const ENTRIES: readonly MeasuredEntry[] = [
  { note: "G4", hz: 391.02, uncertainty: 3.1, temperature: 23, holes: undefined },
  { note: "A4", hz: 438.2, uncertainty: 2.4, temperature: 23, holes: "●●○" },
];

function edited(text: string, replace = false, syntax: "yaml" | "json" = "yaml") {
  const document = readDesign(text, syntax).documents[0];
  if (document === undefined) throw new Error("no document");
  const { edits, kept } = measuredEdits(document, ENTRIES, document.resolution.instrument.measured, replace);
  const after = applyEdits(text, edits);
  const again = readDesign(after, syntax).documents[0];
  return { after, kept, measured: again?.resolution.instrument.measured.map(({ note, hz }) => [note.name, hz]) };
}

const HEAD =
  "borewright: 1\nkey: G4 # the key\nholes: [{ at: 100, diameter: 6 }, { at: 120, diameter: 6 }, { at: 140, diameter: 6 }]\n";
const BOTH = [
  ["G4", 391.02],
  ["A4", 438.2],
];

describe("measuredEdits", () => {
  it.each([
    ["no list", HEAD],
    ["no last line break", HEAD.trimEnd()],
    ["a key without a list", `${HEAD}measured:\n`],
    ["an empty list", `${HEAD}measured: [] # none yet\n`],
  ])("writes the list where there is %s, and keeps every other byte", (_, text) => {
    const { after, measured } = edited(text);
    expect(measured).toEqual(BOTH);
    expect(after.startsWith(HEAD.trimEnd())).toBe(true);
    expect(after).not.toMatch(/ \n/);
  });

  it("adds to a block list in its own indent, after what stands beside the last item", () => {
    const { after } = edited(`${HEAD}measured:\n    - { note: C5, hz: 520 } # by ear\nwall: 3\n`);
    expect(after).toContain(
      "    - { note: C5, hz: 520 } # by ear\n    - { note: G4, hz: 391.02, temperature: 23, uncertainty: 3.1 }\n",
    );
    expect(after.endsWith("wall: 3\n")).toBe(true);
  });

  it("adds to a list between brackets, in JSON too", () => {
    expect(edited(`${HEAD}measured: [{ note: C5, hz: 520 }]\n`).measured).toEqual([["C5", 520], ...BOTH]);
    const json =
      '{\r\n  "borewright": 1,\r\n  "holes": [{ "at": 1, "diameter": 1 }, { "at": 5, "diameter": 1 }, { "at": 9, "diameter": 1 }]\r\n}\r\n';
    expect(edited(json, false, "json").measured).toEqual(BOTH);
  });

  it("keeps an existing value and says so; replaces it when told to", () => {
    const text = `${HEAD}measured:\n  - { note: G4, hz: 380 } # old\n`;
    expect(edited(text)).toMatchObject({ kept: ["G4"], measured: [["G4", 380], BOTH[1]] });
    const { after, kept } = edited(text, true);
    expect(kept).toEqual([]);
    expect(after).toContain("{ note: G4, hz: 391.02, temperature: 23, uncertainty: 3.1 } # old");
  });
});
