/** Edits change the characters they mean and no others, in whatever way the design is written. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { applyEdits, insertEntry, setNumber, setText } from "../../server/src/document/edits.js";
import { nodeAt } from "../../server/src/document/tree.js";
import { dataOf } from "../../server/src/document/treeData.js";
import type { Path } from "../../server/src/instrument/finding.js";
import { documentOf, fileOf } from "../support/designs.js";

const open = (text: string, syntax: "yaml" | "json" = "yaml") => documentOf(fileOf(text, syntax));
const valueAt = (text: string, path: Path, syntax: "yaml" | "json" = "yaml") =>
  dataOf(nodeAt(open(text, syntax).root, path));
const number = (text: string, path: Path, value: number, syntax: "yaml" | "json" = "yaml", decimals = 2) =>
  applyEdits(text, setNumber(open(text, syntax), path, value, decimals));

describe("writing a number", () => {
  it.each([
    ["a: 3   # mm\n", "a: 4.25   # mm\n"],
    ["a: 100 %\n", "a: 4.25 %\n"],
    ["a: '100 %'\n", "a: '4.25 %'\n"],
    ['a: "=b*2"\nb: 1\n', "a: 4.25\nb: 1\n"],
    ["a: &x 3\nb: *x\n", "a: &x 4.25\nb: *x\n"],
    ["z: { a: 1 }\na: 3", "z: { a: 1 }\na: 4.25"],
    ["a:\nb: 2\n", "a: 4.25\nb: 2\n"],
    ["b: 2\n", "b: 2\na: 4.25\n"],
    ["b: 2\r\n", "b: 2\r\na: 4.25\r\n"],
    ["\uFEFFb: 🎶 # 🎶\na: 3\n", "\uFEFFb: 🎶 # 🎶\na: 4.25\n"],
  ])("in %j", (before, after) => {
    expect(number(before, ["a"], 4.25)).toBe(after);
  });

  it("replaces an alias where it stands, and gives a merged value an entry of its own", () => {
    expect(number("b: &x 3\na: *x\n", ["a"], 4)).toBe("b: &x 3\na: 4\n");
    expect(number("base: &b { d: 1 }\nhole:\n  <<: *b\n  at: 2\n", ["hole", "d"], 4)).toBe(
      "base: &b { d: 1 }\nhole:\n  <<: *b\n  at: 2\n  d: 4\n",
    );
  });

  it("rounds, and never writes powers of ten or a negative zero", () => {
    expect(number("a: 1\n", ["a"], 12.3456, "yaml", 1)).toBe("a: 12.3\n");
    expect(number("a: 1\n", ["a"], -0.0004, "yaml", 2)).toBe("a: 0\n");
    expect(number("a: 1\n", ["a"], 1e-7, "yaml", 9)).toBe("a: 0.0000001\n");
  });

  it("changes its own characters only and reads back, anywhere in any design", () => {
    const key = fc.constantFrom("a", "b", "c", "d");
    const leaf = fc.oneof(fc.integer({ min: -99, max: 999 }), fc.constantFrom("x", "🎶", "50 %"));
    const map = fc.dictionary(
      key,
      fc.oneof(leaf, fc.dictionary(key, leaf, { minKeys: 1 }), fc.array(leaf, { minLength: 1 })),
      {
        minKeys: 1,
      },
    );
    const written = fc.record({
      map,
      eol: fc.constantFrom("\n", "\r\n"),
      style: fc.constantFrom("block", "flow", "json"),
    });
    fc.assert(
      fc.property(written, fc.nat(), fc.integer({ min: 1, max: 400 }), ({ map: data, eol, style }, pick, value) => {
        const syntax = style === "json" ? "json" : "yaml";
        const text = write(data, style).replaceAll("\n", eol);
        const paths = numberPaths(data);
        const path = paths[pick % Math.max(1, paths.length)];
        if (path === undefined) return;
        const [edit, ...others] = setNumber(open(text, syntax), path, value + 1000, 0);
        expect(others).toEqual([]);
        const after = applyEdits(text, edit === undefined ? [] : [edit]);
        expect(valueAt(after, path, syntax)).toBe(value + 1000);
        expect(after.slice(0, edit?.span.start)).toBe(text.slice(0, edit?.span.start));
        expect(after.slice((edit?.span.start ?? 0) + (edit?.text.length ?? 0))).toBe(text.slice(edit?.span.end));
      }),
      { numRuns: 300, seed: 11 },
    );
  });
});

describe("writing text", () => {
  it.each([
    ["key: G4 # now\n", "F#4", "key: F#4 # now\n"],
    ["key: 'G4'\n", "F4", "key: 'F4'\n"],
    ['key: "G4"\n', "F4", 'key: "F4"\n'],
    ["x: { key: G4, b: 1 }\n", "a, b", "x: { key: G4, b: 1 }\nkey: a, b\n"],
    ["key: G4\n", "a: b", 'key: "a: b"\n'],
  ])("%j becomes %j", (before, value, after) => {
    expect(applyEdits(before, setText(open(before), ["key"], value))).toBe(after);
  });
});

describe("adding an entry", () => {
  it.each([
    ["print: { bed: 3 }\n", "print: { bed: 3, scale: 90 % }\n"],
    ["print: {}\n", "print: { scale: 90 % }\n"],
    ["print:\n  bed: 3   # large\nwall: 3\n", "print:\n  bed: 3   # large\n  scale: 90 %\nwall: 3\n"],
    ["print:\n    bed: 3", "print:\n    bed: 3\n    scale: 90 %"],
    ["print:\n  bed:\n    - 1\n    - 2\nwall: 3\n", "print:\n  bed:\n    - 1\n    - 2\n  scale: 90 %\nwall: 3\n"],
    ["print:\nwall: 3\n", "print: { scale: 90 % }\nwall: 3\n"],
  ])("to %j", (before, after) => {
    const text = applyEdits(before, insertEntry(open(before), ["print"], "scale", "90 %"));
    expect(text).toBe(after);
    expect(valueAt(text, ["print", "scale"])).toBe("90 %");
  });

  it.each([
    ['{"print": {"bed": 3}}', '{"print": {"bed": 3, "scale": 90}}'],
    ['{\n  "print": {\n    "bed": 3\n  }\n}\n', '{\n  "print": {\n    "bed": 3,\n    "scale": 90\n  }\n}\n'],
    ['{ "print": {} }', '{ "print": { "scale": 90 } }'],
  ])("to JSON %j", (before, after) => {
    const text = applyEdits(before, insertEntry(open(before, "json"), ["print"], "scale", "90"));
    expect(text).toBe(after);
    expect(JSON.parse(text).print.scale).toBe(90);
  });
});

it("refuses edits that overlap", () => {
  const edit = (start: number, end: number) => ({ span: { start, end }, text: "" });
  expect(() => applyEdits("abcdef", [edit(0, 3), edit(2, 4)])).toThrow(RangeError);
});

type Data = Record<string, unknown>;

function write(data: Data, style: string): string {
  if (style === "json") return `${JSON.stringify(data, null, 2)}\n`;
  const flow = (value: unknown): string =>
    Array.isArray(value)
      ? `[${value.map(flow).join(", ")}]`
      : typeof value === "object" && value !== null
        ? `{ ${Object.entries(value)
            .map(([k, v]) => `${k}: ${flow(v)}`)
            .join(", ")} }`
        : String(value);
  if (style === "flow") return `${flow(data)}\n`;
  return Object.entries(data)
    .map(([name, value]) => {
      if (Array.isArray(value)) return `${name}:\n${value.map((item) => `  - ${item}   # note\n`).join("")}`;
      if (typeof value === "object" && value !== null)
        return `${name}:\n${Object.entries(value)
          .map(([k, v]) => `  ${k}: ${v}\n`)
          .join("")}`;
      return `${name}: ${value}  # note\n`;
    })
    .join("");
}

function numberPaths(value: unknown, path: Path = []): Path[] {
  if (typeof value === "number") return [path];
  if (Array.isArray(value)) return value.flatMap((item, i) => numberPaths(item, [...path, i]));
  if (typeof value === "object" && value !== null)
    return Object.entries(value).flatMap(([key, item]) => numberPaths(item, [...path, key]));
  return [];
}
