/** What a maker reads with the pointer on a word of the design. */

import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { MarkupContent } from "vscode-languageserver";
import { hover } from "../../server/src/language/hover/index.js";
import { toPlainText } from "../../server/src/language/hover/markdown.js";
import { INITIAL_SETTINGS } from "../../server/src/language/settings.js";
import { WHISTLE } from "../support/designs.js";
import { atCursor, type Given, JSON_URI, marked, textIn } from "../support/language.js";

/** The hover's text with the cursor `after` signs behind the first place where `place` stands. */
function hoverAt(text: string, place: string, after = 0, given: Given = {}): string {
  const { context, position } = atCursor(marked(text, place, after), given);
  return (hover(context, position)?.contents as MarkupContent | undefined)?.value ?? "";
}

const CAVEAT = /lip and breath can shift every note together/;

/** The predicted deviation of `note` from the table of a fingering's hover. */
function deviationIn(text: string): number {
  const match = /deviation \| ([+−]?)(\d+\.\d) cents/.exec(text);
  return Number(`${match?.[1] === "−" ? "-" : ""}${match?.[2]}`);
}

describe("of a vessel", () => {
  it("describes a vessel: no registers, no bore and no first open hole", () => {
    const vessel = readFileSync("examples/lantern-vessel.bore.yaml", "utf8");
    for (const place of ["Lantern vessel\nfamily", "degree: 3", "R2", "key: C5", "window: {", "length: 62"]) {
      const said = hoverAt(vessel, place);
      expect(said).not.toBe("");
      expect(said).not.toMatch(/register|cut-off|first open|\bbore\b|\bfoot\b/);
    }
    expect(hoverAt(vessel, "degree: 3")).toContain("Tuned by R2, the hole opened last");
  });
});

describe("on a fingering", () => {
  const text = hoverAt(WHISTLE, "degree: 2");

  it("shows target, prediction and deviation, with no more digits than are meaningful", () => {
    // ISO 16: A4 is 440 Hz.
    expect(text).toMatch(/target \| 440\.0 Hz/);
    expect(text).toMatch(/predicted \| \d+\.\d Hz/);
    expect(text).toMatch(/deviation \| ([+−]\d+\.\d cents \((sharp|flat)\)|0\.0 cents)/);
    expect(text).not.toMatch(/\d\.\d\d/);
  });

  it("agrees in hertz and in cents", () => {
    const hz = Number(/predicted \| (\d+\.\d) Hz/.exec(text)?.[1]);
    expect(deviationIn(text)).toBeCloseTo(1200 * Math.log2(hz / 440), 0);
  });

  it("names the neighbours in the register and the hole that decides", () => {
    expect(text).toMatch(/G4 \|.*\n\| \*\*A4\*\* \|.*\n\| B4 \|/);
    expect(text).toContain("Decided by R3");
    expect(hoverAt(WHISTLE, "degree: 1,")).toContain("the length of the bore decides");
  });

  it("estimates the breath in mm of water and Pa, and says that it does", () => {
    expect(text).toMatch(
      /Breath, estimated: speaks from [\d.]+ mm \(\d+ Pa\) of water; ordinary breath .* cents for a tenth more breath/,
    );
    const windway = hoverAt(
      WHISTLE.replace("cutUp: 4.5, labium: 1 }", "cutUp: 4.5, labium: 1 }\n  windway: { height: 1 }"),
      "height",
    );
    expect(windway).toMatch(/Windway 0\.1 mm higher: G4 .* ml\/s\. An estimate/);
    expect(hoverAt(WHISTLE, "cutUp")).toMatch(/Cut-up 0\.5 mm longer.*windway 1\.2 mm high/);
    expect(hoverAt(WHISTLE, "family")).toMatch(/Ordinary breath from .* of water to .*estimate/);
  });

  it("says how sure it is", () => {
    expect(text).toMatch(/Good to −\d+ to \+\d+ cents, mostly the mouth/);
    for (const place of ["family", "window"]) expect(hoverAt(WHISTLE, place)).toMatch(CAVEAT);
    for (const place of ["degree: 2", "name: L2", "key"]) expect(hoverAt(WHISTLE, place)).not.toMatch(CAVEAT);
    const ideal = WHISTLE.replace(/mouth:\n.*\n/, "mouth: ideal\n");
    expect(hoverAt(ideal, "family")).not.toMatch(CAVEAT);
    expect(hoverAt(ideal, "degree: 2")).toContain("predicted");
  });

  it("names the nearest note where it is another one", () => {
    expect(hoverAt(WHISTLE.replace("{ degree: 2,", "{ note: C5,"), "note: C5")).toMatch(/nearest note \| A4/);
  });

  it("says why there is no prediction", () => {
    expect(hoverAt(WHISTLE.replace("●●●●●○", "●●"), "degree: 2")).toContain("cannot be read");
    expect(hoverAt(WHISTLE.replace("wall: =wall", "wall: =no"), "degree: 2")).toContain("not complete");
    expect(hoverAt(WHISTLE.replace("register: 2", "register: 16"), "degree: 8")).toContain("no register 16");
  });
});

