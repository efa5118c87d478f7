/** Edits of generated designs: the changed characters and no others. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { applyEdits, insertEntry, setNumber } from "../../server/src/document/edits.js";
import { nodeAt } from "../../server/src/document/tree.js";
import { WHISTLE } from "../support/designs.js";
import { pathOf, read, withNumber } from "../support/edited.js";
import { designs, STYLE_NAMES, STYLES } from "../support/generated.js";
import { codesOf, numberAt } from "../support/marked.js";

describe("an edit of any design", () => {
  const styles = fc.constantFrom(...STYLE_NAMES);
  const ends = fc.constantFrom("\n", "\r\n");
  const marks = fc.constantFrom("", "\uFEFF");

  it("changes one number, every other byte stays, and the new one is read", () => {
    fc.assert(
      fc.property(
        designs,
        styles,
        ends,
        marks,
        fc.nat(),
        fc.integer({ min: 1, max: 60_000 }),
        (data, style, eol, mark, pick, hundredths) => {
          const text = mark + STYLES[style](data).replaceAll("\n", eol);
          const document = read(text);
          const { numbers } = document.resolution;
          const { path } = numbers[pick % numbers.length] ?? { path: ["wall"] };
          const edits = setNumber(document, path, hundredths / 100, 2);
          expect(edits.length).toBeLessThanOrEqual(1);
          const after = applyEdits(text, edits);
          expect(numberAt(after, path.join("."))).toBe(hundredths / 100);
          for (const { span } of edits) {
            expect(after.slice(0, span.start)).toBe(text.slice(0, span.start));
            expect(after.slice(after.length - (text.length - span.end))).toBe(text.slice(span.end));
          }
          const reread = read(after);
          const changed = reread.resolution.numbers.filter(
            ({ path: p, expression }) => p.join() !== path.join() && expression === undefined,
          );
          const before = numbers.filter(
            ({ path: p, expression }) => p.join() !== path.join() && expression === undefined,
          );
          expect(changed).toEqual(before);
          expect(setNumber(reread, path, hundredths / 100, 2)).toEqual([]);
        },
      ),
      { seed: 34, numRuns: 100 },
    );
  });

  it("adds an entry to any map, and only that", () => {
    const maps = fc.constantFrom("", "parameters", "bore.0", "bore.1", "print", "mouth");
    fc.assert(
      fc.property(designs, styles, ends, marks, maps, (data, style, eol, mark, at) => {
        const text = mark + STYLES[style](data).replaceAll("\n", eol);
        const document = read(text);
        const map = nodeAt(document.root, pathOf(at));
        fc.pre(map?.kind === "map");
        const [edit, ...more] = insertEntry(document, pathOf(at), "zz", "7");
        expect(more).toEqual([]);
        const after = read(applyEdits(text, edit === undefined ? [] : [edit]));
        expect(nodeAt(after.root, [...pathOf(at), "zz"])).toMatchObject({ value: 7 });
        expect(text.slice(edit?.span.start, edit?.span.end).trim()).toBe("");
        expect(after.resolution.numbers.filter(({ path }) => path.at(-1) !== "zz")).toEqual(
          document.resolution.numbers,
        );
        expect(after.findings.filter(({ code }) => code === "file/syntax")).toEqual([]);
      }),
      { seed: 35, numRuns: 100 },
    );
  });

  it("leaves a design with comments as it was but for the value", () => {
    for (const { path, value } of read(WHISTLE).resolution.numbers) {
      const after = withNumber(WHISTLE, path.join("."), value + 1.5);
      expect(numberAt(after, path.join("."))).toBeCloseTo(value + 1.5, 9);
      expect(after.split("\n").filter((line, i) => line !== WHISTLE.split("\n")[i])).toHaveLength(1);
      expect(after.match(/#.*$/gm)).toEqual(WHISTLE.match(/#.*$/gm));
      expect(codesOf(after)).not.toContain("file/syntax");
    }
  });
});
