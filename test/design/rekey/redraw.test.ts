/** A redraw on the text: every length by one factor, through parameters and formulas where it has some. */
import { describe, expect, it } from "vitest";
import { analyse } from "../../../server/src/design/predict/analyse.js";
import { sensitivitiesOf } from "../../../server/src/design/predict/sensitivity.js";
import { drawnAlike, type Scaled } from "../../../server/src/design/rekey/redraw/drawnAlike.js";
import { redrawEdits } from "../../../server/src/design/rekey/redraw/redraw.js";
import { DEFAULT_SETTINGS } from "../../../server/src/design/settings.js";
import { applyEdits } from "../../../server/src/document/edits.js";
import { checked, documentOf, fileOf, WHISTLE } from "../../support/designs.js";
import { vessel } from "../../support/families.js";
import { tube } from "../../support/marked.js";

/** The text redrawn by a factor, and the remarks. */
function redrawn(text: string, factor = 2) {
  const file = fileOf(text);
  const { edits, remarks } = redrawEdits(file, documentOf(file), factor);
  // Nothing is written that stands there already.
  for (const { span, text: written } of edits) expect(written).not.toBe(text.slice(span.start, span.end));
  return { text: applyEdits(text, edits), remarks };
}
const hole = (at: string, more = "diameter: 7") => `holes:\n  - { at: ${at}, ${more} }\n`;
const BORE = (size: string, foot: string) =>
  `bore:\n  - { at: 0, diameter: ${size} }\n  - { at: ${foot}, diameter: ${size} }\n`;

/** Entries beside a bore of 16 mm and a wall of 3, before and after everything is twice as large. */
function doubles(before: string, after: string, remarks: readonly string[] = []) {
  const found = redrawn(tube(`${BORE("16", "352")}wall: 3\n${before}`));
  expect(found).toEqual({ text: tube(`${BORE("32", "704")}wall: 6\n${after}`), remarks });
}
const PLAIN = (places: string) => [
  `Expressions that do not grow in step with the instrument became plain numbers: ${places}.`,
];

