/** Names of a design: where they are given, where they are used, and what becomes of them by a rename. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readDesign } from "../../server/src/document/read.js";
import { codeActions } from "../../server/src/language/codeActions/index.js";
import { definition, highlights, linkedRanges, references } from "../../server/src/language/symbols/navigate.js";
import { prepareRename, rename } from "../../server/src/language/symbols/rename.js";
import { signatureHelp } from "../../server/src/language/symbols/signatureHelp.js";
import { applied, atCursor, designOf, JSON_URI, marked, textIn, titled, YAML_URI } from "../support/language.js";

const DESIGN = `borewright: 1
family: rim
key: A4
parameters: { tube: 16, gap: "= tube + 10" }   # two
mouth: { cover: 0.3 }
bore:
  - { at: 0, diameter: =tube }
  - { name: end, at: "=R1.at + max(gap, 2*tube)", diameter: =tube }
wall: 2
holes:
  - { name: L1, at: 100, diameter: 6 }
  - { name: R1, at: "=L1.at + gap", diameter: =L1.diameter }
fingerings:
  - { degree: 1, holes: "●●" }
  - { degree: 2, holes: "● ○" }
measured:
  - { note: A4, hz: 441, holes: ●● }
`;

const at = (place: string, after = 0) => atCursor(marked(DESIGN, place, after));
const numbersOf = (text: string) =>
  readDesign(text, "yaml").documents[0]?.resolution.numbers.map(({ value }) => value) ?? [];

describe("linked editing", () => {
  const linked = (place: string, after = 0) => {
    const { context, position } = at(place, after);
    return linkedRanges(context, position)?.ranges.map((range) => textIn(context, range));
  };

  it("covers a name and its uses in formulas", () => {
    expect(linked("tube: 16", 2)).toEqual(["tube", "tube", "tube", "tube", "tube"]);
    expect(linked("L1.diameter", 1)).toEqual(["L1", "L1", "L1"]);
  });

  it("does not cover what has no uses, signs and numbers, and the format's own words", () => {
    for (const [place, after] of [
      ["end, at", 1],
      ["●●", 0],
      ["diameter: 6 }", 2],
      ["L1.diameter", 5],
      ["wall", 2],
    ] as const)
      expect(linked(place, after)).toBeUndefined();
  });
});

describe("a definition", () => {
  it.each([
    ["a parameter in an expression", "=tube }", 2, "tube"],
    ["a hole in an expression", "=L1.at + gap", 2, "L1"],
    ["a hole's number", "L1.at + gap", 4, "at"],
    ["a sign of a fingering", '● ○"', 2, "R1"],
    ["a sign of a measured note", "●● }", 0, "L1"],
  ])("is found from %s", (_, place, after, name) => {
    const { context, position } = at(place, after);
    const [found] = definition(context, position);
    expect(found && textIn(context, found.range)).toBe(name);
  });

  it("does not exist where nothing is named", () => {
    const { context, position } = at("family", 2);
    expect(definition(context, position)).toEqual([]);
  });
});

describe("references", () => {
  it("to a parameter are its uses in every expression, with its own name if asked", () => {
    const { context, position } = at("{ tube", 3);
    const texts = (withOwn: boolean) =>
      references(context, position, withOwn).map(({ range }) => textIn(context, range));
    expect(texts(true)).toEqual(["tube", "tube", "tube", "tube", "tube"]);
    expect(texts(false)).toHaveLength(4);
  });

  it("to a hole are its names in expressions and its sign in every fingering", () => {
    const { context, position } = at("name: L1", 7);
    const texts = highlights(context, position).map(({ range }) => textIn(context, range));
    expect(texts).toEqual(["L1", "L1", "L1", "●", "●", "●"]);
  });
});

describe("a rename", () => {
  const renamed = (place: string, after: number, name: string, given = DESIGN, uri = YAML_URI) => {
    const { context, position } = atCursor(marked(given, place, after), { uri });
    return applied(given, rename(context, position, name), uri);
  };

  it("changes the name and every use of it, and nothing else", () => {
    const text = renamed("=tube }", 2, "bore_width");
    expect(text).toBe(DESIGN.replaceAll("tube", "bore_width"));
    expect(renamed("name: R1", 7, "Ring")).toBe(DESIGN.replaceAll("R1", "Ring"));
  });

  it("keeps the way a name is quoted, in JSON too", () => {
    const json = JSON.stringify(
      { parameters: { tube: 16 }, holes: [{ name: "A b", at: 100, diameter: "=tube/2" }] },
      null,
      1,
    );
    expect(renamed("=tube", 2, "t", json, JSON_URI)).toBe(json.replaceAll("tube", "t"));
    expect(renamed("A b", 1, 'my "hole"', json, JSON_URI)).toBe(json.replace("A b", 'my \\"hole\\"'));
  });

  it("offers the name as it is", () => {
    const { context, position } = at("L1.at + gap", 1);
    expect(prepareRename(context, position).placeholder).toBe("L1");
  });

  it.each([
    ["a name that is taken", "=tube }", 2, "gap", /already/],
    ["what no formula can hold", "=tube }", 2, "two words", /formula/],
    ["what no parameter may be called", "=tube }", 2, "über", /formula/],
    ["a function's name", "=tube }", 2, "max", /function/],
    ["a name that another meaning would hide", "name: L1", 7, "tube", /something else|already/],
    ["what has no name", "wall: 2", 2, "w", /nothing here/],
  ])("refuses %s", (_, place, after, name, words) => {
    const { context, position } = at(place, after);
    expect(() => rename(context, position, name)).toThrow(words);
  });

  it("leaves every number what it was", () => {
    const places = ["{ tube", "gap: ", "name: L1", "name: R1", "name: end"];
    fc.assert(
      fc.property(fc.constantFrom(...places), fc.stringMatching(/^[a-z_][a-z0-9_]{0,8}$/), (place, name) => {
        const after = place.startsWith("name") ? 7 : place.startsWith("{") ? 3 : 1;
        const { context, position } = at(place, after);
        let text: string;
        try {
          text = applied(DESIGN, rename(context, position, name));
        } catch {
          return; // refused, in words
        }
        expect(numbersOf(text)).toEqual(numbersOf(DESIGN));
        expect(readDesign(text, "yaml").documents[0]?.findings.length).toBe(
          readDesign(DESIGN, "yaml").documents[0]?.findings.length,
        );
      }),
      { numRuns: 30 },
    );
  });
});

describe("signature help", () => {
  it("appears inside a function's parentheses and nowhere else", () => {
    const help = (place: string, after: number) => {
      const { context, position } = at(place, after);
      return signatureHelp(context, position)?.signatures[0]?.label;
    };
    expect(help("max(gap", 4)).toBe("max(value, …)");
    expect(help("max(gap, 2*tube)", 10)).toBe("max(value, …)");
    expect(help("max(gap, 2*tube)", 16)).toBeUndefined();
    expect(help("family: rim", 9)).toBeUndefined();
  });
});

describe("parameters", () => {
  const actionsAt = async (given: string, place: string, after: number, uri = YAML_URI) => {
    const { context, position } = atCursor(marked(given, place, after), { uri });
    const range = { start: position, end: position };
    return codeActions(context, { range, context: { diagnostics: [] } }, { kinds: ["parameters"] });
  };

  it("take a number up, and give it back where it is used", async () => {
    const extracted = applied(DESIGN, titled(await actionsAt(DESIGN, "at: 100", 5), /Extract/).edit);
    expect(extracted).toContain("{ name: L1, at: =L1_at, diameter: 6 }");
    expect(extracted).toContain('gap: "= tube + 10", L1_at: 100 }');
    expect(numbersOf(extracted).toSorted()).toEqual([...numbersOf(DESIGN), 100].toSorted());
    const inlined = applied(extracted, titled(await actionsAt(extracted, "=L1_at", 2), /Inline/).edit);
    expect(inlined).toBe(DESIGN);
  });

  it("that hold an expression are put in parentheses", async () => {
    const inlined = applied(DESIGN, titled(await actionsAt(DESIGN, "gap: ", 1), /Inline/).edit);
    expect(inlined).toContain('"=L1.at + (tube + 10)"');
    expect(inlined).toContain("parameters: { tube: 16 }   # two");
    expect(numbersOf(inlined)).toEqual(numbersOf(DESIGN).filter((_, i) => i !== 1));
  });

  it("begin a map of their own where there is none, in JSON too", async () => {
    const json = '{ "borewright": 1, "wall": 2 }';
    const extracted = applied(json, titled(await actionsAt(json, "2 }", 0, JSON_URI), /Extract/).edit, JSON_URI);
    expect(JSON.parse(extracted)).toEqual({ borewright: 1, wall: "=wall", parameters: { wall: 2 } });
  });

  it("are not offered for what is not a length", async () => {
    expect(await actionsAt(DESIGN, "hz: 441", 5)).toEqual([]);
    expect(designOf(DESIGN).file.documents).toHaveLength(1);
  });
});

describe("a parameter that is put where it is used", () => {
  it("leaves the remark that stood behind it", async () => {
    const text = "borewright: 1\nparameters:\n  w: 3   # thin\n  t: 16\nwall: =w\nbore:\n  - { at: 0, diameter: =t }\n";
    const { context, position } = atCursor(marked(text, "=w", 1));
    const range = { start: position, end: position };
    const actions = await codeActions(context, { range, context: { diagnostics: [] } }, { kinds: ["parameters"] });
    expect(applied(text, titled(actions, /Inline/).edit)).toBe(
      text.replace("  w: 3   # thin\n", "  # thin\n").replace("=w", "3"),
    );
    const second = atCursor(marked(text, "=t }", 1));
    const there = { start: second.position, end: second.position };
    const others = await codeActions(
      second.context,
      { range: there, context: { diagnostics: [] } },
      { kinds: ["parameters"] },
    );
    expect(applied(text, titled(others, /Inline/).edit)).toBe(text.replace("  t: 16\n", "").replace("=t", "16"));
  });
});
