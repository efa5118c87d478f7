/** Reports of a comparison: what a reader finds in them, and that no name from a design becomes anything but text. */
import { XMLValidator } from "fast-xml-parser";
import MarkdownIt from "markdown-it";
import { describe, expect, it } from "vitest";
import type { Compared } from "../../server/src/review/compared.js";
import { jsonReport } from "../../server/src/review/reports/json.js";
import { markdownReport } from "../../server/src/review/reports/markdown.js";
import { svgReport } from "../../server/src/review/reports/svg/svg.js";
import { textReport } from "../../server/src/review/reports/text.js";
import { compared } from "../support/compared.js";
import { WHISTLE } from "../support/designs.js";
import { panPipe, vessel } from "../support/families.js";

const MENDED = WHISTLE.replace("at: 210.3", "at: 205.3");
const BACK = compared(MENDED, WHISTLE);
const markdown = (all: readonly Compared[]) => markdownReport(all).join("\n");
// The reference parser of CommonMark for JavaScript, with the tables of GitHub's dialect and raw HTML let through.
const html = (text: string) => new MarkdownIt({ html: true, linkify: true }).render(text);

describe("the text", () => {
  const lines = textReport([BACK]);

  it("begins with the files and the verdict", () => {
    expect(lines[0]).toBe("Test whistle · old.bore.yaml → new.bore.yaml");
    expect(lines[1]).toMatch(/worse: .*left the tolerance of ±10 cents\.$/);
  });

  it("has a row for each fingering, old, new and change in cents", () => {
    const rows = lines.filter((line) => /[●○]{6}/.test(line));
    expect(rows).toHaveLength(7);
    const numbers = rows.map(
      (row) =>
        row
          .replaceAll("−", "-")
          .match(/[+-]?\d+\.\d(?!\d)/g)
          ?.map(Number) ?? [],
    );
    for (const [old = 0, next = 0, change = 0] of numbers) expect(Math.abs(next - old - change)).toBeLessThan(0.11);
  });

  it("names the dimension, and the finding with its place", () => {
    expect(lines).toContain("  `at` of L2: 205.3 → 210.3 mm (+5)");
    expect(lines.some((line) => /^ {2}new\.bore\.yaml:17:\d+: \w+: .*\[pitch\/out-of-tune\]$/.test(line))).toBe(true);
  });

  it("of several designs lists those that changed, and counts the rest", () => {
    const still = compared(MENDED, MENDED);
    expect(textReport([still, BACK, still]).at(-1)).toBe("2 designs do not change.");
  });
});

describe("the comment", () => {
  it("is short, with everything else folded", () => {
    const [first, second, third] = markdownReport([BACK]);
    expect(first).toMatch(/^\*\*`Test whistle`\*\* ⚠ .*left the tolerance/);
    expect([second, third]).toEqual(["", "<details><summary>Details</summary>"]);
    const page = html(markdown([BACK]));
    expect(page.match(/<table>/g)).toHaveLength(1);
    expect(page.match(/<tr>/g)).toHaveLength(8);
  });

  it("draws each note, before and after, on one scale", () => {
    const lines = markdownReport([BACK]);
    const chart = lines.filter((line) => /^[A-G]\d /.test(line));
    expect(chart).toHaveLength(7);
    const middle = lines.find((line) => /−\d+ +0 +\+\d+ cents/.test(line))?.indexOf("0", 8) ?? 0;
    for (const row of chart) expect(["│", "o", "●"]).toContain([...row][middle]);
  });

  it("fits into a comment however many designs changed", () => {
    // GitHub refuses comments of more than 65536 characters (its API's validation error; from memory).
    const text = markdown(Array.from({ length: 200 }, () => BACK));
    expect(text.length).toBeLessThan(65_536);
    expect(text).toMatch(/Details of \d+ more designs do not fit here\./);
  });

  it.each([
    "<img src=x onerror=alert(1)>",
    "@harbour/makers #12 https://example.com",
    "a | b | c",
    "`` ` ` ```",
    "**bold** [link](https://example.com) ![x](y)",
    "</details>",
    "line\nbreak",
    "\u001b[31mred\u009b",
    " ",
  ])("shows %j as text", (name) => {
    const quoted = JSON.stringify(name);
    const named = (text: string) =>
      text
        .replace("name: Test whistle", `name: ${quoted}`)
        .replace("name: L2", `name: ${quoted}`)
        .replace("{ wall: 3,", `{ wall: 3, ${JSON.stringify(name.replace(/\W/g, "_"))}: 1,`);
    const text = markdown([compared(named(MENDED), named(WHISTLE), [`${name}.bore.yaml`, "new.bore.yaml"])]);
    const outside = html(text).replace(/<(code|pre)\b[^>]*>.*?<\/\1>/gs, "");
    const tags = new Set([...outside.matchAll(/<\/?(\w+)/g)].map(([, tag]) => tag));
    for (const tag of ["img", "a", "em"]) expect(tags).not.toContain(tag);
    expect(outside).not.toMatch(/@harbour|#12|onerror|example\.com/);
    expect(outside.match(/<\/details>/g)).toHaveLength(1);
    expect(outside.match(/<tr>/g)).toHaveLength(8);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
    expect(text).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u0080-\u009f]/);
  });
});

