import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { RIGHT_ON_AVERAGE } from "../../../server/src/design/rekey/bestSize.js";
import { rekey } from "../../../server/src/design/rekey/rekey.js";
import { CannotRekey, type RekeyMethod } from "../../../server/src/design/rekey/rekeyResult.js";
import type { Syntax } from "../../../server/src/document/designFile.js";
import { centsOfRatio } from "../../../server/src/music/cents.js";
import { parseNote } from "../../../server/src/music/note.js";
import { checked, documentOf, fileOf, WHISTLE } from "../../support/designs.js";

const TUNED = WHISTLE.replace("at: 210.3", "at: 205.3");

function rekeyed(text: string, to: string, by: RekeyMethod, syntax: Syntax = "yaml", index = 0) {
  const note = parseNote(to);
  if (note === undefined) throw new Error(to);
  return rekey(fileOf(text, syntax), index, note, by);
}

/** Lines of `after` that are not in `before`, by place. */
function changedLines(before: string, after: string): string[] {
  const old = before.split("\n");
  return after.split("\n").filter((line, i) => line !== old[i]);
}

describe("rekeying by print scale", () => {
  const result = rekeyed(TUNED, "F4", "print-scale");

  it("changes the key, the absolute notes and one scale, nothing else", () => {
    expect(changedLines(TUNED.trimEnd(), result.text.trimEnd())).toEqual([
      "key: F4",
      "  - { note: C5, holes: ●●○○○○ }",
      expect.stringMatching(/^print: \{ scale: 11[\d.]+ % \}$/),
    ]);
  });

  it("is in tune in the new key when read back", () => {
    const { analysis } = checked(result.text);
    expect(analysis.instrument.key?.name).toBe("F4");
    expect(Math.abs(analysis.summary?.meanCents ?? Number.NaN)).toBeLessThan(RIGHT_ON_AVERAGE);
    expect(Math.abs(analysis.summary?.worstCents ?? Number.NaN)).toBeLessThan(10);
  });

  it("lands near the tempered whole tone, not on it: wall losses shrink as the instrument grows", () => {
    // Equal temperament: two semitones are 2^(2/12). Losses and the printer's fixed undersize leave a cent or so.
    expect(result.plainFactor).toBeCloseTo(2 ** (2 / 12), 6);
    const difference = centsOfRatio(result.factor / result.plainFactor);
    expect(Math.abs(difference)).toBeGreaterThan(0.05);
    expect(Math.abs(difference)).toBeLessThan(6);
  });

  it("changes the scale that is there, keeping how it is written", () => {
    const scaled = `${TUNED}print: { nozzle: 0.4, scale: 95 % }   # small\n`;
    const { text } = rekeyed(scaled, "A4", "print-scale");
    expect(text).toMatch(/^print: \{ nozzle: 0\.4, scale: [\d.]+ % \} {3}# small$/m);
  });

  it.each(["=50*2 + 4", '" = 104"'])("writes a scale that was worked out, %s, as one number", (scale) => {
    const { text } = rekeyed(`${TUNED}print: { scale: ${scale} }\n`, "A4", "print-scale");
    expect(text).toMatch(/^print: \{ scale: "?[\d.]+ %"? \}$/m);
    expect(Math.abs(checked(text).analysis.summary?.meanCents ?? 99)).toBeLessThan(0.5);
  });

  it("writes a print scale beside other print settings, and in JSON", () => {
    expect(rekeyed(`${TUNED}print: { nozzle: 0.4 }\n`, "A4", "print-scale").text).toMatch(
      /print: \{ nozzle: 0\.4, scale: [\d.]+ % \}/,
    );
    const json = JSON.stringify(
      {
        borewright: 1,
        family: "duct",
        key: "G4",
        mouth: { window: { width: 9.82, cutUp: 4.5, labium: 1 } },
        bore: [
          { at: 0, diameter: 16 },
          { at: 394.6, diameter: 16 },
        ],
        wall: 3,
        fingerings: [{ degree: 1, holes: "" }],
      },
      null,
      2,
    );
    const { text } = rekeyed(json, "A4", "print-scale", "json");
    expect(JSON.parse(text)).toMatchObject({ key: "A4", print: { scale: expect.stringMatching(/^8[89]\.\d+ %$/) } });
  });
});

describe("rekeying by redraw", () => {
  const result = rekeyed(TUNED, "F4", "redraw");

  it("rewrites parameters and plain numbers, and leaves expressions standing", () => {
    expect(result.text).toContain("diameter: =tube }");
    expect(result.text).toContain("wall: =wall\n");
    const tube = Number(/tube: ([\d.]+)/.exec(result.text)?.[1]);
    expect(tube / 16).toBeCloseTo(result.factor, 2);
    expect(result.text).not.toContain("394.1");
    expect(result.text).toContain("# first of its kind");
    expect(result.printScalePercent).toBe(100);
  });

  it("tells what has grown, and what its steps cost where they cost something", () => {
    expect(result.remarks).toEqual([expect.stringMatching(/^Everything grows in proportion: /)]);
    const scaled = rekeyed(TUNED, "F4", "print-scale").remarks;
    expect(scaled).toEqual([expect.stringMatching(/^Everything grows in proportion: /)]);
    const coarse = rekeyed(`${TUNED}print: { rounding: 1 }\n`, "F4", "redraw").remarks;
    expect(coarse.join()).toMatch(/^Drawn in steps of 1 mm, which moves a note by up to /);
  });

  it("is in tune in the new key when read back", () => {
    const { analysis, findings } = checked(result.text);
    expect(findings.filter(({ severity }) => severity !== "hint" && severity !== "information")).toEqual([]);
    expect(Math.abs(analysis.summary?.meanCents ?? Number.NaN)).toBeLessThan(RIGHT_ON_AVERAGE);
  });

  it("scales the lengths written inside an expression, counts and ratios not", () => {
    const parametric = TUNED.replace("parameters: {", "parameters: { ratio: 0.5, count: 2, step: 18.8, ")
      .replace("at: 289.6", "at: =R1.at + step*1")
      .replace("at: 321.4", 'at: "=R1.at + count*step + 13"')
      .replace("diameter: 6.5", "diameter: =ratio*tube*0.8")
      .replace("wall: =wall", "wall: =sqrt(wall*wall)");
    const { text, factor, remarks } = rekeyed(parametric, "F4", "redraw");
    expect(text).toContain("ratio: 0.5, count: 2,");
    expect(text).toContain("at: =R1.at + step*1,");
    expect(text).toContain("wall: =sqrt(wall*wall)");
    const literal = Number(/"=R1\.at \+ count\*step \+ ([\d.]+)"/.exec(text)?.[1]);
    expect(literal / 13).toBeCloseTo(factor, 2);
    const numbers = (all: string) =>
      documentOf(fileOf(all)).resolution.numbers.filter(
        ({ path, quantity, value }) => path[0] !== "parameters" && quantity === "length" && value !== 0,
      );
    numbers(text).forEach(({ value }, i) => {
      // Within a step of the drawing and what a few of them add up to.
      expect(Math.abs(value - factor * (numbers(parametric)[i]?.value ?? Number.NaN))).toBeLessThan(0.15);
    });
    expect(remarks.join(" ")).not.toContain("plain numbers");
  });

  it("replaces an expression that cannot grow in step, and says so", () => {
    const { text, factor, remarks } = rekeyed(TUNED.replace("wall: =wall", "wall: =round(wall)"), "F4", "redraw");
    expect(Number(/^wall: ([\d.]+)$/m.exec(text)?.[1])).toBeCloseTo(3 * factor, 1);
    expect(remarks.join(" ")).toContain("became plain numbers: `wall`");
  });

  it("keeps anchors and aliases", () => {
    const anchored = TUNED.replace("at: 173.3, diameter: 7 }", "at: 173.3, diameter: &d 7 }").replace(
      "at: 229.8, diameter: 7 }",
      "at: 229.8, diameter: *d }",
    );
    const { text, factor } = rekeyed(anchored, "F4", "redraw");
    expect(text).toContain("diameter: *d }");
    expect(Math.abs(Number(/&d ([\d.]+)/.exec(text)?.[1]) - 7 * factor)).toBeLessThan(0.1);
  });

  it("keeps CRLF line ends and a byte order mark", () => {
    const windows = `\uFEFF${TUNED.replaceAll("\n", "\r\n")}`;
    const { text } = rekeyed(windows, "F4", "redraw");
    expect(text.startsWith("\uFEFF")).toBe(true);
    expect(text.replaceAll("\r\n", "")).not.toContain("\n");
    expect(text.slice(1).replaceAll("\r\n", "\n")).toBe(rekeyed(TUNED, "F4", "redraw").text);
  });

  it("moves one instrument of several", () => {
    const two = `${TUNED}---\n${TUNED.replace("Test whistle", "Second whistle")}`;
    const { text } = rekeyed(two, "A4", "redraw", "yaml", 1);
    expect(text.startsWith(`${TUNED}---\n`)).toBe(true);
    expect(checked(text.slice(TUNED.length + 4)).analysis.instrument.key?.name).toBe("A4");
  });
});

describe("rekeying", () => {
  it("follows just intonation: from G to E flat every dimension grows by 5:4, a pure major third", () => {
    // Common practice, no source: 5:4 is 386.314 cents, 13.686 less than the tempered third.
    const just = TUNED.replace("air: {", "temperament: just\nair: { losses: false, ");
    const third = rekeyed(just, "Eb4", "print-scale");
    expect(third.plainFactor).toBeCloseTo(5 / 4, 9);
    // The size that tunes the design in its own key is the reference; a print scale has two decimals of a percent.
    const own = rekeyed(just, "G4", "print-scale");
    expect(Math.abs(centsOfRatio(third.factor / own.factor) - 386.314)).toBeLessThan(0.3);
    const equal = rekeyed(just.replace("just", "equal"), "Eb4", "print-scale");
    expect(centsOfRatio(equal.plainFactor / third.plainFactor)).toBeCloseTo(13.686, 3);
  });

  it("and back again leaves the tuning as it was", () => {
    fc.assert(
      fc.property(fc.constantFrom("D4", "Eb4", "A4", "C5"), fc.constantFrom("print-scale", "redraw"), (key, by) => {
        const there = rekeyed(TUNED, key, by as RekeyMethod);
        const back = rekeyed(there.text, "G4", by as RekeyMethod);
        expect(centsOfRatio(there.factor * back.factor)).toBeCloseTo(0, -1);
        expect(back.after.summary?.rmsCents).toBeCloseTo(there.before.summary?.rmsCents ?? Number.NaN, 0);
      }),
      { numRuns: 6 },
    );
  });

  it("writes the same key by another name where that is asked for", () => {
    const own = rekeyed(TUNED, "G4", "print-scale").text;
    const { text, factor } = rekeyed(own, "F##4", "print-scale");
    expect(text).toContain("key: F##4");
    expect(factor).toBeCloseTo(1, 3);
  });

  it.each([
    ["without a key", TUNED.replace("key: G4\n", "")],
    ["with an unknown bore", TUNED.replace("at: 394.1", "at: ")],
    ["without anything to play", TUNED.slice(0, TUNED.indexOf("fingerings:")).replace("key: G4\n", "")],
  ])("refuses a design %s, in words", (_, text) => {
    expect(() => rekeyed(text, "F4", "redraw")).toThrow(CannotRekey);
  });
});
