/** The size for a key is one number, wherever it is told: table, rekeying, the light bulb, the what-if, the finding, the hover. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { MarkupContent } from "vscode-languageserver";
import { printScaleFactors } from "../../../server/src/design/rekey/keyTable.js";
import { printScalePercent } from "../../../server/src/design/rekey/printScale.js";
import { rekey } from "../../../server/src/design/rekey/rekey.js";
import { sizesOf } from "../../../server/src/design/scale/atSize.js";
import { codeActions } from "../../../server/src/language/codeActions/index.js";
import { hover } from "../../../server/src/language/hover/index.js";
import { centsOfRatio } from "../../../server/src/music/cents.js";
import { type Note, parseNote } from "../../../server/src/music/note.js";
import { checked, documentOf, fileOf, WHISTLE } from "../../support/designs.js";
import { atCursor, marked } from "../../support/language.js";

const example = (name: string) => readFileSync(new URL(`../../../examples/${name}`, import.meta.url), "utf8");
const note = (name: string) => parseNote(name) as Note;
const QUAY = example("quay-whistle.bore.yaml");

/** What the ways of telling it must not differ by: a printer's undersize, shrinkage, a temperament that goes with the key, walls that do not grow. */
const DESIGNS: readonly (readonly [string, string])[] = [
  ["a whistle with undersize and shrinkage", QUAY],
  [
    "one in just intonation, some notes absolute",
    `${WHISTLE.replace("tolerance: 10", "temperament: just")}print: { scale: 104 %, holeUndersize: 0.3 }\n`,
  ],
  [
    "one whose wall does not grow",
    `${WHISTLE.replace("wall: 3,", 'wall: "=300 / print.scale",')}print: { scale: 100 % }\n`,
  ],
  ["a vessel", example("lantern-vessel.bore.yaml")],
  ["pipes", example("breakwater-pipes.bore.yaml")],
];

describe.each(DESIGNS)("%s", (_, text) => {
  const { analysis } = checked(text);
  const { resolution } = documentOf(fileOf(text));
  const own = analysis.instrument.key as Note;
  const rows = printScaleFactors(resolution, analysis);
  const row = (semitones: number) => rows.find(({ key }) => key.midi === own.midi + semitones);

  it.each([-4, 3])("has one print scale %i semitones away", (semitones) => {
    const found = row(semitones);
    const percent = printScalePercent((found?.percent ?? 0) / 100);
    const rekeyed = rekey(fileOf(text), 0, found?.key as Note, "print-scale");
    expect(rekeyed.printScalePercent).toBe(percent);
    expect(rekeyed.text).toContain(`${percent} %`);
    const { percentFor, at } = sizesOf(resolution, analysis);
    expect(percentFor(found?.key as Note)).toBe(percent);
    // What is written is right on average: a hundredth of a percent is 0.17 cent.
    expect(Math.abs(rekeyed.after.summary?.meanCents ?? Number.NaN)).toBeLessThan(0.1);
    const there = at(percent);
    expect(there.plays?.key.midi).toBe(found?.key.midi);
    expect(there.plays?.cents).toBeCloseTo(rekeyed.after.summary?.meanCents ?? Number.NaN, 6);
    // Lengths mean the same: the finished object's.
    expect(1e3 * there.length).toBeCloseTo((found?.lengthMillimetres ?? 0) * (percent / (found?.percent ?? 1)), 6);
  });
});

it("is in the light bulb's title and in the hover on the key, too", async () => {
  const { analysis } = checked(QUAY);
  const percent = printScalePercent(
    sizesOf(documentOf(fileOf(QUAY)).resolution, analysis).percentFor(note("F#4")) / 100,
  );
  const { context, position } = atCursor(marked(QUAY, "key: ", 6), { client: { resolvesCodeActions: true } });
  const actions = await codeActions(context, {
    range: { start: position, end: position },
    context: { diagnostics: [] },
  });
  expect(actions.map(({ title }) => title)).toContain(`Rekey to F#4 by print scale (${percent} %)`);
  expect((hover(context, position)?.contents as MarkupContent | undefined)?.value).toContain(
    `F#4 would be ${percent} %`,
  );
});

describe("what it plays at a size", () => {
  const { analysis } = checked(QUAY);
  const { at } = sizesOf(documentOf(fileOf(QUAY)).resolution, analysis);

  it("is given by the nearer of the keys it lies between, with the sizes of both", () => {
    const { plays, keys } = at(125);
    expect(plays?.key.name).toBe("Eb4");
    expect(plays?.between?.map(({ name }) => name)).toEqual(["Eb4", "E4"]);
    // The interval alone: 5:4 is 386.3 cents, so that Eb4, 400 down, is 13.7 away; losses and undersize leave some cents more.
    expect(plays?.cents).toBeGreaterThan(13.7);
    expect(plays?.cents).toBeLessThan(21);
    expect(keys.map(({ key }) => key.name)).toEqual(["Eb4", "E4"]);
    // Pitch by size is all but a straight line: the two numbers say the same.
    expect(centsOfRatio((keys[0]?.percent ?? 0) / 125)).toBeCloseTo(plays?.cents ?? Number.NaN, 0);
  });

  it("gives hands and printer the same findings as the design at that scale", () => {
    const { made, findings } = at(125);
    const there = checked(QUAY.replace("scale: 100 %", "scale: 125 %"));
    const told = there.findings.filter(({ code }) => /^(hands|print)\//.test(code)).map(({ message }) => message);
    expect(findings.map(({ message }) => message)).toEqual(told);
    expect(told.length).toBeGreaterThan(0);
    // 321.4 − 289.6 mm and the like in the file, times 1.25, less 0.2 % of shrinkage; holes 0.15 mm under size.
    expect(made?.widestGap).toMatchObject({ between: ["L1", "L2"], mm: expect.closeTo(32 * 1.25 * 0.998, 6) });
    expect(made?.widestHole?.mm).toBeCloseTo(8.5 * 1.25 * 0.998 - 0.15, 6);
    expect(made?.wall).toMatchObject({ mm: expect.closeTo(3.75, 6), lines: expect.closeTo(3.75 / 0.4, 6) });
  });
});

it("names the note of a print between two keys in the finding", () => {
  const [finding] = checked(QUAY.replace("scale: 100 %", "scale: 110 %")).findings.filter(
    ({ code }) => code === "pitch/out-of-tune",
  );
  expect(finding?.message).toMatch(/: it plays F4 \+3\d\.\d cents, between F4 and F#4\. The cause is its size/);
});
