/** Selection, links, colours by meaning, aligned columns. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { TextDocument } from "vscode-languageserver-textdocument";
import { readDesign } from "../../server/src/document/read.js";
import { dataOf } from "../../server/src/document/treeData.js";
import { documentLinks } from "../../server/src/language/documentLinks.js";
import { formattingEdits, typedFormatting } from "../../server/src/language/formatting.js";
import { selectionRanges } from "../../server/src/language/selectionRanges.js";
import { semanticTokens } from "../../server/src/language/semanticTokens.js";
import { TOKENS_LEGEND } from "../../server/src/language/tokensLegend.js";
import { WHISTLE } from "../support/designs.js";
import { atCursor, designOf, marked, textIn } from "../support/language.js";

const formatted = (text: string) => TextDocument.applyEdits(designOf(text).text, formattingEdits(designOf(text)));

describe("formatting while one types", () => {
  const ROWS =
    "holes:\n  - { name: L1, at: 1 }\n  - { name: Long, at: 22 }\n\nfingerings:\n  - { degree: 1,   holes: ●● }\n  - { degree: 2, holes: ●○ }\n";
  const typed = (text: string, line: number, character: number, sign: string) =>
    TextDocument.applyEdits(designOf(text).text, typedFormatting(designOf(text), { line, character }, sign));

  it("aligns the list of the row that was closed or left, and no other", () => {
    const aligned = ROWS.replace("L1, at", "L1,   at");
    expect(typed(ROWS, 2, 26, "}")).toBe(aligned);
    expect(typed(ROWS, 3, 0, "\n")).toBe(aligned);
    expect(typed(ROWS, 0, 6, "}")).toBe(ROWS);
    expect(typed(ROWS, 0, 0, "\n")).toBe(ROWS);
  });
});

describe("formatting", () => {
  it("aligns the properties of entries on a line each, and leaves comments", () => {
    const text = `holes:   # from the mouth
  - { name: L1, at: 100, diameter: 6 }
  # the ring finger
  - { name: Ring, at: 90.25, diameter: 6.5 }   # wide
bore: [ { at: 0, diameter: 16 }, { at: 300, diameter: 16 } ]
wall:   2
`;
    expect(formatted(text)).toBe(
      `holes:   # from the mouth
  - { name: L1,   at: 100,   diameter: 6 }
  # the ring finger
  - { name: Ring, at: 90.25, diameter: 6.5 }   # wide
bore: [ { at: 0, diameter: 16 }, { at: 300, diameter: 16 } ]
wall:   2
`.replace("{ at: 0, diameter: 16 }", "{ at: 0,   diameter: 16 }"),
    );
  });

  it("changes blanks alone, reads the same, and does nothing the second time", () => {
    const blanks = fc.constantFrom(" ", "  ", "    ");
    const entry = fc.tuple(
      fc.stringMatching(/^[A-Z][a-z]{0,5}$/),
      fc.nat(999),
      blanks,
      blanks,
      fc.constantFrom("", " # x", "  #y"),
    );
    fc.assert(
      fc.property(fc.array(entry, { minLength: 1, maxLength: 6 }), (entries) => {
        const lines = entries.map(
          ([name, at, a, b, remark]) => `  - { name: ${name},${a}at: ${at},${b}diameter: 7 }${remark}`,
        );
        const text = `${WHISTLE.slice(0, WHISTLE.indexOf("holes:"))}holes:\n${lines.join("\n")}\n`;
        const once = formatted(text);
        expect(once.replace(/ /g, "")).toBe(text.replace(/ /g, ""));
        expect(formatted(once)).toBe(once);
        expect(dataOf(readDesign(once, "yaml").documents[0]?.root)).toEqual(
          dataOf(readDesign(text, "yaml").documents[0]?.root),
        );
      }),
      { numRuns: 25 },
    );
  });
});

describe("expanding a selection", () => {
  it("goes from the value to its entry, the map, the list and the whole", () => {
    const { context, position } = atCursor(marked(WHISTLE, "diameter: ", 11));
    const [innermost] = selectionRanges(context, [position]);
    const texts: string[] = [];
    for (let each = innermost; each !== undefined; each = each.parent) texts.push(textIn(context, each.range));
    expect(texts.length).toBeGreaterThan(4);
    expect(texts.at(-1)).toBe(WHISTLE);
    expect(texts[1]).toMatch(/^diameter: /);
    texts.forEach((text, i) => {
      expect(texts[i + 1] ?? text).toContain(text);
    });
  });
});

describe("a link", () => {
  it("leads from the name of a finding under `rules` to its page", () => {
    const context = designOf("rules: { print/wall-lines: off, no/such: off }\n");
    expect(documentLinks(context).map(({ range, target }) => [textIn(context, range), target])).toEqual([
      ["print/wall-lines", "file:///rules/print-wall-lines.md"],
    ]);
  });
});

describe("semantic tokens", () => {
  it("distinguish our words, notes, names and signs by their state", () => {
    const text =
      'key: G4\nparameters: { tube: 16 }\nholes:\n  - { at: "=max(tube, 2)" }\nfingerings:\n  - { holes: ○ }\nown: 3\n';
    const context = designOf(text);
    const { data } = semanticTokens(context);
    let [line, character] = [0, 0];
    const told: string[] = [];
    for (let i = 0; i < data.length; i += 5) {
      const [down = 0, right = 0, length = 0, type = 0, modifiers = 0] = data.slice(i, i + 5);
      [line, character] = [line + down, down === 0 ? character + right : right];
      const range = { start: { line, character }, end: { line, character: character + length } };
      const modifier = TOKENS_LEGEND.tokenModifiers.filter((_, bit) => modifiers & (1 << bit)).join();
      told.push(`${textIn(context, range)} ${TOKENS_LEGEND.tokenTypes[type]}${modifier && ` ${modifier}`}`);
    }
    expect(told).toEqual([
      "key property",
      "G4 enumMember",
      "parameters property",
      "tube parameter declaration",
      "holes property",
      "at property",
      "max function",
      "tube parameter",
      "2 number",
      "fingerings property",
      "holes property",
      "○ fingeringSign open",
    ]);
  });
});
