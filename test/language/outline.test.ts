/** The outline and what can be folded. */
import { describe, expect, it } from "vitest";
import type { DocumentSymbol } from "vscode-languageserver";
import { documentSymbols, flatSymbols } from "../../server/src/language/documentSymbols.js";
import { foldingRanges } from "../../server/src/language/folding.js";
import { WHISTLE } from "../support/designs.js";
import { designOf, JSON_URI } from "../support/language.js";

/** Positions compare line first. */
function at({ line, character }: { line: number; character: number }): number {
  return line * 1e6 + character;
}

function everyRangeNests(symbols: readonly DocumentSymbol[]): void {
  for (const { range, selectionRange, children = [] } of symbols) {
    expect(at(selectionRange.start)).toBeGreaterThanOrEqual(at(range.start));
    expect(at(selectionRange.end)).toBeLessThanOrEqual(at(range.end));
    for (const child of children) {
      expect(at(child.range.start)).toBeGreaterThanOrEqual(at(range.start));
      expect(at(child.range.end)).toBeLessThanOrEqual(at(range.end));
    }
    everyRangeNests(children);
  }
}

describe("documentSymbols", () => {
  it("shows each instrument with its holes and fingerings by name", () => {
    const [first, second] = documentSymbols(designOf(`${WHISTLE}---\nborewright: 1\n`));
    expect(first?.name).toBe("Test whistle");
    expect(first?.detail).toBe("G4 duct");
    expect(second?.name).toBe("Instrument 2");
    const children = (name: string) => first?.children?.find((child) => child.name === name)?.children ?? [];
    expect(children("holes").map(({ name }) => name)).toEqual(["L1", "L2", "L3", "R1", "R2", "R3"]);
    expect(children("fingerings").map(({ name }) => name)).toEqual(["G4", "A4", "B4", "C5", "D5", "E5", "G5"]);
    expect(children("bore").map(({ name }) => name)).toEqual(["station at 0", "station at 394.1"]);
  });

  it.each([
    ["YAML", WHISTLE],
    ["two documents", `${WHISTLE}---\n${WHISTLE}`],
    ["aliases", 'x-h: &h { diameter: 8 }\nholes:\n  - *h\n  - { <<: *h, at: 3 }\nname: &n ""\nbore: *n\n'],
    ["an empty name", '"": 1\nholes: [ {name: ""}, 3, null ]\n'],
    ["half a line", `${WHISTLE}  - { degree`],
  ])("has ranges that nest, and a name for everything: %s", (_, text) => {
    const symbols = documentSymbols(designOf(text));
    everyRangeNests(symbols);
    for (const { name } of flatSymbols(designOf(text))) expect(name.trim()).not.toBe("");
    expect(symbols.length).toBeGreaterThan(0);
  });

  it("gives the same as a list for a client without trees", () => {
    const names = flatSymbols(designOf(WHISTLE)).map(({ name, containerName }) => `${containerName}/${name}`);
    expect(names).toContain("holes/L2");
    expect(names).toContain("Test whistle/key");
  });
});

describe("foldingRanges", () => {
  const folded = (text: string, uri?: string) => {
    const lines = text.split("\n");
    const folds = foldingRanges(designOf(text, uri === undefined ? {} : { uri }));
    return folds.map(({ startLine, endLine }) => [lines[startLine]?.trim(), lines[endLine]?.trim()]);
  };

  it("folds a name with all that is below it, and no blank line after", () => {
    const text = WHISTLE.replace("holes:\n", "\nholes:\n");
    expect(folded(text)).toContainEqual(["bore:", "- { at: 394.1, diameter: =tube }"]);
    expect(folded(text)).toContainEqual(["mouth:", "window: { width: 9.82, cutUp: 4.5, labium: 1 }"]);
  });

  it("keeps a closing bracket in sight", () => {
    const json = '{\n  "holes": [\n    { "at": 1 },\n    { "at": 2 }\n  ]\n}';
    expect(folded(json, JSON_URI)).toEqual([
      ["{", "]"],
      ['"holes": [', '{ "at": 2 }'],
    ]);
  });

  it("folds one instrument of several", () => {
    const [first, last] = [WHISTLE.split("\n").indexOf("borewright: 1"), WHISTLE.split("\n").length - 2];
    const folds = foldingRanges(designOf(`${WHISTLE}---\n${WHISTLE}`));
    expect(folds).toContainEqual({ startLine: first, endLine: last });
    expect(foldingRanges(designOf(WHISTLE))).not.toContainEqual({ startLine: first, endLine: last });
  });

  it("folds nothing on one line", () => {
    expect(folded("holes: [{ at: 1 }]\n")).toEqual([]);
  });
});
