/** What findings of hands and printer complain of, a refit holds: the thumb's reach, and joints clear of holes. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { rekey } from "../../../server/src/design/rekey.js";
import { syntaxOf } from "../../../server/src/document/read.js";
import { parseNote } from "../../../server/src/music/note.js";
import { checked, fileOf } from "../../support/designs.js";

const HELD = [
  "hands/out-of-reach",
  "hands/thumb-out-of-reach",
  "hands/hole-too-wide",
  "hole/too-near",
  "hole/near-joint",
];

describe("a refit", () => {
  it.each([
    ["quay-whistle.bore.yaml", ["F4", "A4", "C5"]],
    ["ferry-flute.bore.yaml", ["C4", "E4", "G4", "B4"]],
    ["pier-notch-flute.bore.json", ["F4", "A4", "C5"]],
  ])("of %s leaves nothing to complain of in hands and holes", (name, keys) => {
    const text = readFileSync(new URL(`../../../examples/${name}`, import.meta.url), "utf8");
    const syntax = syntaxOf(name);
    for (const key of keys) {
      const note = parseNote(key);
      if (note === undefined) throw new Error(key);
      const result = rekey(fileOf(text, syntax), 0, note, "refit");
      const codes = checked(result.text, syntax).findings.map(({ code }) => code);
      expect(
        codes.filter((code) => HELD.includes(code)),
        key,
      ).toEqual([]);
    }
  });
});
