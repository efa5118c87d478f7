import { describe, expect, it } from "vitest";
import { insertEntry } from "../../server/src/document/edits.js";
import { read, withEntry } from "../support/edited.js";

describe("insertEntry writes", () => {
  it.each([
    ["last at the top", "a: 1\nb: 2\n", "", "c", "3", "a: 1\nb: 2\nc: 3\n"],
    ["last without a newline at the end", "a: 1\nb: 2", "", "c", "3", "a: 1\nb: 2\nc: 3"],
    [
      "behind the comment of the last",
      "a: 1\nb: 2 # two\n\n# end\n",
      "",
      "c",
      "3",
      "a: 1\nb: 2 # two\nc: 3\n\n# end\n",
    ],
    [
      "behind what is nested in the last",
      "a: 1\nb:\n  - x: 1\n    y: 2 # deep\n",
      "",
      "c",
      "3",
      "a: 1\nb:\n  - x: 1\n    y: 2 # deep\nc: 3\n",
    ],
    ["in the column of its neighbours", "m:\n    a: 1\nz: 1\n", "m", "b", "2", "m:\n    a: 1\n    b: 2\nz: 1\n"],
    ["into an item of a list", "h:\n  - a: 1\n  - a: 2\n", "h.0", "b", "5", "h:\n  - a: 1\n    b: 5\n  - a: 2\n"],
    ["behind a block of text", "a: |\n  one\n  two\nb: 1\n", "", "c", "3", "a: |\n  one\n  two\nb: 1\nc: 3\n"],
    ["behind a block of text that is last", "a: |\n  one\n  two\n", "", "c", "3", "a: |\n  one\n  two\nc: 3\n"],
    ["into empty braces", "m: {}\n", "m", "a", "1", "m: { a: 1 }\n"],
    ["into braces", "m: {a: 1}\n", "m", "b", "2", "m: {a: 1, b: 2}\n"],
    ["behind a last comma", "m: { a: 1, }\n", "m", "b", "2", "m: { a: 1, b: 2 }\n"],
    [
      "into braces over several lines",
      "m: {\n  a: 1,\n  c: 3\n}\n",
      "m",
      "b",
      "2",
      "m: {\n  a: 1,\n  c: 3,\n  b: 2\n}\n",
    ],
    [
      "into braces with a merge key only",
      "x: &x { b: 1 }\nm: { <<: *x }\n",
      "m",
      "a",
      "1",
      "x: &x { b: 1 }\nm: { a: 1, <<: *x }\n",
    ],
    ["where a value is not yet there", "m:\nz: 1\n", "m", "a", "1", "m: { a: 1 }\nz: 1\n"],
    ["where a value is not yet there, before a comment", "m: # x\nz: 1\n", "m", "a", "1", "m: { a: 1 } # x\nz: 1\n"],
    ["before a document's end", "a: 1\n---\nb: 2\n", "", "c", "3", "a: 1\nc: 3\n---\nb: 2\n"],
    ["with CRLF", "a: 1\r\nm:\r\n  x: 1\r\n", "m", "y", "2", "a: 1\r\nm:\r\n  x: 1\r\n  y: 2\r\n"],
    ["behind a byte order mark", "\uFEFFa: 1\n", "", "b", "2", "\uFEFFa: 1\nb: 2\n"],
    ["behind an open comment line", "\uFEFF# x\r\na: 1", "", "b", "2", "\uFEFF# x\r\na: 1\r\nb: 2"],
  ])("%s", (_, before, path, key, value, after) => {
    expect(withEntry(before, path, key, value)).toBe(after);
  });

  it("nothing into what is not a map", () => {
    expect(insertEntry(read("a: 1\n"), ["a"], "b", "2")).toEqual([]);
    expect(insertEntry(read("a: [1]\n"), ["a"], "b", "2")).toEqual([]);
    expect(insertEntry(read(""), [], "b", "2")).toEqual([]);
    expect(insertEntry(read("a: 1\n"), ["nowhere"], "b", "2")).toEqual([]);
  });
});