describe("on a hole", () => {
  it("lists the notes it governs, and what a change of it does", () => {
    const text = hoverAt(WHISTLE, "210.3");
    expect(text).toMatch(/\*\*L2\*\* governs/);
    expect(text).toMatch(/\| E5 \| 659\.3 Hz \|/); // equal temperament, ISO 16
    expect(text).not.toMatch(/\| D5 \|/);
    // Common practice, no source: a hole nearer the mouth sounds sharper, a wider one too.
    expect(text).toMatch(/nearer the mouth: \+\d/);
    expect(hoverAt(WHISTLE, "8.5")).toMatch(/wider: \+\d/);
  });

  it("says so where it governs none", () => {
    expect(
      hoverAt(WHISTLE.replace("{ degree: 6, holes: ●○○○○○ }", "{ degree: 6, holes: ○○○○○○ }"), "name: L2"),
    ).toContain("not the first open hole of any fingering");
  });
});

describe("on the rest of the design", () => {
  it.each([
    ["name: Test", "7 fingerings"],
    ["family: duct", "7 fingerings"],
    ["key: G4", "392.0 Hz"], // equal temperament, ISO 16
    ["air:", "m/s"],
    ["temperature: 22", "m/s"],
    ["mouth:", "more tube"],
    ["cutUp", "more tube"],
    ["at: 394.1", "Station 2 of 2"],
    ["wall: =wall", "**3** mm"],
    ["wall: 3", "Used in `wall`"],
    ["tolerance", "Unit: cents"],
  ])("%s: numbers first, then what it means", (place, expected) => {
    const text = hoverAt(WHISTLE, place);
    expect(text).toContain(expected);
    expect(text.trimEnd()).toMatch(/[.]$/);
  });

  it("shows under `rules` what each finding looks for and its severity by default", () => {
    const text = hoverAt(`${WHISTLE}rules: { print/wall-lines: off }\n`, "print/wall-lines");
    expect(text).toContain("not a whole number of printed lines. Information by default.");
    expect(text).toContain("One of `off`, `information`, `warning`, `error`.");
  });

  it("says where a parameter is used in the maker's words, counted from 1", () => {
    expect(hoverAt(WHISTLE, "tube: 16")).toContain("Used in `diameter` of station 1, `diameter` of station 2.");
    const text = WHISTLE.replace("tube: 16", "tube: 16, low: 270.8")
      .replace("at: 270.8", "at: =low")
      .replace("name: R2, at: 289.6", "at: =low + 18.8")
      .replace("width: 9.82", "width: =low/27.58");
    expect(hoverAt(text, "low: 270.8")).toContain("Used in `mouth.window.width`, `at` of R1, `at` of hole 5.");
  });

  it("shows the speed of sound", () => {
    // Cramer (1993) for 22 °C, 60 % humidity: near 345.4 m/s; dry air at 20 °C is 343.4 in every handbook (from memory).
    expect(hoverAt(WHISTLE, "air:")).toMatch(/345\.\d m\/s/);
    expect(hoverAt(WHISTLE.replace("humidity: 60", "speedOfSound: 343.37"), "air:")).toContain("343.4 m/s");
  });

  it("says when the temperature is the user's", () => {
    const text = WHISTLE.replace("temperature: 22, ", "");
    const settings = { ...INITIAL_SETTINGS, analysis: { ...INITIAL_SETTINGS.analysis, temperature: 17 } };
    expect(hoverAt(text, "air:", 0, { settings })).toMatch(/17 °C, from your settings/);
  });

  it("shows where a temperament puts the notes of the design", () => {
    const pure = hoverAt(WHISTLE.replace("tolerance: 10", "temperament: just"), "just");
    // Just intonation on G with A4 kept: the pure third of G is 386.3 cents, its second 203.9 (5:4 and 9:8).
    expect(pure).toMatch(/\| B4? \| −1[0-9]\.\d \|/);
    expect(hoverAt(WHISTLE.replace("tolerance: 10", "temperament: equal"), "equal")).toContain(
      "where equal temperament",
    );
  });

  it("compares the pitch standard with ISO 16", () => {
    // 1200 log2(415/440) = −101.3
    expect(hoverAt(WHISTLE.replace("tolerance: 10", "pitchStandard: 415"), "415")).toContain("−101.3 cents");
  });

  it("shows what the print scale does to the pitch", () => {
    const text = `${WHISTLE}print: { scale: 200 % }\n`;
    // An octave; friction and the hand's numbers are told by test/design/scale.
    expect(hoverAt(text, "200 %")).toMatch(/2 times the drawn one\.\n\nPrinted at 200 % it plays G3/);
  });

  it("gives the value of an expression in the file's unit", () => {
    expect(hoverAt(WHISTLE, "=tube }")).toMatch(/\*\*16\*\* mm = tube/);
    expect(hoverAt(WHISTLE.replace("key: G4", "key: G4\nunits: in"), "=tube }")).toMatch(/\*\*16\*\* in = tube/);
  });

  it("says of a size whether it fits the bed, as `check` finds at that size", () => {
    const at = (scale: string, bed: string) => hoverAt(`${WHISTLE}print: { scale: ${scale}, bed: ${bed} }\n`, "scale:");
    expect(at("125 %", "[600, 300, 300]")).toMatch(/It fits the bed\.\n/);
    expect(at("125 %", "[220, 220, 250]")).toMatch(
      /the bed 220 mm by 220 mm, 250 mm high: it does not fit, not even from corner to corner\.\n/,
    );
    expect(at("125 %", "[220, 220, 250]")).not.toContain("Split it");
  });

  it("is silent between the entries and in comments", () => {
    expect(hoverAt(WHISTLE, "# harbour", 4)).toBe("");
    expect(hoverAt(WHISTLE, "# too far", 4)).toBe("");
    expect(hoverAt(WHISTLE, "  - { name: L1")).toBe("");
  });

  it("covers the word it is about", () => {
    const { context, position } = atCursor(marked(WHISTLE, "210.3", 2));
    const range = hover(context, position)?.range;
    expect(range && textIn(context, range)).toBe("210.3");
  });
});

