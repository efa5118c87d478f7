/** One model, however it is written; and no text whatever that brings the reader down. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { DesignDocument, Syntax } from "../../server/src/document/designFile.js";
import { pathAt, spanOf } from "../../server/src/document/locate.js";
import type { Span } from "../../server/src/document/span.js";
import type { TreeNode } from "../../server/src/document/tree.js";
import { nodeAt } from "../../server/src/document/tree.js";
import { anyText } from "../support/anyText.js";
import { documentOf, fileOf, WHISTLE } from "../support/designs.js";
import { designs, STYLE_NAMES, STYLES } from "../support/generated.js";

/** All that a text says, places left out. */
function meaning(text: string, syntax: Syntax = "yaml") {
  return fileOf(text, syntax).documents.map(({ findings, resolution: { instrument, numbers } }) => ({
    findings: findings.map(({ code, message, path, on }) => ({ code, message, path, on })),
    instrument,
    numbers,
  }));
}

describe("the same model", () => {
  it("is read from every style of YAML and from JSON", () => {
    fc.assert(
      fc.property(designs, (data) => {
        const expected = meaning(STYLES.json(data), "json");
        for (const style of STYLE_NAMES) expect(meaning(STYLES[style](data))).toEqual(expected);
        expect(meaning(STYLES.dense(data), "json")).toEqual(expected);
      }),
      { seed: 11, numRuns: 20 },
    );
  });

  it("is read with line ends of any kind, with and without a byte order mark", () => {
    fc.assert(
      fc.property(designs, fc.constantFrom(...STYLE_NAMES), (data, style) => {
        const text = STYLES[style](data);
        const expected = meaning(text);
        for (const [mark, end] of [
          ["", "\r\n"],
          ["\uFEFF", "\n"],
          ["\uFEFF", "\r\n"],
        ] as const)
          expect(meaning(mark + text.replaceAll("\n", end))).toEqual(expected);
      }),
      { seed: 12, numRuns: 40 },
    );
  });
});

/** Every place that a reading yields. */
function* spansOf(documents: readonly DesignDocument[]): Iterable<Span> {
  const visit = function* (node: TreeNode | undefined): Iterable<Span> {
    if (node === undefined) return;
    yield node.span;
    if (node.source) yield node.source;
    if (node.kind === "list") for (const item of node.items) yield* visit(item);
    if (node.kind === "map")
      for (const { keySpan, value } of node.entries) {
        yield keySpan;
        yield* visit(value);
      }
  };
  for (const { span, root, findings } of documents) {
    yield span;
    yield* visit(root);
    for (const finding of findings) {
      yield finding.span;
      for (const { span: related } of finding.related ?? []) yield related;
    }
  }
}

function expectSpansInside(text: string, syntax: Syntax): void {
  const { documents } = fileOf(text, syntax);
  expect(documents.length).toBeGreaterThan(0);
  for (const { start, end } of spansOf(documents)) {
    const fits = Number.isInteger(start) && 0 <= start && start <= end && end <= text.length;
    if (!fits) expect.fail(`${start}…${end} does not lie in ${JSON.stringify(text)}`);
  }
}

const TRICKY = `${WHISTLE}x-a: &a { diameter: 7 }\nx-b: [*a, *a]\nx-c: { <<: *a, at: 3 }\nremark: >\n  folded\n  text\n---\nname: "two 🎵"\n`;
const JSON_TEXT = STYLES.json({
  borewright: 1,
  name: "a 🎵",
  bore: [{ at: 0, diameter: "=wall*2" }],
  holes: [{ at: 1 }],
});

