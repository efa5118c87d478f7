/** Limits that several places tell are one number each: the pages quote the constants that the code goes by. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { CHECKED, KEPT_BY_REFITS } from "../../server/src/acoustics/checkedRanges.js";
import { DEFAULTS } from "../../server/src/instrument/defaults.js";
import { rangeOfNotes } from "../../server/src/music/note.js";
import { checked } from "../support/designs.js";

const page = (name: string) => readFileSync(join(import.meta.dirname, "../../docs", name), "utf8").replace(/\s+/g, " ");
const [narrowest, widest] = CHECKED.holeOverBore;
const [lowest, highest] = rangeOfNotes();

describe("limits", () => {
  it.each([
    ["rules/model-out-of-range.md", `a hole wider than ${widest} of the bore`],
    [
      "rules/model-out-of-range.md",
      `an oval hole's length beyond ${CHECKED.lengthOverWidth.join(" to ")} times its width`,
    ],
    ["rules/model-out-of-range.md", `an undercut steeper than ${CHECKED.undercutSlope} of the chimney`],
    ["rules/model-out-of-range.md", `a closed space behind a window longer than ${CHECKED.windowSpace} bore radii`],
    ["rules/model-out-of-range.md", `ka (wave number times bore radius) above ${CHECKED.waveNumberTimesBore}`],
    ["refit-proof.md", `hole over bore ${narrowest} … ${widest},`],
    ["coupled-model.md", `hole over bore ${narrowest} to ${widest}`],
    [
      "coupled-model.md",
      `beyond ${CHECKED.lengthOverWidth[1]} : 1, undercut slopes beyond ${CHECKED.undercutSlope} and ka above ${CHECKED.waveNumberTimesBore}`,
    ],
    ["rules/hole-too-near.md", `left out, ${DEFAULTS.holeGapMillimetres} mm`],
    ["rules/hole-too-near.md", `keeps ${DEFAULTS.holeGapMillimetres} mm between holes`],
    ["rules/note-out-of-range.md", `notes go from ${lowest} to ${highest}`],
  ])("in %s: %s", (name, says) => expect(page(name)).toContain(says));

  it("of notes are the same in messages and in code", () => {
    const told = (key: string) =>
      checked(`borewright: 1\nfamily: duct\nkey: ${key}\n`)
        .findings.map(({ message }) => message)
        .join(" ");
    expect(told("G10")).toContain(`notes go from ${lowest} to ${highest}`);
    expect(told("G#9")).toContain("beyond what a wind instrument plays");
    expect(told(highest)).not.toContain("beyond what a wind instrument plays");
  });

  it("of refits lie within what was compared", () => {
    expect(KEPT_BY_REFITS.holeOverBore[0]).toBeGreaterThan(narrowest);
    expect(KEPT_BY_REFITS.holeOverBore[1]).toBeLessThan(widest);
    expect(KEPT_BY_REFITS.undercutSlope).toBeLessThan(CHECKED.undercutSlope);
    expect(KEPT_BY_REFITS.openingOverHalfAxis).toBeLessThan(CHECKED.openingOverHalfAxis);
  });
});
