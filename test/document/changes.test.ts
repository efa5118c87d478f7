/** Edits made one after the other come to the same as one set of edits of the first text. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { TextChanges } from "../../server/src/document/changes.js";
import { applyEdits, setNumber } from "../../server/src/document/edits.js";
import type { TextEdit } from "../../server/src/document/textEdit.js";
import { documentOf, fileOf, WHISTLE } from "../support/designs.js";

const edit = (start: number, end: number, text: string): TextEdit => ({ span: { start, end }, text });

/** Some edits that do not overlap, of a text of any length. */
const someEdits = fc.array(fc.tuple(fc.nat(12), fc.nat(4), fc.string({ maxLength: 4 })), { maxLength: 4 });

function within(text: string, wanted: readonly (readonly [number, number, string])[]): TextEdit[] {
  let at = 0;
  return wanted.map(([gap, length, put]) => {
    const start = Math.min(text.length, at + gap);
    at = Math.min(text.length, start + length);
    return edit(start, at, put);
  });
}

describe("edits one after the other", () => {
  it("are edits of the first text that make the last one of it", () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 40 }), fc.array(someEdits, { maxLength: 5 }), (text, rounds) => {
        const changes = new TextChanges(text);
        let expected = text;
        for (const wanted of rounds) {
          const edits = within(expected, wanted);
          changes.make(edits);
          expected = applyEdits(expected, edits);
        }
        expect(changes.text).toBe(expected);
        expect(applyEdits(text, changes.edits)).toBe(expected);
      }),
      { seed: 41, numRuns: 300 },
    );
  });

  it("are none where everything is changed back", () => {
    const changes = new TextChanges("wall: 3\n");
    changes.make([edit(6, 7, "4.25")]);
    changes.make([edit(6, 10, "3")]);
    expect(changes.edits).toEqual([]);
  });

  it("change no more than each of them does, and remember what was meant", () => {
    const changes = new TextChanges(WHISTLE);
    const write = (path: (string | number)[], value: number) =>
      changes.make(setNumber(documentOf(fileOf(changes.text)), path, value, 2));
    write(["holes", 0, "at"], 181.25);
    write(["holes", 5, "at"], 330);
    write(["holes", 0, "at"], 179);
    const { edits } = changes;
    expect(edits.map(({ text }) => text)).toEqual(["179", "330"]);
    expect(edits.flatMap(({ meant }) => meant ?? [])).toEqual([
      { path: ["holes", 0, "at"], value: 179 },
      { path: ["holes", 5, "at"], value: 330 },
    ]);
  });

  it("refuses those that overlap", () => {
    const changes = new TextChanges("0123456789");
    expect(() => changes.make([edit(0, 4, "x"), edit(3, 5, "y")])).toThrow(RangeError);
    expect(() => changes.make([edit(9, 12, "x")])).toThrow(RangeError);
  });
});
