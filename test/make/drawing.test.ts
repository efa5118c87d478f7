/** Sheets as their readers find them. Paper: ISO 216; scales: ISO 5455; PDF: ISO 32000-1. */
import { readdirSync, readFileSync } from "node:fs";
import { XMLValidator } from "fast-xml-parser";
import { describe, expect, it } from "vitest";
import { outlineOf } from "../../server/src/design/outline/index.js";
import { analyse } from "../../server/src/design/predict/analyse.js";
import { DEFAULT_SETTINGS } from "../../server/src/design/settings.js";
import { syntaxOf } from "../../server/src/document/read.js";
import { chartSheet } from "../../server/src/make/drawing/chart.js";
import { drawSheets } from "../../server/src/make/drawing/draw.js";
import { pdf } from "../../server/src/make/drawing/pdf.js";
import { type Mark, type Sheet, shortNumber } from "../../server/src/make/drawing/sheet.js";
import { svg } from "../../server/src/make/drawing/svg.js";
import { documentOf, fileOf, WHISTLE } from "../support/designs.js";
import { panPipe, vessel } from "../support/families.js";

const EXAMPLES = new URL("../../examples/", import.meta.url);
const examples = readdirSync(EXAMPLES).filter((name) => /\.bore\.(yaml|json)$/.test(name));

function sheets(text: string, name = "a.bore.yaml", paper: "A4" | "A3" = "A4"): readonly Sheet[] {
  const { resolution } = documentOf(fileOf(text, syntaxOf(name)));
  const outline = outlineOf(resolution);
  if (outline === undefined) throw new Error("no outline");
  return drawSheets(outline, { paper, unit: resolution.instrument.unitMillimetres, unitName: resolution.draft.unit });
}
const texts = (sheet: Sheet | undefined) =>
  (sheet?.marks ?? []).flatMap((mark) => (mark.kind === "text" ? [mark] : []));
const chart = (text: string, cents = false, notes: "staff" | "names" = "staff") => {
  const { resolution } = documentOf(fileOf(text));
  const outline = outlineOf(resolution);
  return chartSheet(analyse(resolution.instrument, DEFAULT_SETTINGS), { cents, notes, outline });
};

describe.each(examples)("%s on paper", (name) => {
  const all = sheets(readFileSync(new URL(name, EXAMPLES), "utf8"), name);

  it("is well-formed SVG in millimetres, and all of it lies on the sheet", () => {
    for (const sheet of all) {
      const text = svg(sheet);
      expect(XMLValidator.validate(text)).toBe(true);
      expect(text).toContain('width="297mm" height="210mm" viewBox="0 0 297 210"');
      for (const mark of sheet.marks) {
        const points = mark.kind === "path" ? mark.points : [mark.at];
        for (const [x, y] of points) {
          // Inside the frame: margins of 20 mm at the left, 10 mm elsewhere (ISO 5457).
          expect(x >= 20 && x <= 287 && y >= 10 && y <= 200, JSON.stringify(mark)).toBe(true);
        }
      }
    }
  });

  it("tells what to mind, and whose units its lengths have", () => {
    const words = texts(all[0])
      .map(({ text }) => text)
      .join(" ");
    for (const word of ["food contact", "Ventilate", "Local rules", "lengths in mm"]) expect(words).toContain(word);
  });
});