describe("a redraw", () => {
  it("grows every length of the instrument, and nothing of player, air or printer", () => {
    const stays =
      "air: { temperature: 20 }\nprint: { bed: [200, 200, 200], holeUndersize: 0.2, scale: 90 % }\nhands: { spacing: 1 }\nrefit: { undercut: 2 }\nstock: { drills: [7, 8] }\n";
    doubles(
      `${stays}mouth: { window: { width: 9, cutUp: 4.5 } }\n${hole("120", "diameter: 7, chimney: 4, angle: 30")}`,
      `${stays}mouth: { window: { width: 18, cutUp: 9 } }\n${hole("240", "diameter: 14, chimney: 8, angle: 30")}`,
    );
  });
  it.each([
    [
      "parameters that are lengths, those that are ratios staying",
      "{ tube: 16, share: 0.5, gap: =tube*share }",
      "=tube*10 + 5",
      "{ tube: 32, share: 0.5, gap: =tube*share }",
      "=tube*10 + 10",
    ],
    [
      "parameters by the power of length they carry",
      "{ area: 50 }",
      "=sqrt(area) + 100",
      "{ area: 200 }",
      "=sqrt(area) + 200",
    ],
  ])("grows %s", (_, before, at, after, then) => {
    doubles(`parameters: ${before}\n${hole(at)}`, `parameters: ${after}\n${hole(then, "diameter: 14")}`);
  });
  it("finds lengths through any number of parameters, in whatever order they stand", () => {
    const chain = (first: number) => `parameters: { a: ${first}, b: =a*2, c: =b*2, d: =c*2 }\n`;
    doubles(chain(15) + hole("=d"), chain(30) + hole("=d", "diameter: 14"));
  });
  it("grows areas and powers of what is known as a length", () => {
    const own = (at: string) => hole(at, "diameter: 7, chimney: =a");
    const grown = (at: string) => hole(at, "diameter: 14, chimney: =a");
    const [area, cube] = ["area: =a*a", "v: =a**3"];
    doubles(
      `parameters: { a: 4, ${area} }\n${own("=area/a + 96")}`,
      `parameters: { a: 8, ${area} }\n${grown("=area/a + 192")}`,
    );
    doubles(
      `parameters: { a: 4, ${cube} }\n${own("=v/(a**2) + 96")}`,
      `parameters: { a: 8, ${cube} }\n${grown("=v/(a**2) + 192")}`,
    );
  });
  it.each([
    ["=wall*30 + 20", "=wall*30 + 40"],
    ["=20 - -wall*30", "=40 - -wall*30"],
    ["'=max(100, wall*20)'", "'=max(200, wall*20)'"],
    ["=wall*30/2 + 60", "=wall*30/2 + 120"],
    ["=bore[1].diameter*7", "=bore[1].diameter*7"],
  ])("grows in %s what is a length", (at, then) => {
    doubles(hole(at.includes("[") ? `"${at}"` : at), hole(then.includes("[") ? `"${then}"` : then, "diameter: 14"));
  });
  it.each([
    // A sum in a product carries what its telling terms carry: places with a length, numbers none.
    ["a: 1, n: 30", "=n*(a + wall)", "a: 2, n: 30", "=n*(a + wall)"],
    ["a: 7, n: 30", "=n*(a - wall)", "a: 14, n: 30", "=n*(a - wall)"],
    ["n: 24", "=n*(2 + wall)", "n: 24", "=n*(4 + wall)"],
    ["n: 40", "=(2 + 1)*n", "n: 80", "=(2 + 1)*n"],
    ["n: -360", "=n/-wall", "n: -1440", "=n/-wall"],
    // A root carries half of what it is of, and what min and max choose from all carry the same.
    ["area: 360", "=area/sqrt(wall*wall)", "area: 1440", "=area/sqrt(wall*wall)"],
    ["n: 40", "'=n*max(wall, 2)'", "n: 40", "'=n*max(wall, 4)'"],
    ["n: 12, area: 100", "=n*sqrt(area)", "n: 24, area: 100", "=n*sqrt(area)"],
    ["a: 120", "'=min(abs(a), 400)'", "a: 240", "'=min(abs(a), 800)'"],
    // Powers, quotients and products: a length over a length is a ratio, a square over a length a length.
    ["n: 6", "=foot/bore[0].diameter*n", "n: 12", "=foot/bore[0].diameter*n"],
    ["a: 3", "=wall**2/a*40", "a: 6", "=wall**2/a*40"],
    ["n: 3", "=wall*wall*40/n", "n: 6", "=wall*wall*40/n"],
    ["area: 144", "=area**0.5*10", "area: 576", "=area**0.5*10"],
    ["area: 360", "=area/wall", "area: 1440", "=area/wall"],
    ["n: 360", "=n/(wall/bore[0].diameter*16)", "n: 720", "=n/(wall/bore[0].diameter*16)"],
    ["a: 60, b: 2", "=a*b + wall", "a: 120, b: 2", "=a*b + wall"],
    ["a: 20", "=sqrt(a*a) + 100", "a: 40", "=sqrt(a*a) + 200"],
    ["a: 200, b: 2", "=sqrt(a*b) + 100", "a: 800, b: 2", "=sqrt(a*b) + 200"],
    // A factor, and nothing, are written as they were.
    ["n: 1", "=wall*33.3333 + 0.0", "n: 1", "=wall*33.3333 + 0.0"],
    ["n: 1", "' =wall*40'", "n: 1", "' =wall*40'"],
    ["n: 1", "=wall*30 + 5 + 9", "n: 1", "=wall*30 + 10 + 18"],
  ])("finds what grows among %s in %s", (before, at, after, then) => {
    const quoted = (formula: string) => (formula.includes("[") ? `"${formula}"` : formula);
    const foot = /\bfoot\b/g;
    doubles(
      `parameters: { ${before} }\n${hole(quoted(at.replace(foot, "bore[1].at")))}`,
      `parameters: { ${after} }\n${hole(quoted(then.replace(foot, "bore[1].at")), "diameter: 14")}`,
    );
  });
  it.each([
    // What one place leaves open another tells, whichever stands first.
    ["r: 3, a: 40", "=r*a", "diameter: 7, chimney: =a/10", "r: 3, a: 80", "diameter: 14, chimney: =a/10"],
    ["a: 4, b: 10", "=a*b*wall", "diameter: 7, chimney: =a", "a: 8, b: 5", "diameter: 14, chimney: =a"],
    ["a: 4, b: 10", "=wall*(a*b)", "diameter: 7, chimney: =a", "a: 8, b: 5", "diameter: 14, chimney: =a"],
    // Where nothing tells, the first is taken to grow, and what follows from that comes before the next such choice.
    [
      "p: 60, q: 2, s: 2, t: 4",
      "=p*q",
      "diameter: =s*t, chimney: =t*q",
      "p: 120, q: 2, s: 2, t: 8",
      "diameter: =s*t, chimney: =t*q",
    ],
  ])("takes what one formula leaves open from another: %s", (before, at, more, after, then) => {
    doubles(`parameters: { ${before} }\n${hole(at, more)}`, `parameters: { ${after} }\n${hole(at, then)}`);
  });
  it.each([
    ["a: 5", "=120*a**0"],
    ["a: 20", "=a/a*120"],
    ["a: 20", "=round(wall*33.5) + a"],
    ["a: 20", "=wall**4 + a"],
  ])("changes no parameter for a formula that cannot grow: %s, %s", (parameter, at) => {
    const exact = Number(at.includes("round") ? 121 : at.includes("**4") ? 101 : 120);
    doubles(
      `parameters: { ${parameter} }\n${hole(at)}`,
      `parameters: { ${parameter} }\n${hole(String(2 * exact), "diameter: 14")}`,
      PLAIN("`at` of hole 1"),
    );
  });
  it("keeps what is rounded to whole degrees a ratio", () => {
    doubles(
      `parameters: { a: 6 }\n${hole("100, angle: =round(a)", "diameter: 7, chimney: =a")}`,
      `parameters: { a: 6 }\n${hole("200, angle: =round(a)", "diameter: 14, chimney: 12")}`,
      PLAIN("`chimney` of hole 1"),
    );
  });
  it("grows a volume by the cube", () => {
    const text = vessel("parameters: { v: 100, w: 10 }\nwall: =w/2", "volume: =v");
    expect(redrawn(text).text).toContain("parameters: { v: 800, w: 20 }");
    expect(redrawn(text).text).toContain("volume: =v");
    expect(redrawn(vessel("", "volume: 100")).text).toContain("volume: 800");
  });
  it("puts a number in place of a formula that does not grow in step, and says so", () => {
    doubles(
      `parameters: { n: 4 }\n${hole("=n*wall*10", "diameter: =n")}`,
      `parameters: { n: 4 }\n${hole("=n*wall*10", "diameter: 8")}`,
      PLAIN("`diameter` of hole 1"),
    );
    doubles(hole("=round(wall*33.4)"), hole("=round(wall*33.4)", "diameter: 14"));
    doubles(hole("=round(wall*33.5)"), hole("202", "diameter: 14"), PLAIN("`at` of hole 1"));
    doubles(
      `parameters: { a: 4, area: =a*a }\n${hole("=area/a + 96")}`,
      `parameters: { a: 4, area: =a*a }\n${hole("200", "diameter: 14")}`,
      PLAIN("`at` of hole 1"),
    );
    doubles(hole("=wall**4"), hole("162", "diameter: 14"), PLAIN("`at` of hole 1"));
    doubles(
      hole("=wall**4", "diameter: =wall**2"),
      hole("162", "diameter: 18"),
      PLAIN("`at` of hole 1, `diameter` of hole 1"),
    );
  });
  it.each(["=a*round(wall)", "=round(wall)*a"])("learns nothing from a product that cannot grow: %s", (at) => {
    const chimney = "diameter: 7, chimney: =a/10";
    doubles(
      `parameters: { a: 40 }\n${hole(at, chimney)}`,
      `parameters: { a: 80 }\n${hole("240", chimney.replace("7", "14"))}`,
      PLAIN("`at` of hole 1"),
    );
  });
  it("learns from a power whose exponent has a name only that a ratio stays one", () => {
    const own = (at: string, more: string) => hole(at, `diameter: 7, chimney: =a${more}`);
    const grown = (at: string, more: string) => hole(at, `diameter: 14, chimney: ${more}`);
    doubles(
      `parameters: { a: 6, n: 3 }\n${own("=a**n", "")}`,
      `parameters: { a: 12, n: 3 }\n${grown("432", "=a")}`,
      PLAIN("`at` of hole 1"),
    );
    doubles(
      `parameters: { a: 6, n: 2 }\n${own("100, angle: =a**n", "")}`,
      `parameters: { a: 6, n: 2 }\n${grown("200, angle: =a**n", "12")}`,
      PLAIN("`chimney` of hole 1"),
    );
  });
  it("follows what an alias or a merge key brings in", () => {
    const pair = (at: number, more: string, second: number) =>
      `holes:\n  - &first { at: ${at}, ${more} }\n  - { <<: *first, at: ${second} }\n`;
    doubles(pair(120, "diameter: 7, chimney: 4", 150), pair(240, "diameter: 14, chimney: 8", 300));
  });
  it("draws that number in steps as any other", () => {
    const { text } = redrawn(tube(`parameters: { n: 4 }\n${hole("=n*wall*10", "diameter: =n")}`), 2 ** (1 / 12));
    expect(text).toContain("diameter: 4.2 }");
  });
  it.each(["=gap*count", "=gap/count"])("lets the first of two factors of which nothing is known grow: %s", (at) => {
    doubles(
      `parameters: { gap: 60, count: 2 }\n${hole(at)}`,
      `parameters: { gap: 120, count: 2 }\n${hole(at, "diameter: 14")}`,
    );
  });
  it("leaves a parameter that nothing uses, and one that does not follow, without a word", () => {
    doubles(
      `parameters: { idle: 5, odd: =wall**2 }\n${hole("100")}`,
      `parameters: { idle: 5, odd: =wall**2 }\n${hole("200", "diameter: 14")}`,
    );
  });
  it("is drawn in steps of 0.1 mm, or 0.001 in, or of the design's own; what is under ten steps in tenths of them", () => {
    const semitone = 2 ** (1 / 12);
    const [first] =
      redrawn(tube(hole("123.456", "diameter: 6.789, undercut: 0.5")), semitone).text.match(/at: 1.*/) ?? [];
    expect(first).toBe("at: 130.8, diameter: 7.2, undercut: 0.53 }");
    const fine = redrawn(tube(`print: { rounding: 0.05 }\n${hole("123.5", "diameter: 6.75")}`), semitone).text;
    expect(fine).toContain("at: 130.85, diameter: 7.15 }");
    const inches = tube("units: in\nwall: 0.12\nbore: [{ at: 0, diameter: 0.63 }, { at: 14, diameter: 0.63 }]");
    expect(redrawn(inches, semitone).text).toContain(
      "bore: [{ at: 0, diameter: 0.667 }, { at: 14.832, diameter: 0.667 }]",
    );
  });
  it("is drawn to a hundredth of a square millimetre, or a ten-thousandth of a square inch, where it is no length", () => {
    const area = (design: string) => /area: ([\d.]+)/.exec(redrawn(design, 1.05).text)?.[1];
    // 1.05 squared is 1.1025.
    expect(area(tube(`parameters: { area: 51 }\n${hole("=sqrt(area) + 100")}`))).toBe("56.23");
    const inches = "units: in\nwall: 0.12\nbore: [{ at: 0, diameter: 0.63 }, { at: 14, diameter: 0.63 }]\n";
    const half = `${inches}parameters: { area: 0.51 }\n${hole("=sqrt(area) + 5", "diameter: 0.3")}`;
    expect(area(tube(half))).toBe("0.5623");
  });
  it("draws a number finer whose rounding a formula multiplies", () => {
    // A step of 0.1 mm would come 32 times in the hole's place.
    const { text, remarks } = redrawn(tube(`parameters: { gap: 3.4 }\n${hole("=gap*32 + 10.4")}`), 1.05);
    expect(text).toContain("gap: 3.57 }");
    expect(text).toContain("at: =gap*32 + 10.92");
    expect(remarks).toEqual([]);
    const coarse = redrawn(tube(hole('"=bore[1].at/4 + 20.4"')), 1.05).text;
    expect(coarse).toContain('at: "=bore[1].at/4 + 21.4"');
  });
});