describe("the data", () => {
  it("has the published form", () => {
    const report = JSON.parse(jsonReport([BACK], true));
    expect(report).toMatchObject({ kind: "changed", name: "Test whistle", leftTolerance: true });
    expect(report.dimensions).toEqual([
      { path: "holes[1].at", name: "`at` of L2", old: 205.3, new: 210.3, unit: "mm", formula: null },
    ]);
    expect(report.fingerings).toHaveLength(7);
    for (const { note, oldCents, newCents, change } of report.fingerings) {
      expect(note).toMatch(/^[A-G]\d$/);
      expect(newCents - oldCents).toBeCloseTo(change, 9);
    }
    expect(report.findings.came[0]).toMatchObject({ file: "new.bore.yaml", code: "pitch/out-of-tune", line: 17 });
  });

  it("of several designs has one object each", () => {
    const report = JSON.parse(jsonReport([BACK, BACK], false));
    expect(report.leftTolerance).toBe(true);
    expect(report.designs.map(({ kind }: { kind: string }) => kind)).toEqual(["changed", "changed"]);
  });
});

describe("the drawing", () => {
  const families = { duct: WHISTLE, panpipe: panPipe(""), vessel: vessel("holes: [{ name: R1, diameter: 5 }]") };

  it.each(Object.entries(families))("lays both outlines of a %s over each other, on one scale", (_, design) => {
    const drawing = svgReport([
      compared(
        design,
        design.replace(/diameter: (\d+)/, (_all, size) => `diameter: ${Number(size) + 1}`),
      ),
    ]);
    expect(XMLValidator.validate(drawing)).toBe(true);
    const [dashed, solid] = [
      drawing.match(/<path d="M[^"]+" stroke="#777"/g),
      drawing.match(/<path d="M[^"]+" stroke="#000"/g),
    ];
    expect(dashed?.length).toBeGreaterThan(1);
    expect(solid?.length).toBe(dashed?.length);
    expect(drawing).not.toMatch(/NaN|Infinity/);
  });

  it("draws the tube as long as it is: the foot is at 394.1 mm, the wall 3 mm round a bore of 16", () => {
    const drawing = svgReport([BACK]);
    const [, outside = ""] = /<path d="(M[^"]+)" stroke="#000"/.exec(drawing) ?? [];
    const points = [...outside.matchAll(/(-?[\d.]+) (-?[\d.]+)/g)].map(([, x, y]) => [Number(x), Number(y)] as const);
    expect(Math.max(...points.map(([x]) => x))).toBeCloseTo(394.1, 1);
    expect(Math.max(...points.filter(([x]) => x > 300).map(([, y]) => y))).toBeCloseTo(16 / 2 + 3, 1);
  });

  it("has a row for each note, and no name in it is markup", () => {
    const named = (text: string) =>
      text.replace("name: Test whistle", 'name: "</text><script>alert(1)</script>&\u001b"');
    const drawing = svgReport([compared(named(MENDED), named(WHISTLE))]);
    expect(XMLValidator.validate(drawing)).toBe(true);
    expect(drawing).not.toContain("<script");
    expect(drawing.match(/<circle /g)).toHaveLength(14);
  });

  it("is drawn even where nothing can be predicted or drawn", () => {
    for (const text of ["", "holes: 3", WHISTLE.replace("at: 394.1", "at: =nowhere")])
      expect(XMLValidator.validate(svgReport([compared(WHISTLE, text)]))).toBe(true);
  });
});