describe("a drawing", () => {
  it("says that a wall too thin for a windway has none, and gives it no height", () => {
    const words = texts(sheets(WHISTLE.replace(/^wall: .*$/m, "wall: 0.6"))[0])
      .map(({ text }) => text)
      .join(" ");
    expect(words).toContain("too thin for a windway");
    expect(words).not.toMatch(/\b0 (mm )?high/);
  });

  it("gives each hole's place once along the view and once in the table, with a drill not larger than it", () => {
    const words = texts(sheets(WHISTLE)[0]).map(({ text }) => text);
    for (const at of ["173.3", "210.3", "229.8", "270.8", "289.6", "321.4"]) {
      expect(words.filter((text) => text.endsWith(` ${at}`))).toHaveLength(1);
      expect(words.filter((text) => text === at)).toHaveLength(1);
    }
    const odd = texts(sheets(WHISTLE.replace("at: 173.3, diameter: 7 ", "at: 173.3, diameter: 7.4 "))[0]);
    expect(odd.map(({ text }) => text)).toContain("7.0");
  });

  it("shows the mouth's front half once more, larger, and says how parts are joined", () => {
    const jointed = WHISTLE.replace(
      "  - { at: 394.1",
      "  - { at: 150, diameter: =tube, joint: true }\n  - { at: 394.1",
    );
    const words = texts(sheets(jointed)[0]).map(({ text }) => text);
    expect(words).toContain("Mouth, front half, scale 2:1");
    // Round a bore of 16 mm, the least wall of 1.2 mm under a groove of 0.5 mm; the socket 0.2 mm wider on the radius.
    expect(words.join(" ")).toContain(
      "Joint at 150: tenon 16 long, ⌀19.4 in ⌀19.8, groove for thread 5 long and 0.5 deep.",
    );
    // The labium's blunt edge of 0.5 mm at twice its size.
    const edges = (sheets(jointed)[0]?.marks ?? []).flatMap((mark) =>
      mark.kind === "path" && mark.fill === "cut"
        ? mark.points.map(([x, y], i) => {
            const [u, v] = mark.points[(i + 1) % mark.points.length] ?? [x, y];
            return Math.abs(x - u) < 1e-9 ? Math.abs(y - v) : 0;
          })
        : [],
    );
    expect(edges.some((size) => Math.abs(size - 1) < 1e-9)).toBe(true);
  });

  it("is drawn at the scale that it names", () => {
    const [sheet] = sheets(WHISTLE);
    expect(texts(sheet).map(({ text }) => text)).toContain("scale 1:2");
    const axis = sheet?.marks.find((mark) => mark.kind === "path" && mark.line === "axis");
    const points = axis?.kind === "path" ? axis.points : [];
    // From the windway's entry to the foot, and 4 mm more at either end.
    expect((points[1]?.[0] ?? 0) - (points[0]?.[0] ?? 0)).toBeCloseTo((394.1 + 27.25 + 8) / 2, 6);
  });

  it("has its lengths in inches where the file has", () => {
    const inches = WHISTLE.replace("tolerance", "units: in\ntolerance")
      .replaceAll(/(at|diameter): ([\d.]+)/g, (_, what, n) => `${what}: ${(n / 25.4).toFixed(4)}`)
      .replace("wall: 3, tube: 16", "wall: 0.12, tube: 0.63")
      .replace("width: 9.82, cutUp: 4.5, labium: 1", "width: 0.387, cutUp: 0.177");
    const words = texts(sheets(inches)[0]).map(({ text }) => text);
    expect(words).toContain("lengths in in");
    expect(words).toContain("L2 8.28");
  });
});

describe("a vessel's drawing", () => {
  const design = vessel(
    "wall: 3\nholes:\n  - { name: R1, diameter: 6, angle: 90 }\n  - { name: L1, diameter: 5, angle: -40 }",
    "shape: ellipsoid, length: 60, width: 60, height: 60",
  );
  const [sheet] = sheets(design);

  it("shows it cut through the holes and through the mouth, the windway and the labium open", () => {
    const words = texts(sheet).map(({ text }) => text);
    expect(words).toEqual(expect.arrayContaining(["Through the holes", "Through the mouth, square to the holes"]));
    // Wood in the second view: the shell with the windway's floor, and the roof over it.
    const cuts = (sheet?.marks ?? []).flatMap((mark) =>
      mark.kind === "path" && mark.fill === "cut" ? [mark.points] : [],
    );
    const [, shell = [], roof = []] = cuts;
    const low = (points: readonly (readonly [number, number])[]) => Math.max(...points.map(([x]) => x));
    const high = (points: readonly (readonly [number, number])[]) => Math.min(...points.map(([x]) => x));
    // Over the windway of 1.2 at its exit there is as much room at scale 1:1.
    expect(high(roof) - low(shell)).toBeLessThan(1.3);
    expect(cuts).toHaveLength(3);
  });

  it("gives each hole's arc over the outside, on a ball its angle times the radius", () => {
    const words = texts(sheet).map(({ text }) => text);
    for (const angle of [90, 40]) expect(words).toContain(shortNumber((33 * Math.PI * angle) / 180));
    expect(words).toContain("−40°");
  });

  it("warns of small parts only where there are any", () => {
    const warns = (text: string) => texts(sheets(text)[0]).some(({ text: line }) => line.includes("swallowed"));
    expect([warns(design), warns(panPipe("wall: 2")), warns(WHISTLE)]).toEqual([false, true, true]);
  });
});

