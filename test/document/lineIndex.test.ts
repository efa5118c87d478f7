/** Lines and columns, as the language server protocol counts them. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { TextDocument } from "vscode-languageserver-textdocument";
import { LineIndex } from "../../server/src/document/lineIndex.js";

const texts = fc
  .array(fc.constantFrom("a", "🎵", "\n", "\r\n", "\r", " ", "\uFEFF", "\u2028"), { maxLength: 30 })
  .map((parts) => parts.join(""));

describe("lines and columns", () => {
  it("are those of the protocol's own library", () => {
    fc.assert(
      fc.property(texts, (text) => {
        const index = new LineIndex(text);
        const library = TextDocument.create("file:///a", "yaml", 1, text);
        for (let offset = 0; offset <= text.length; offset++) {
          // Between the two halves of a line break the library goes back before it.
          if (text[offset - 1] === "\r" && text[offset] === "\n") continue;
          const { line, character } = library.positionAt(offset);
          expect(index.position(offset)).toEqual({ line, column: character });
          expect(index.offset({ line, column: character })).toBe(offset);
        }
      }),
      { seed: 21, numRuns: 300 },
    );
  });

  it("outside the text are its nearest place", () => {
    const index = new LineIndex("ab\r\ncd");
    expect(index.position(-3)).toEqual({ line: 0, column: 0 });
    expect(index.position(99)).toEqual({ line: 1, column: 2 });
    expect(index.offset({ line: 0, column: 99 })).toBe(2);
    expect(index.offset({ line: -1, column: 5 })).toBe(0);
    expect(index.offset({ line: 9, column: 0 })).toBe(6);
    expect(index.offset({ line: 1, column: -4 })).toBe(4);
  });
});
