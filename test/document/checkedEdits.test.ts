/** Before an edit is offered its text is read again: what is meant has changed, and nothing else. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { checkedEdits } from "../../server/src/document/checkedEdits.js";
import { insertEntry, setNumber, setText } from "../../server/src/document/edits.js";
import type { TextEdit } from "../../server/src/document/textEdit.js";
import { dataOf } from "../../server/src/document/treeData.js";
import type { Path } from "../../server/src/instrument/finding.js";
import { valueAt } from "../../server/src/instrument/path.js";
import { documentOf, fileOf } from "../support/designs.js";
import { designs, STYLE_NAMES, STYLES } from "../support/generated.js";

const HOLE: Path = ["holes", 0, "diameter"];

function checkedNumber(text: string, path: Path, value: number) {
  const file = fileOf(text);
  return checkedEdits(file, 0, setNumber(documentOf(file), path, value, 2));
}

describe("a number that others share", () => {
  it.each([
    [
      "by aliases: they keep it, written out",
      "holes:\n  - { diameter: &d 7 }\n  - { diameter: *d }\n  - { diameter: *d }\n",
      "holes:\n  - { diameter: &d 6.5 }\n  - { diameter: 7 }\n  - { diameter: 7 }\n",
    ],
    [
      "by merge keys: they keep it in entries of their own",
      "holes:\n  - &h { diameter: 7 }\n  - { at: 2, <<: *h }\n  - { <<: *h, at: 3 }\n  - <<: *h\n    at: 4\n",
      "holes:\n  - &h { diameter: 6.5 }\n  - { at: 2, diameter: 7, <<: *h }\n  - { <<: *h, at: 3, diameter: 7 }\n  - <<: *h\n    at: 4\n    diameter: 7\n",
    ],
    [
      "by an alias of the whole: it keeps it beside the alias",
      "holes: [&h { at: 1, diameter: 7 }, *h]\n",
      "holes: [&h { at: 1, diameter: 6.5 }, { <<: *h, diameter: 7 }]\n",
    ],
    [
      "in letters of its own",
      "holes: [{ diameter: &d 0.70e1 }]\nwall: *d\n",
      "holes: [{ diameter: &d 6.5 }]\nwall: 0.70e1\n",
    ],
  ])("%s", (_, before, after) => {
    expect(checkedNumber(before, HOLE, 6.5)?.text).toBe(after);
  });

  it("is not changed where the others cannot be kept", () => {
    // An alias of the list: there is no place to write one of its values out.
    expect(checkedNumber("holes: &all [{ diameter: 7 }]\nx: *all\n", HOLE, 6.5)).toBeUndefined();
    // The text around the anchor is another value's too.
    expect(checkedNumber("x: &x { y: { z: &d 7 } }\na: *x\nb: *d\n", ["x", "y", "z"], 6.5)).toBeUndefined();
  });

  it("is followed by formulas, which are named", () => {
    const checked = checkedNumber("wall: 3\nholes:\n  - { diameter: 7 }\n  - { diameter: '=wall*2' }\n", ["wall"], 4);
    expect(checked?.followers).toEqual([["holes", 1, "diameter"]]);
  });
});

describe("edits are refused", () => {
  const text = "wall: 3\nholes:\n  - { name: L1, diameter: 7 }\n---\nwall: 5\n";
  const file = fileOf(text);
  const at = (what: string) => ({ start: text.indexOf(what), end: text.indexOf(what) + what.length });
  const put = (span: TextEdit["span"], written: string, ...meant: Path[]): TextEdit => ({
    span,
    text: written,
    meant: meant.map((path) => ({ path })),
  });
  it.each<[string, readonly TextEdit[]]>([
    ["that make the text unreadable", [put(at("7"), "{", HOLE)]],
    ["that nobody meant", [{ span: at("7"), text: "8" }]],
    ["that change a value beside the one meant", [put(at("L1, diameter: 7"), "L2, diameter: 8", HOLE)]],
    ["that take a value out", [put(at(", diameter: 7"), "", ["holes", 0, "name"])]],
    ["that add one", [put(at("7"), "8, at: 5", HOLE)]],
    ["that change another instrument", [put(at("5"), "6", ["wall"])]],
    ["that make another instrument", [put(at("7 }"), "8 }\n---\nwall: 1", HOLE)]],
    ["that overlap", [put(at("name: L1"), "name: L1", HOLE), put(at("L1"), "L1", HOLE)]],
    ["that do not come to what was meant", [{ ...put(at("7"), "8"), meant: [{ path: HOLE, value: 9 }] }]],
    ["that make a formula lose its value", [put(at("3"), "three", ["wall"])]],
  ])("%s", (_, edits) => {
    expect(checkedEdits(file, 0, edits)).toBeUndefined();
  });

  it("and taken where they do just what is meant", () => {
    expect(checkedEdits(file, 0, [put(at("7"), "8", HOLE)])?.text).toBe(text.replace("7", "8"));
    const [document] = file.documents;
    const rules = document === undefined ? [] : insertEntry(document, [], "rules", "{ hole/too-near: off }");
    expect(checkedEdits(file, 0, rules)?.text).toContain("rules: { hole/too-near: off }\n---");
    const name = document === undefined ? [] : setText(document, ["holes", 0, "name"], "a: b, # c");
    expect(
      valueAt(dataOf(fileOf(checkedEdits(file, 0, name)?.text ?? "").documents[0]?.root), ["holes", 0, "name"]),
    ).toBe("a: b, # c");
  });
});

it("any number of any design can be changed, and only that one changes", () => {
  fc.assert(
    fc.property(
      designs,
      fc.constantFrom(...STYLE_NAMES),
      fc.nat(),
      fc.integer({ min: 1, max: 9999 }),
      (data, style, pick, value) => {
        const file = fileOf(STYLES[style](data));
        const document = documentOf(file);
        const { path } = document.resolution.numbers[pick % document.resolution.numbers.length] ?? { path: [] };
        const edits = setNumber(document, path, value, 0);
        if (edits.length === 0) return;
        const after = documentOf(fileOf(checkedEdits(file, 0, edits)?.text ?? ""));
        for (const { path: each, value: was, expression } of document.resolution.numbers) {
          const now = after.resolution.numbers.find((number) => number.path.join() === each.join());
          if (expression === undefined) expect(now?.value).toBe(each.join() === path.join() ? value : was);
        }
      },
    ),
    { seed: 43, numRuns: 50 },
  );
});