it("a pan pipe's drawing lists every pipe: note, length, width, tube and stopper", () => {
  const words = texts(sheets(panPipe("wall: 2"))[0]).map(({ text }) => text);
  const first = words.indexOf("C5");
  // The stopper is 10 long and 0.3 narrower than the bore.
  expect(words.slice(first - 1, first + 6)).toEqual(["1", "C5", "158", "15", "168", "14.7", "10"]);
});

describe("a drilling template", () => {
  const pages = sheets(WHISTLE).slice(1);
  const crosses = pages.flatMap((page) =>
    page.marks.flatMap((mark) => (mark.kind === "text" && mark.text.includes("⌀") ? [mark] : [])),
  );

  it("has every hole at full size, and a line of 100 mm to check it by", () => {
    expect(crosses.map(({ text }) => text)).toEqual(["L1 ⌀7", "L2 ⌀8.5", "L3 ⌀7", "R1 ⌀7", "R2 ⌀8.5", "R3 ⌀6.5"]);
    const [, , , one, other] = crosses;
    // Labels stand a millimetre beside the holes' edges.
    expect((other?.at[0] ?? 0) - (one?.at[0] ?? 0)).toBeCloseTo(289.6 - 270.8 + (8.5 - 7) / 2, 6);
    for (const page of pages) {
      const lengths = page.marks.flatMap((mark: Mark) =>
        mark.kind === "path" && !mark.closed ? [Math.abs((mark.points[1]?.[0] ?? 0) - (mark.points[0]?.[0] ?? 0))] : [],
      );
      expect(lengths).toContain(100);
    }
  });

  it("is as wide as the tube is round", () => {
    const strip = pages[0]?.marks.find(
      (mark) => mark.kind === "path" && mark.closed && mark.line === "thin" && mark.fill === "none",
    );
    const ys = strip?.kind === "path" ? strip.points.map(([, y]) => y) : [];
    expect(Math.max(...ys) - Math.min(...ys)).toBeCloseTo(2 * Math.PI * 11, 6);
  });
});

