/** Changing a value changes its characters and no others, and reading the text again gives the new value. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Syntax } from "../../server/src/document/designFile.js";
import { applyEdits, setNumber } from "../../server/src/document/edits.js";
import type { TextEdit } from "../../server/src/document/textEdit.js";
import { nodeAt } from "../../server/src/document/tree.js";
import { pathOf, read, withNumber, withText } from "../support/edited.js";

describe("applyEdits", () => {
  const text = "0123456789";
  const edit = (start: number, end: number, put: string): TextEdit => ({ span: { start, end }, text: put });
  it("makes all of them, whatever their order", () => {
    const edits = [edit(8, 9, "H"), edit(0, 1, "A"), edit(3, 3, "+")];
    expect(applyEdits(text, edits)).toBe("A12+34567H9");
    expect(applyEdits(text, edits.toReversed())).toBe("A12+34567H9");
    expect(applyEdits(text, [])).toBe(text);
  });
  it("makes those at one place in the order given", () => {
    expect(applyEdits(text, [edit(5, 5, "a"), edit(5, 5, "b"), edit(5, 6, "c")])).toBe("01234abc6789");
  });
  it("refuses those that overlap", () => {
    expect(() => applyEdits(text, [edit(0, 4, "x"), edit(3, 5, "y")])).toThrow(RangeError);
  });
  it("does what pasting every piece would, from the last to the first", () => {
    const cuts = fc
      .uniqueArray(fc.nat(10), { minLength: 2, maxLength: 8 })
      .map((places) => places.sort((a, b) => a - b));
    fc.assert(
      fc.property(cuts, fc.array(fc.string({ maxLength: 3 }), { minLength: 4, maxLength: 4 }), (places, puts) => {
        const edits = puts.flatMap((put, i) => {
          const [start, end] = [places[2 * i], places[2 * i + 1]];
          return start === undefined || end === undefined ? [] : [edit(start, end, put)];
        });
        let expected = text;
        for (const { span, text: put } of edits.toReversed())
          expected = expected.slice(0, span.start) + put + expected.slice(span.end);
        expect(applyEdits(text, edits)).toBe(expected);
      }),
      { seed: 31 },
    );
  });
});

describe("setNumber writes", () => {
  it.each([
    ["block style", "wall: 3 # lines\nname: a\n", "wall", 3.25, "wall: 3.25 # lines\nname: a\n"],
    ["flow style", "holes: [{ at: 170,diameter:  7 }]", "holes.0.diameter", 7.5, "holes: [{ at: 170,diameter:  7.5 }]"],
    [
      "nested lists",
      "print:\n  bed:\n  - 220\n  - 230   # y\n  - 250\n",
      "print.bed.1",
      210,
      "print:\n  bed:\n  - 220\n  - 210   # y\n  - 250\n",
    ],
    ["lists of lists", "x: [[1, 2], [3, 4]]\n", "x.1.0", 9, "x: [[1, 2], [9, 4]]\n"],
    ["no newline at the end", "wall: 3", "wall", 4, "wall: 4"],
    ["CRLF", "wall: 3\r\nname: a\r\n", "wall", 4, "wall: 4\r\nname: a\r\n"],
    ["a byte order mark", "\uFEFFwall: 3\n", "wall", 4, "\uFEFFwall: 4\n"],
    [
      "emoji before it",
      "name: 🎵𝄞\n# 🎶\nair: { 🎵: 1, humidity: 5 }\n",
      "air.humidity",
      6,
      "name: 🎵𝄞\n# 🎶\nair: { 🎵: 1, humidity: 6 }\n",
    ],
    [
      "a percent sign",
      "print: { scale: 100 %, shrinkage: 0.3% }\n",
      "print.scale",
      92.4,
      "print: { scale: 92.4 %, shrinkage: 0.3% }\n",
    ],
    [
      "a percent sign without a space",
      "print: { scale: 100 %, shrinkage: 0.3% }\n",
      "print.shrinkage",
      0.25,
      "print: { scale: 100 %, shrinkage: 0.25% }\n",
    ],
    ["a percentage in quotes", "print: { scale: '100 %' }\n", "print.scale", 92.4, "print: { scale: '92.4 %' }\n"],
    ["an anchor", "wall: &w 3\nx: *w\n", "wall", 4, "wall: &w 4\nx: *w\n"],
    // YAML 1.2.2, chapter 10.3.2: `!!float` is not resolved from digits alone, nor `!!int` from a fraction.
    ["a whole number under !!float", "wall: !!float 3.5\n", "wall", 4, "wall: !!float 4.0\n"],
    ["a fraction under !!float", "wall: !!float 3.5\n", "wall", 4.25, "wall: !!float 4.25\n"],
    ["under !!float in quotes", 'wall: !!float "3.5" # x\n', "wall", 4, "wall: !!float 4.0 # x\n"],
    ["a whole number under !!int", "wall: !!int 3\n", "wall", 4, "wall: !!int 4\n"],
    ["a fraction in place of !!int", "wall: !!int 3\n", "wall", 4.5, "wall: 4.5\n"],
    ["in place of !!int, an anchor kept", "wall: !!int &w 3\nx: *w\n", "wall", 4.5, "wall: &w 4.5\nx: *w\n"],
    ["in place of !!int behind an anchor", "wall: &w !!int 3\nx: *w\n", "wall", 4.5, "wall: &w 4.5\nx: *w\n"],
    ["in place of !!str", "wall: !!str =a\nx: 1\n", "wall", 4.5, "wall: 4.5\nx: 1\n"],
    ["hexadecimal", "wall: 0x10\n", "wall", 4, "wall: 4\n"],
    ["powers of ten", "wall: 1.5e1\n", "wall", 4, "wall: 4\n"],
    ["a sign and no leading digit", "wall: +.5\n", "wall", 4, "wall: 4\n"],
    [
      "one value beside those of an alias",
      "x: &h { at: 1, diameter: 7 }\nholes: [*h, *h]\n",
      "holes.1.at",
      2,
      "x: &h { at: 1, diameter: 7 }\nholes: [*h, { <<: *h, at: 2 }]\n",
    ],
    [
      "a merged value, before the merge key that brings it in",
      "x: &h { diameter: 7 }\nholes: [{ at: 1, <<: *h }]\n",
      "holes.0.diameter",
      8,
      "x: &h { diameter: 7 }\nholes: [{ at: 1, diameter: 8, <<: *h }]\n",
    ],
    [
      "a block of text whose head has a digit",
      "print:\n  scale: |2\n    100 %\n",
      "print.scale",
      90,
      "print:\n  scale: 90\n",
    ],
    ["an alias, here only", "x: &w 3\nwall: *w\n", "wall", 4, "x: &w 3\nwall: 4\n"],
    [
      "an alias of a percentage",
      "x: &p 95 %\nprint: { scale: *p }\n",
      "print.scale",
      90,
      "x: &p 95 %\nprint: { scale: 90 }\n",
    ],
    [
      "a merged value, here only",
      "x: &h { diameter: 7 }\nholes:\n  - { <<: *h, at: 170 }\n",
      "holes.0.diameter",
      8,
      "x: &h { diameter: 7 }\nholes:\n  - { <<: *h, at: 170, diameter: 8 }\n",
    ],
    [
      "a merged value in block style",
      "x: &h\n  diameter: 7\nholes:\n  - <<: *h\n    at: 170 # here\n  - at: 9\n",
      "holes.0.diameter",
      8,
      "x: &h\n  diameter: 7\nholes:\n  - <<: *h\n    at: 170 # here\n    diameter: 8\n  - at: 9\n",
    ],
    ["over an expression", "wall: =spread*2 # twice\n", "wall", 4, "wall: 4 # twice\n"],
    ["over a quoted expression", 'wall: "=spread*2"\n', "wall", 4, "wall: 4\n"],
    [
      "over an expression with a percent sign",
      "print: { scale: '=100 * 1' }\n",
      "print.scale",
      92,
      "print: { scale: 92 }\n",
    ],
    ["a value not yet there", "wall:\nname: a\n", "wall", 4, "wall: 4\nname: a\n"],
    ["a value not yet there, before a comment", "wall: # thick\n", "wall", 4, "wall: 4 # thick\n"],
    [
      "a value not yet there, in braces",
      "air: { temperature:, humidity: 5 }\n",
      "air.temperature",
      22,
      "air: { temperature: 22, humidity: 5 }\n",
    ],
    [
      "a value whose colon is not yet there",
      "air: { temperature, humidity: 5 }\n",
      "air.temperature",
      22,
      "air: { temperature: 22, humidity: 5 }\n",
    ],
    ["over a block of text", "wall: |-\n  thick\n\nname: a\n", "wall", 4, "wall: 4\n\nname: a\n"],
    [
      "an entry not yet there",
      "mouth:\n  window:\n    width: 9\nwall: 3\n",
      "mouth.window.cutUp",
      4.5,
      "mouth:\n  window:\n    width: 9\n    cutUp: 4.5\nwall: 3\n",
    ],
    [
      "an entry not yet there, in braces",
      "mouth: { cover: 0.5 }\n",
      "mouth.extra",
      -1.25,
      "mouth: { cover: 0.5, extra: -1.25 }\n",
    ],
    ["below zero", "x: -3\n", "x", -4.5, "x: -4.5\n"],
  ])("%s", (_, before, path, value, after) => {
    expect(withNumber(before, path, value)).toBe(after);
  });

  it.each([
    ["a number", '{ "wall": 3, "x": 1 }', "wall", 4, '{ "wall": 4, "x": 1 }'],
    ["a value not yet there", '{ "wall": }', "wall", 4, '{ "wall": 4 }'],
    ["a value whose colon is not yet there", '{ "wall" }', "wall", 4, '{ "wall": 4 }'],
    ["a percentage", '{ "print": { "scale": "100 %" } }', "print.scale", 92.4, '{ "print": { "scale": "92.4 %" } }'],
    ["an expression", '{ "wall": "=a*2" }', "wall", 4, '{ "wall": 4 }'],
    ["a missing entry", '{ "print": {} }', "print.scale", 92.4, '{ "print": { "scale": 92.4 } }'],
    [
      "a missing entry on a line of its own",
      '{\n  "a": 1,\n  "b": 2\n}\n',
      "wall",
      4,
      '{\n  "a": 1,\n  "b": 2,\n  "wall": 4\n}\n',
    ],
    ["with CRLF", '{\r\n\t"a": 1\r\n}', "wall", 4, '{\r\n\t"a": 1,\r\n\t"wall": 4\r\n}'],
  ])("JSON: %s", (_, before, path, value, after) => {
    expect(withNumber(before, path, value, { syntax: "json" })).toBe(after);
  });

  it.each([
    [3.1426, 2, "3.14"],
    [3.1, 2, "3.1"],
    [3, 2, "3"],
    [1e-9, 2, "0"],
    [-1e-9, 2, "0"],
    [0.000012, 6, "0.000012"],
    [1234567, 2, "1234567"],
    [100, 0, "100"],
    [2.5, 0, "3"],
  ])("%d to %d decimals as %s", (value, decimals, written) => {
    expect(withNumber("wall: 1\n", "wall", value, { decimals })).toBe(`wall: ${written}\n`);
  });

  it("nothing where the same stands already", () => {
    expect(setNumber(read("wall: 3\n"), ["wall"], 3.0001, 2)).toEqual([]);
  });

  it("nothing where there is nothing to write into", () => {
    expect(setNumber(read("wall: 3\n"), ["holes", 3, "at"], 1, 2)).toEqual([]);
    expect(setNumber(read("x: &h [{ at: 1 }]\nholes: *h\n"), ["holes", 0, "at"], 2, 2)).toEqual([]);
    expect(setNumber(read("x: &h { a: { at: 1 } }\nholes: [{ <<: *h }]\n"), ["holes", 0, "a", "at"], 2, 2)).toEqual([]);
    expect(setNumber(read(""), ["wall"], 2, 2)).toEqual([]);
  });
});

describe("setText writes", () => {
  it.each([
    ["plain text", "key: G4 # low\n", "key", "F4", "key: F4 # low\n"],
    ["in the same quotes", "key: 'G4'\nname: \"a\"\n", "key", "F4", "key: 'F4'\nname: \"a\"\n"],
    ["with the quotes inside doubled", "name: 'a'\n", "name", "it's", "name: 'it''s'\n"],
    ["escapes in double quotes", 'name: "a"\n', "name", 'say "a"\n', 'name: "say \\"a\\"\\n"\n'],
    ["quotes where they are needed", "name: a\n", "name", "a: b # c", 'name: "a: b # c"\n'],
    ["quotes where text looks like a number", "name: a\n", "name", "12", 'name: "12"\n'],
    ["quotes where text looks like nothing", "name: a\n", "name", "null", 'name: "null"\n'],
    ["quotes for empty text", "name: a\n", "name", "", 'name: ""\n'],
    ["quotes before a comma in braces only", "x: { name: a }\ny: a\n", "x.name", "b, c", 'x: { name: "b, c" }\ny: a\n'],
    ["a comma without quotes in a block", "y: a\n", "y", "b, c", "y: b, c\n"],
    ["F# without quotes", "key: G4\n", "key", "F#4", "key: F#4\n"],
    ["over an alias", "x: &k G4\nkey: *k\n", "key", "F4", "x: &k G4\nkey: F4\n"],
    ["over an anchored value", "key: &k G4\n", "key", "F4", "key: &k F4\n"],
    ["an entry not yet there", "name: a\n", "key", "F4", "name: a\nkey: F4\n"],
    ["CRLF", "key: G4\r\nname: a\r\n", "key", "F4", "key: F4\r\nname: a\r\n"],
  ])("%s", (_, before, path, value, after) => {
    expect(withText(before, path, value)).toBe(after);
  });

  it("quotes in JSON", () => {
    expect(withText('{ "key": "G4" }', "key", 'F"4', "json")).toBe('{ "key": "F\\"4" }');
    expect(withText('{ "key": null }', "key", "F4", "json")).toBe('{ "key": "F4" }');
  });

  it("any text so that it reads back as that text", () => {
    const old = fc.constantFrom("a", "'a'", '"a"', "", "=x*2", "|-\n    a\n    b", ">\n    a");
    const place = fc.constantFrom("name", "x.name");
    fc.assert(
      fc.property(
        fc.string({ unit: "grapheme", maxLength: 12 }),
        old,
        place,
        fc.constantFrom("\n", "\r\n"),
        (value, was, at, eol) => {
          const before = `name: ${was}\nx:\n  name: ${was}\nwall: 3\n`.replaceAll("\n", eol);
          const after = read(withText(before, at, value));
          const node = nodeAt(after.root, pathOf(at));
          expect(node?.kind === "scalar" && node.value).toBe(value);
          expect(nodeAt(after.root, ["wall"])).toMatchObject({ value: 3 });
        },
      ),
      { seed: 32, numRuns: 400 },
    );
  });

  it("any text inside braces and JSON too", () => {
    fc.assert(
      fc.property(
        fc.string({ unit: "grapheme", maxLength: 12 }),
        fc.constantFrom<Syntax>("yaml", "json"),
        (value, syntax) => {
          const before = '{ "x": { "name": "a" }, "wall": 3 }';
          const plain = before.replaceAll('"', "");
          for (const text of syntax === "json" ? [before] : [before, plain]) {
            const after = read(withText(text, "x.name", value, syntax), syntax);
            expect(nodeAt(after.root, ["x", "name"])).toMatchObject({ value });
            expect(nodeAt(after.root, ["wall"])).toMatchObject({ value: 3 });
          }
        },
      ),
      { seed: 33, numRuns: 300 },
    );
  });
});