describe("on designs that are not whole", () => {
  it("works while a line is half typed", () => {
    expect(hoverAt(`${WHISTLE}  - { degree: 9, hol`, "210.3")).toContain("governs");
    expect(hoverAt(WHISTLE.replace("tolerance: 10", "tolerance: "), "key: G4")).toContain("392.0 Hz");
  });

  it("works where the schema finds faults", () => {
    expect(hoverAt(WHISTLE.replace("tolerance: 10", "tollerance: 10"), "degree: 2")).toContain("predicted");
  });

  it("works on aliases and merged maps", () => {
    const text = WHISTLE.replace("at: 0, diameter: =tube }", "at: 0, diameter: &d 16 }").replace(
      "394.1, diameter: =tube",
      "394.1, diameter: *d",
    );
    expect(hoverAt(text, "*d", 1)).toContain("Station 2 of 2");
    const merged = WHISTLE.replace("- { degree: 1, holes", "- &one { degree: 1, holes").replace(
      "{ degree: 2, holes: ●●●●●○ }",
      "{ <<: *one, degree: 2 }",
    );
    expect(hoverAt(merged, "degree: 2")).toContain("440.0 Hz");
  });

  it("works in JSON", () => {
    const json = '{ "borewright": 1, "key": "A4", "fingerings": [{ "degree": 1, "holes": "" }] }';
    expect(hoverAt(json, '"A4"', 1, { uri: JSON_URI })).toContain("440.0 Hz");
  });
});

describe("what a design's own text can do", () => {
  it("shows as text and never as a link, an image or a heading", () => {
    const text = hoverAt(WHISTLE.replace("name: L2", 'name: "[x](command:evil) ![y](http://z) <b>"'), "210.3");
    expect(text).not.toMatch(/(?<!\\)\[x/);
    expect(text).not.toMatch(/(?<!\\)!\\?\[|(?<!\\)<b>/);
  });

  it("is plain for a client without Markdown", () => {
    const plain = hoverAt(WHISTLE, "degree: 2", 0, { client: { markdownHover: false } });
    expect(plain).toContain("440.0 Hz");
    expect(plain).not.toMatch(/\*\*|\| ---|`/);
    expect(toPlainText("**a** \\*b\\* `c` _d_")).toBe("a *b* c d");
  });
});
