/** A file of several designs: where one ends, and that pieces and taken-over parts come to the same as reading it whole. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { parseAllDocuments } from "yaml";
import { readDesign, readingOf } from "../../server/src/document/read.js";
import { dataOf } from "../../server/src/document/treeData.js";
import { fileOf, WHISTLE } from "../support/designs.js";

const remarks = (text: string) =>
  fileOf(text).documents.map(({ root }) => (dataOf(root) as { remark?: unknown } | undefined)?.remark);

describe("where a design ends", () => {
  it.each([
    ["a block scalar", "remark: |\n  ---\n  ...\n---\nremark: second\n", ["---\n...\n", "second"]],
    ["a folded one", "remark: >-\n  a\n  --- b\n---\nremark: second\n", ["a --- b", "second"]],
    ["double quotes", 'remark: "a\n  --- b"\n---\nremark: second\n', ["a --- b", "second"]],
    ["single quotes", "remark: 'a ---\n  ... b'\n---\nremark: second\n", ["a --- ... b", "second"]],
    ["a plain text", "remark: a ---\n  --- b\n---\nremark: second\n", ["a --- --- b", "second"]],
    ["a comment", "# ---\nremark: first # ---\n---\nremark: second\n", ["first", "second"]],
    ["four dashes", "remark: first\n---- : 1\n---\nremark: second\n", ["first", "second"]],
  ])("is not told by marks in %s", (_, text, expected) => expect(remarks(text)).toEqual(expected));

  it("is found by a mark after quotes that are not closed", () => {
    const { documents } = fileOf(`name: "open\n---\n${WHISTLE}`);
    expect(documents).toHaveLength(2);
    expect(documents[1]?.findings).toEqual([]);
  });

  it("is found by marks of every kind", () => {
    expect(remarks("remark: 1\n...\nremark: 2\n... # end\n--- {remark: 3}\n---\r\nremark: 4\n---")).toEqual([
      1, 2, 3, 4,
    ]);
    expect(remarks("%YAML 1.2\n---\nremark: 1\n...\n%TAG !o! tag:o,2000:\n---\nremark: 2\n")).toEqual([1, 2]);
  });
});

/** Parts that documents are made of, and what fools a reader. */
const part = fc.constantFrom(
  "---\n",
  "--- ",
  "---\r\n",
  "...\n",
  "%YAML 1.2\n",
  "%TAG ! tag:x,2000:\n",
  "# ---\n",
  "\n",
  "a: 1\n",
  "b: [1, 2\n",
  "]\n",
  "}\n",
  "c: |\n  x\n  ---\n",
  "|\n---\n",
  'd: "q\n',
  '"\n',
  "'\n",
  "- e\n",
  "  ---\n",
  "&x ",
  "*x\n",
  "borewright: 1\n",
  "key: G4\n",
  "holes:\n",
  "  - { at: 1 }\n",
  "\t",
  "? ",
  "!t ",
  "\uFEFF",
);
const file = fc.array(part, { maxLength: 24 }).map((parts) => parts.join(""));
const said = (text: string, before?: string) => {
  const { documents } = readDesign(text, "yaml", before === undefined ? undefined : fileOf(before));
  // Functions are never the same.
  return documents.map(({ resolution: { varied: _, draft: __, nameUses: ___, ...resolution }, ...rest }) => ({
    ...rest,
    resolution,
  }));
};

describe("a file of any text", () => {
  it("has the documents that the library finds in the whole, at their places", () => {
    fc.assert(
      fc.property(file, (text) => {
        const whole = parseAllDocuments(text, { merge: true, uniqueKeys: false, logLevel: "silent" });
        const documents = Array.isArray(whole) ? whole : [];
        // Where something is wrong the library may take a mark for quoted, or make two documents of one.
        fc.pre(documents.every(({ errors }) => errors.length === 0));
        const starts = new Set(documents.map(({ range }) => range[0]));
        const read = fileOf(text).documents.filter(({ root }) => root !== undefined);
        for (const { span } of read) expect(starts).toContain(span.start);
        const held = documents.filter(({ contents }) => contents !== null && contents.range[0] < contents.range[1]);
        expect(read.length).toBeGreaterThanOrEqual(held.length);
      }),
      { numRuns: 200 },
    );
  });

  it("says the same with what another text has taken over", () => {
    fc.assert(
      fc.property(file, file, file, file, (head, middle, other, tail) => {
        expect(said(head + middle + tail, head + other + tail)).toEqual(said(head + middle + tail));
      }),
      { numRuns: 200 },
    );
  });

  it("says the same after an edit of one of several designs", () => {
    fc.assert(
      fc.property(fc.nat(WHISTLE.length * 3), fc.nat(8), part, (at, removed, put) => {
        const text = `${WHISTLE}---\n${WHISTLE}---\n${WHISTLE}`;
        const after = text.slice(0, at) + put + text.slice(at + removed);
        expect(said(after, text)).toEqual(said(after));
      }),
      { numRuns: 40 },
    );
  });

  it("takes over what did not change, and reads the rest in pieces", () => {
    const text = `${WHISTLE}---\n${WHISTLE}---\n${WHISTLE}`;
    const before = fileOf(text);
    const steps = (known?: typeof before) => [...readingOf(text.replace("G4", "A4"), "yaml", known)].length;
    expect(steps()).toBeGreaterThan(9);
    expect(steps(before)).toBeLessThan(steps() - 4);
    const after = readDesign(text.replace("G4", "A#4"), "yaml", before);
    expect(after.documents[0]?.resolution).not.toBe(before.documents[0]?.resolution);
    expect(after.documents[2]?.resolution).toBe(before.documents[2]?.resolution);
    expect(after.documents[2]?.span.start).toBe((before.documents[2]?.span.start ?? 0) + 1);
  });
});