describe("the steps of a redraw", () => {
  const slopes = (file: ReturnType<typeof fileOf>) => {
    const { resolution } = documentOf(file);
    return sensitivitiesOf(resolution, analyse(resolution.instrument, DEFAULT_SETTINGS));
  };
  const semitone = 2 ** (1 / 12);
  const drawn = (text: string, factor = semitone) => {
    const file = fileOf(text);
    const { edits, remarks } = redrawEdits(file, documentOf(file), factor, slopes(file));
    return { after: checked(applyEdits(text, edits)).analysis, text: applyEdits(text, edits), remarks };
  };
  /** Against the same dimensions to a millionth of a millimetre, in what counts the most. */
  const moved = (text: string, { after }: ReturnType<typeof drawn>, factor = semitone) => {
    const exact = fileOf(text.replace("name:", "print: { rounding: 0.000001 }\nname:"));
    const { edits } = redrawEdits(exact, documentOf(exact), factor);
    const { fingerings } = checked(applyEdits(exact.text, edits)).analysis;
    return Math.max(...after.fingerings.map(({ cents }, i) => Math.abs((cents ?? 0) - (fingerings[i]?.cents ?? 0))));
  };

  it("cancel in the notes: each length is within a step, and no note moves by more than a cent", () => {
    const result = drawn(WHISTLE);
    const numbers = (text: string) =>
      documentOf(fileOf(text)).resolution.numbers.filter(({ quantity }) => quantity === "length");
    numbers(result.text).forEach(({ value }, i) => {
      expect(Math.abs(value - (numbers(WHISTLE)[i]?.value ?? 0) * semitone)).toBeLessThan(0.1);
    });
    expect(moved(WHISTLE, result)).toBeLessThan(1);
    // Each to its nearest step is not as close.
    const file = fileOf(WHISTLE);
    const nearest = applyEdits(WHISTLE, redrawEdits(file, documentOf(file), semitone).edits);
    expect(moved(WHISTLE, { ...result, after: checked(nearest).analysis })).toBeGreaterThan(2);
    expect(result.remarks).toEqual([]);
  });
  it("are the same for numbers that were the same", () => {
    const { text } = drawn(WHISTLE);
    const sizes = ["L1", "L3", "R1"].map((name) => new RegExp(`${name}.*diameter: ([\\d.]+)`).exec(text)?.[1]);
    expect(new Set(sizes).size).toBe(1);
  });
  it("are told where they move a note by a cent and more, with the finer ones", () => {
    const coarse = WHISTLE.replace("name:", "print: { rounding: 1 }\nname:");
    const result = drawn(coarse);
    expect(result.remarks.join()).toMatch(
      /^Drawn in steps of 1 mm, which moves a note by up to \S+ cents: `print: \{ rounding: 0.5 \}` draws finer\.$/,
    );
  });
  it.each([0.51, 1.49])("are told as they come out, of an instrument %d times as large", (factor) => {
    // One note and one length: nothing can cancel steps of 1 mm.
    const one = tube("name: One\nmouth: ideal\nfingerings: [{ degree: 1, holes: '' }]\n");
    const result = drawn(one.replace("name:", "print: { rounding: 1 }\nname:"), factor);
    const told = Number(/up to ([\d.]+) cents/.exec(result.remarks.join())?.[1]);
    expect(told / moved(one, result, factor)).toBeGreaterThan(0.8);
    expect(told / moved(one, result, factor)).toBeLessThan(1.2);
  });
});