describe("any text", () => {
  it.each([
    ["yaml", TRICKY],
    ["json", JSON_TEXT],
    ["yaml", JSON_TEXT],
    ["json", TRICKY.slice(0, 300)],
  ] as const)("that begins like a design is read as %s, with every place inside it", (syntax, text) => {
    for (let end = 0; end <= text.length; end += 7) expectSpansInside(text.slice(0, end), syntax);
  });

  const scraps = fc.constantFrom(
    ..."{}[]:,-?&*!|>'\"%@#`=\t\r\n\u0000\uFEFF\u2028é🎵",
    "\ud800",
    ": ",
    "- ",
    "---\n",
    "<<: *a",
    "&a ",
    "*a",
    "...\n",
    "!!int ",
    "%YAML 1.1\n",
    "\r\n",
    "{a: ",
    "[[",
    "=min(",
    "0x1",
    ".nan",
    "1e999",
    "~",
  );

  it.each([
    ["yaml", TRICKY],
    ["json", JSON_TEXT],
  ] as const)("made from a random %s design is read, with every place inside it", (syntax, text) => {
    const change = fc.tuple(fc.nat(text.length), fc.nat(6), fc.oneof(scraps, anyText(4)));
    fc.assert(
      fc.property(fc.array(change, { minLength: 1, maxLength: 4 }), (changes) => {
        let changed = text;
        for (const [at, gone, put] of changes) changed = changed.slice(0, at) + put + changed.slice(at + gone);
        expectSpansInside(changed, syntax);
      }),
      // `npm run hostile` draws thousands of others, on every run.
      { seed: 13, numRuns: 100 },
    );
  });

  it("of scraps alone is read, with every place inside it", () => {
    fc.assert(
      fc.property(
        fc.array(fc.oneof(scraps, fc.constantFrom("a", "bore", "at", " ", "  ")), { maxLength: 40 }),
        (parts) => {
          expectSpansInside(parts.join(""), "yaml");
          expectSpansInside(parts.join(""), "json");
        },
      ),
      { seed: 14, numRuns: 300 },
    );
  });
});

describe("places", () => {
  it("lead to the value and back, for everything that a design has", () => {
    fc.assert(
      fc.property(designs, fc.constantFrom(...STYLE_NAMES), (data, style) => {
        const document = documentOf(fileOf(STYLES[style](data)));
        for (const { path } of document.resolution.numbers) {
          const { start, end } = spanOf(document, path);
          const node = nodeAt(document.root, path);
          expect(node).toMatchObject({ kind: "scalar", raw: document.text.slice(start, end) });
          expect(pathAt(document, start + 1 < end ? start + 1 : start)).toEqual({ path, on: "value" });
          if (typeof path.at(-1) === "string") {
            const key = spanOf(document, path, "key");
            expect(document.text.slice(key.start, key.end).replaceAll('"', "")).toBe(path.at(-1));
            expect(pathAt(document, key.start)).toEqual({ path, on: "key" });
          }
        }
      }),
      { seed: 15, numRuns: 30 },
    );
  });

  it("of what is not there are the names around it", () => {
    const document = documentOf(fileOf(WHISTLE));
    const text = (path: readonly (string | number)[]) => {
      const { start, end } = spanOf(document, path);
      return WHISTLE.slice(start, end);
    };
    expect(text(["mouth", "cover"])).toBe("mouth");
    expect(text(["print", "scale"])).toBe("borewright");
    expect(text(["holes", 1, "chimney"])).toBe("{ name: L2, at: 210.3, diameter: 8.5 }");
    expect(text(["holes", 40])).toBe("holes");
    expect(text([])).toBe(WHISTLE.slice(WHISTLE.indexOf("borewright")).trimEnd());
  });

  it("between entries belong to what is around them", () => {
    const document = documentOf(fileOf(WHISTLE));
    const at = (text: string, by = 0) => pathAt(document, WHISTLE.indexOf(text) + by);
    expect(at("# harbour")).toEqual({ path: [], on: "value" });
    expect(at("Test whistle", 3)).toEqual({ path: ["name"], on: "value" });
    expect(at("name: L2", -1)).toEqual({ path: ["holes", 1], on: "value" });
    expect(at("cutUp", 6)).toEqual({ path: ["mouth", "window", "cutUp"], on: "value" });
  });
});
