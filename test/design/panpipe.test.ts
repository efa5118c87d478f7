/** A pan pipe from its text: findings, fixes, other keys. */
import { describe, expect, it } from "vitest";
import { fixesFor } from "../../server/src/design/fix/fixHole.js";
import { bandsOf } from "../../server/src/design/predict/band.js";
import { sensitivitiesOf } from "../../server/src/design/predict/sensitivity.js";
import { retune } from "../../server/src/design/refit/rekeyByRefit.js";
import { rekey } from "../../server/src/design/rekey/rekey.js";
import { REKEY_METHODS } from "../../server/src/design/rekey/rekeyResult.js";
import { applyEdits } from "../../server/src/document/edits.js";
import { pathKey } from "../../server/src/instrument/path.js";
import { parseNote } from "../../server/src/music/note.js";
import { checked, documentOf, fileOf } from "../support/designs.js";
import { foundIn } from "../support/found.js";
import { codesOf, expectFinding } from "../support/marked.js";

/** The second pipe is too long. Dimensions invented. */
const PIPES = `borewright: 1
family: panpipe
key: C5
tolerance: 8
air: { temperature: 22, humidity: 60 }
mouth: { cover: 0.55 }   # lips
wall: 2
pipes:
  - { note: C5, length: 153.6, diameter: 15 }
  - { note: D5, length: 138, diameter: 15 }   # cork slipped
  - { note: E5, length: 119.9, diameter: 15 }
`;
const note = (name: string) => {
  const parsed = parseNote(name);
  if (parsed === undefined) throw new Error(name);
  return parsed;
};
const tune = (text: string) => checked(text).findings.filter(({ code }) => code === "pitch/out-of-tune");

describe("a pipe out of tune", () => {
  it("is reported at its own length, with how far its stopper goes", () => {
    const [finding, ...others] = tune(PIPES);
    expect(others).toEqual([]);
    expect(PIPES.slice(finding?.span.start, finding?.span.end)).toBe("138");
    expect(finding?.message).toMatch(/^D5 sounds \d+ cents flat\. Move the stopper [\d.]+ mm toward the mouth\.$/);
    expect(tune(PIPES.replace("138,", "133.5,"))[0]?.message).toMatch(
      /sharp\. Move the stopper .* away from the mouth\.$/,
    );
  });

  it.each(["100 %", "92.4 %"])("is corrected by one number when printed at %s", (scale) => {
    const text = `${PIPES}print: { scale: ${scale}, shrinkage: 0.3 % }\n`;
    const { analysis } = checked(text);
    const [fix] = fixesFor(documentOf(fileOf(text)), analysis, undefined, 1);
    const after = applyEdits(text, fix?.edits ?? []);
    expect(after.replace(/length: [\d.]+, diameter: 15 } {3}# cork/, "length: 138, diameter: 15 }   # cork")).toBe(
      text,
    );
    // The new length is written to a tenth of a millimetre, about a cent.
    expect(Math.abs(checked(after).analysis.fingerings[1]?.cents ?? 99)).toBeLessThan(1);
  });

  it("is corrected with all others, and nothing but lengths changes", () => {
    const { text } = retune(fileOf(PIPES), 0, "all");
    expect(tune(text)).toEqual([]);
    const blank = (design: string) => design.replace(/length: [\d.]+/g, "length");
    expect(blank(text)).toBe(blank(PIPES));
  });
});

it("every pipe has its own note, its own band and its own sensitivities", () => {
  const { resolution } = documentOf(fileOf(PIPES));
  const { analysis } = checked(PIPES);
  expect(analysis.fingerings.map(({ fingering }) => fingering.path)).toEqual([0, 1, 2].map((i) => ["pipes", i]));
  for (const band of bandsOf(resolution, analysis)) expect(band?.cents).toBeGreaterThan(5);
  const found = sensitivitiesOf(resolution, analysis).get(pathKey(["pipes", 1, "length"]))?.centsPerUnit ?? [];
  expect(found[0]).toBeCloseTo(0, 9);
  expect(found[2]).toBeCloseTo(0, 9);
  const longer = checked(PIPES.replace("138,", "138.01,")).analysis.fingerings[1]?.cents ?? 0;
  expect((longer - (analysis.fingerings[1]?.cents ?? 0)) / 0.01).toBeCloseTo(found[1] ?? 0, 2);
});