describe("roundings that cancel", () => {
  const numberOf = (seed: number) => (n: number) => {
    const at = Math.sin(seed * 12.9898 + n * 78.233) * 43758.5453;
    return at - Math.floor(at);
  };
  const designs = Array.from({ length: 30 }, (_, seed) => {
    const random = numberOf(seed + 1);
    return Array.from({ length: 6 }, (_, i): Scaled => {
      // The last two belong together.
      const own = i === 5 ? 4 : i;
      const step = own % 2 === 0 ? { size: 0.1, decimals: 1 } : { size: 0.5, decimals: 1 };
      const slopes = Array.from({ length: own === 3 ? 0 : 3 }, (_, note) => 40 * random(10 * i + note + 1) - 20);
      return { value: 5 + 20 * random(own), step, group: String(own), slopes };
    });
  });
  const shifts = (numbers: readonly Scaled[], values: readonly number[]) =>
    [0, 1, 2].map((note) =>
      numbers.reduce((sum, { slopes, value }, i) => sum + (slopes[note] ?? 0) * ((values[i] ?? 0) - value), 0),
    );
  /** Cents squared, and a tenth of a cent for a whole step away from a group's exact value. */
  const cost = (numbers: readonly Scaled[], values: readonly number[]) =>
    shifts(numbers, values).reduce((sum, each) => sum + each ** 2, 0) +
    numbers
      .slice(0, 5)
      .reduce((sum, { value, step }, i) => sum + (0.1 * (((values[i] ?? 0) - value) / step.size)) ** 2, 0);

  it("leave no number, and no two, that would be better on the other step beside their exact values", () => {
    for (const numbers of designs) {
      const { values, cents } = drawnAlike(numbers);
      expect(cents).toBeCloseTo(Math.max(...shifts(numbers, values).map(Math.abs)), 9);
      expect(values[5]).toBe(values[4]);
      for (const [i, { value, step }] of numbers.entries()) {
        expect(Math.abs((values[i] ?? 0) - value)).toBeLessThan(step.size);
        expect((values[i] ?? 0) / step.size).toBeCloseTo(Math.round((values[i] ?? 0) / step.size), 6);
      }
      const flipped = (from: readonly number[], group: number) =>
        from.map((drawn, i) => {
          const { value = 0, step = { size: 1 } } = numbers[i] ?? {};
          if (Math.min(i, 4) !== group) return drawn;
          return drawn > value ? drawn - step.size : drawn + step.size;
        });
      for (let one = 0; one < 5; one++)
        for (let other = one; other < 5; other++) {
          const single = flipped(values, one);
          const changed = other === one ? single : flipped(single, other);
          expect(cost(numbers, changed)).toBeGreaterThan(cost(numbers, values) - 1e-5);
        }
    }
  });
  it("are to the nearest step where no note hears them", () => {
    const deaf = (value: number, size: number): Scaled => ({
      value,
      step: { size, decimals: 2 },
      group: "a",
      slopes: [],
    });
    for (const [value, size, drawn] of [
      [3.14, 0.1, 3.1],
      [3.16, 0.1, 3.2],
      [3.14, 0.25, 3.25],
    ] as const)
      expect(drawnAlike([deaf(value, size)])).toEqual({ values: [drawn], cents: 0 });
    expect(drawnAlike([])).toEqual({ values: [], cents: 0 });
  });
});