describe("a fingering chart", () => {
  it("shows each fingering's holes filled or open, by register, and cents where asked for", () => {
    const sheet = chart(WHISTLE);
    const circles = sheet.marks.flatMap((mark) => (mark.kind === "circle" && mark.line === "outline" ? [mark] : []));
    const closed = (WHISTLE.match(/●/g) ?? []).length;
    expect(circles.filter(({ fill }) => fill === "black")).toHaveLength(closed);
    expect(circles).toHaveLength(7 * 6);
    const words = texts(sheet).map(({ text }) => text);
    for (const word of ["Register 1", "Register 2", "G4", "G5", "L1", "R3"]) expect(words).toContain(word);
    expect(words.some((text) => /^[+−]\d/.test(text))).toBe(false);
    expect(texts(chart(WHISTLE, true)).filter(({ text }) => /^[+−]?\d+\.\d$/.test(text))).toHaveLength(7);
    expect(XMLValidator.validate(svg(sheet))).toBe(true);
  });

  // G clef: G4 on the second line from below, a letter each half a space. Common practice, no source.
  it("writes each note at its place on a staff of five lines, sharps before it", () => {
    const { marks } = chart(WHISTLE);
    const lines = marks.flatMap((mark) =>
      mark.kind === "path" &&
      !mark.closed &&
      mark.points.length === 2 &&
      (mark.points[1]?.[0] ?? 0) - (mark.points[0]?.[0] ?? 0) > 20
        ? [mark.points[0]?.[1] ?? 0]
        : [],
    );
    expect(lines).toHaveLength(10);
    const [lowest = 0, second = 0] = lines;
    const gap = lowest - second;
    const blots = marks.flatMap((mark) =>
      mark.kind === "path" && mark.closed && mark.fill === "black" ? [mark.points] : [],
    );
    const middle = (points: readonly (readonly [number, number])[]) =>
      points.reduce((sum, [, y]) => sum + y, 0) / points.length;
    const heads = blots.filter((points) => points.length === 24).map(middle);
    expect(heads).toHaveLength(7);
    for (const [i, y] of heads.slice(0, 6).entries()) expect(y).toBeCloseTo(second - (i * gap) / 2, 6);
    // Two stems and two beams before F#5.
    const sharp = chart(WHISTLE.replace("degree: 6", "note: F#5")).marks;
    const strokes = sharp.filter((mark) => mark.kind === "path" && mark.fill === "black" && mark.points.length === 4);
    expect(strokes).toHaveLength(4);
    expect(texts(chart(WHISTLE, false, "names")).map(({ text }) => text)).toContain("E5");
    const bare = chart(WHISTLE, false, "names").marks.filter((mark) => mark.kind === "path");
    expect(bare.length).toBeLessThan(5);
  });

  it("writes what lies far from the staff by octaves, and says so at the clef", () => {
    const low = chart(WHISTLE.replace(/degree: (\d+)/g, "note: C2"));
    expect(texts(low).map(({ text }) => text)).toContain("15");
    expect(texts(chart(WHISTLE)).map(({ text }) => text)).not.toContain("8");
  });

  it("says what to mind: lips, washing, what can be swallowed, local rules", () => {
    const words = texts(chart(WHISTLE))
      .map(({ text }) => text)
      .join(" ");
    for (const word of ["touches the mouth", "wash it warm", "swallowed", "Local rules"]) expect(words).toContain(word);
  });

  it("loses none of many fingerings", () => {
    const many = `${WHISTLE}${"  - { note: A4, holes: ●●●●●○ }\n".repeat(60)}`;
    const sheet = chart(many);
    expect(texts(sheet).filter(({ text }) => text === "A4")).toHaveLength(61);
    for (const { at } of texts(sheet)) expect(at[1]).toBeLessThan(sheet.height);
  });
});

describe("a PDF file", () => {
  it("has every object where its table says, and one page per sheet", () => {
    const all = sheets(WHISTLE.replace("Test whistle", "Möwe (1) 笛"));
    const bytes = pdf(all);
    const text = Buffer.from(bytes).toString("latin1");
    const start = Number(/startxref\n(\d+)\n%%EOF\n$/.exec(text)?.[1]);
    expect(text.slice(start, start + 4)).toBe("xref");
    const offsets = [...text.slice(start).matchAll(/^(\d{10}) 00000 n /gm)].map(([, offset]) => Number(offset));
    for (const [i, offset] of offsets.entries()) expect(text.slice(offset).startsWith(`${i + 1} 0 obj\n`)).toBe(true);
    for (const [, length, content] of text.matchAll(/<< \/Length (\d+) >>\nstream\n(.*?)\nendstream/gs))
      expect(content?.length).toBe(Number(length));
    expect(text.match(/\/Type \/Page /g)).toHaveLength(all.length);
    expect(text).toContain("(M\u00f6we \\(1\\) ?)");
    expect(Buffer.from(pdf(all)).equals(Buffer.from(bytes))).toBe(true);
  });
});