describe("another key", () => {
  const tuned = retune(fileOf(PIPES), 0, "all").text;
  it.each(REKEY_METHODS)("by %s moves every pipe's note and keeps it in tune", (by) => {
    const to = parseNote("A4");
    if (to === undefined) throw new Error("A4");
    const { text } = rekey(fileOf(tuned), 0, to, by);
    const { analysis, findings } = checked(text);
    expect(analysis.fingerings.map(({ fingering }) => fingering.target?.name)).toEqual(["A4", "B4", "C#5"]);
    expect(findings.filter(({ code }) => code === "pitch/out-of-tune")).toEqual([]);
    expect(text).toContain("# lips");
    expect(text).toContain("# cork slipped");
  });
});

it("a refit leaves a pipe too long for the bed as it is, and says so with the nearest key", () => {
  const file = fileOf(`${PIPES}print: { bed: [157, 120, 30] }\n`);
  const { text, obstacles, nearestKey, remarks } = foundIn(() => rekey(file, 0, note("G4"), "refit"));
  expect(text).toContain("length: 153.6");
  expect(checked(text).findings.map(({ code }) => code)).not.toContain("print/bed");
  expect(obstacles[0]?.message).toMatch(/G4 would need a pipe of 20\d.*The row of pipes is 2\d\d/);
  expect(remarks.join("\n")).toContain("Held back by: G4 would need");
  expect(nearestKey?.name).toBe("C5");
});

describe("what is wrong with a pan pipe", () => {
  it("is reported at its place, and the other pipes go on", () => {
    expectFinding("[[borewright]]: 1\nfamily: panpipe\nkey: C5\n", "design/incomplete", "it still needs `pipes: ");
    const missing = PIPES.replace("length: 138, ", "");
    expect(codesOf(missing)).toEqual(["schema/missing-property"]);
    const predicted = (text: string) =>
      checked(text).analysis.fingerings.map(({ predictedHz }) => predictedHz !== undefined);
    expect(predicted(missing)).toEqual([true, false, true]);
    for (const bad of ["0", "-3", "=1/0", "=nobody", '"long"', ".nan", ".inf", "null"])
      expect(predicted(PIPES.replace("length: 138", `length: ${bad}`)), bad).toEqual([true, false, true]);
    for (const item of ["3", "null", "[1]"])
      expect(predicted(`${PIPES}  - ${item}\n`), item).toEqual([true, true, true, false]);
  });

  it("is a pipe without a note, a list of fingerings, a mouth of another family", () => {
    const marked = PIPES.replace(
      "  - { note: D5, length: 138, diameter: 15 }",
      "  - [[{ length: 138, diameter: 15 }]]",
    );
    expectFinding(marked, "pipe/no-note", "for example `note: C5`");
    expectFinding(`${PIPES}[[fingerings]]:\n  - { note: C5 }\n`, "pipe/fingerings", "Remove them");
    const window = PIPES.replace("{ cover: 0.55 }", "{ [[window]]: { width: 9, cutUp: 4 } }");
    expectFinding(window, "mouth/kind", "has no `window`");
  });

  it("needs neither mouth nor wall to be predicted", () => {
    const bare = PIPES.replace(/^mouth.*\n/m, "").replace(/^wall.*\n/m, "");
    expect(codesOf(bare)).toEqual([]);
    const off = (text: string) => checked(text).analysis.fingerings[0]?.cents ?? Number.NaN;
    expect(Math.abs(off(bare) - off(PIPES))).toBeLessThan(5);
  });
});
