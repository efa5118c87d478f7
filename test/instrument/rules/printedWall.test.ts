/** print/wall-too-thin, print/wall-lines, print/scale-leaves-lines: the wall in printed lines, in every family. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { documentOf, fileOf } from "../../support/designs.js";
import { panPipe, TUBES, vessel } from "../../support/families.js";
import { codesOf, expectFinding, expectNothing, tube } from "../../support/marked.js";

const FAMILIES = [...TUBES, ["vessel", vessel], ["panpipe", panPipe]] as const;
const severityOf = (text: string) => documentOf(fileOf(text)).findings.map(({ severity }) => severity);
const messageOf = (text: string) => documentOf(fileOf(text)).findings[0]?.message ?? "";

describe("print/wall-too-thin", () => {
  it.each(FAMILIES)("marks the wall of a %s flute", (_, text) => {
    expectFinding(
      text("print: { nozzle: 0.4 }\nwall: [[1.1]]"),
      "print/wall-too-thin",
      /prints 1\.1 mm thick; to be airtight it needs 1\.2 mm \(3 lines of 0\.4 mm\).* Draw it 1\.2 mm or thicker/,
    );
    expectNothing(text("print: { nozzle: 0.4 }\nwall: 1.2"));
  });
  it("takes the usual nozzle where none is stated, and is silent for a design that is not printed", () => {
    expectFinding(tube("print: { scale: 100 % }\nwall: [[1.1]]"), "print/wall-too-thin", "1.2 mm");
    expectNothing(tube("wall: 1.1"));
  });
  it("takes the least wall or the line that the design states", () => {
    expectNothing(tube("print: { nozzle: 0.4, leastWall: 0.8 }\nwall: 0.8"));
    expectFinding(
      tube("print: { nozzle: 0.4, leastWall: 2 }\nwall: [[1.6]]"),
      "print/wall-too-thin",
      "2 mm (`print.leastWall`)",
    );
    expectFinding(
      tube("print: { nozzle: 0.4, lineWidth: 0.45 }\nwall: [[1.3]]"),
      "print/wall-too-thin",
      "1.35 mm (3 lines of 0.45 mm)",
    );
  });
  it("measures it as scaled, and what it says to draw holds", () => {
    const at = (wall: string) => tube(`print: { nozzle: 0.4, scale: 55 % }\nwall: ${wall}`);
    expectFinding(at("[[2]]"), "print/wall-too-thin", "prints 1.1 mm thick");
    const drawn = /Draw it ([\d.]+) mm/.exec(messageOf(at("2")))?.[1] ?? "";
    expect(codesOf(at(drawn))).not.toContain("print/wall-too-thin");
  });
  it("points at the scale where the print has one", () => {
    const related = (text: string) =>
      documentOf(fileOf(text)).findings[0]?.related?.map(({ span }) => text.slice(span.start, span.end));
    expect(related(tube("print: { nozzle: 0.4, scale: 55 % }\nwall: 2"))).toEqual(["55 %"]);
    expect(related(tube("print: { nozzle: 0.4 }\nwall: 1")) ?? []).toEqual([]);
  });
  it("is a warning", () => expect(severityOf(tube("print: { nozzle: 0.4 }\nwall: 1"))).toEqual(["warning"]));
});

describe("print/wall-lines", () => {
  it.each(FAMILIES)("marks the wall of a %s flute that is not a whole number of lines", (_, text) => {
    expectFinding(
      text("print: { nozzle: 0.4, lineWidth: 0.42 }\nwall: [[3.1]]"),
      "print/wall-lines",
      /not a whole number of lines of 0\.42 mm.* Draw it 2\.94 mm \(7 lines\) or 3\.36 mm \(8 lines\)\.$/,
    );
    expectNothing(text("print: { nozzle: 0.4, lineWidth: 0.42 }\nwall: 2.94"));
  });
  it("lets lines be as wide as slicers vary them where only the nozzle is stated", () => {
    for (const wall of ["1.2", "1.44", "1.6", "2.6", "3", "3.2", "4"])
      expectNothing(tube(`print: { nozzle: 0.4 }\nwall: ${wall}`));
    expectFinding(tube("print: { nozzle: 0.4 }\nwall: [[1.52]]"), "print/wall-lines", "lines of 0.4 mm to 0.48 mm");
    expectFinding(
      tube("print: { nozzle: 0.8, leastWall: 1 }\nwall: [[1.3]]"),
      "print/wall-lines",
      "Draw it 1.6 mm (2 lines).",
    );
    expectFinding(
      tube("print: { nozzle: 0.8, leastWall: 0.5 }\nwall: [[1.3]]"),
      "print/wall-lines",
      "Draw it 0.96 mm (1 line) or 1.6 mm (2 lines).",
    );
  });
  it("is silent where neither is stated, for a thick wall, and where the wall is too thin anyway", () => {
    expectNothing(tube("print: { scale: 100 % }\nwall: 1.52"));
    expectNothing(tube("print: { lineWidth: 0.42 }\nwall: 5.2"));
    expect(codesOf(tube("print: { lineWidth: 0.42 }\nwall: 1.1"))).toEqual(["print/wall-too-thin"]);
  });
  it("is information", () => {
    expect(severityOf(tube("print: { lineWidth: 0.42 }\nwall: 3.1"))).toEqual(["information"]);
  });
  it("names walls that are whole lines, whatever wall, line and scale", () => {
    const numbers = fc.tuple(
      fc.double({ min: 1, max: 8, noNaN: true }),
      fc.double({ min: 0.2, max: 1, noNaN: true }),
      fc.double({ min: 50, max: 200, noNaN: true }),
      fc.constantFrom("nozzle", "lineWidth"),
    );
    fc.assert(
      fc.property(numbers, ([wall, line, scale, name]) => {
        const text = (size: number | string) => tube(`print: { ${name}: ${line}, scale: ${scale} % }\nwall: ${size}`);
        const advice = messageOf(text(wall)).match(/[\d.]+(?= mm \(\d+ lines?\))/g) ?? [];
        for (const size of advice) expect(codesOf(text(size)), `${size} for ${wall}`).toEqual([]);
      }),
      { seed: 7, numRuns: 300 },
    );
  });
});

describe("print/scale-leaves-lines", () => {
  const at = (scale: string, wall = "2.94") => `print: { lineWidth: 0.42, scale: ${scale} }\nwall: ${wall}`;

  it.each(FAMILIES)("marks the scale that spoils whole lines in a %s flute", (_, text) => {
    expectFinding(
      text(at("[[92.4 %]]")),
      "print/scale-leaves-lines",
      /^At 92\.4 % the wall prints 2\.72 mm thick, not a whole number of lines of 0\.42 mm, where as drawn it is 7\. Draw it .* rekey by refit/,
    );
    expectNothing(text(at("100 %")));
    // Six sevenths of the size: seven lines become six.
    expectNothing(text(at("=600/7")));
  });
  it("leaves a wall that was odd as drawn to print/wall-lines", () => {
    expect(codesOf(tube(at("98 %", "3.1")))).toEqual(codesOf(tube(at("100 %", "3.1"))));
  });
});
