/** Whatever stands in the file, every feature answers, and every range it gives lies inside the text. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Position, Range } from "vscode-languageserver";
import { codeActions } from "../../server/src/language/codeActions/index.js";
import { codeLenses } from "../../server/src/language/codeLens.js";
import { completion } from "../../server/src/language/completion/index.js";
import type { DesignContext } from "../../server/src/language/designContext.js";
import { diagnostics } from "../../server/src/language/diagnostics.js";
import { documentSymbols, flatSymbols } from "../../server/src/language/documentSymbols.js";
import { foldingRanges } from "../../server/src/language/folding.js";
import { hover } from "../../server/src/language/hover/index.js";
import { inlayHints } from "../../server/src/language/inlayHints.js";
import { anyText } from "../support/anyText.js";
import { WHISTLE } from "../support/designs.js";
import { designOf, JSON_URI, YAML_URI } from "../support/language.js";

/** Everything the server gives for a text at a place, none of which may throw. */
async function everything(context: DesignContext, position: Position): Promise<unknown[]> {
  const range: Range = { start: position, end: position };
  return [
    diagnostics(context),
    hover(context, position),
    inlayHints(context),
    codeLenses(context),
    documentSymbols(context),
    flatSymbols(context),
    foldingRanges(context),
    completion(context, position),
    await codeActions(context, { range, context: { diagnostics: [] } }),
  ];
}

/** Every position anywhere in an answer. */
function* positionsIn(value: unknown): Iterable<Position> {
  if (typeof value !== "object" || value === null) return;
  if ("line" in value && "character" in value) yield value as Position;
  else for (const part of Object.values(value)) yield* positionsIn(part);
}

/** Every range anywhere in an answer. */
function* rangesIn(value: unknown): Iterable<Range> {
  if (typeof value !== "object" || value === null) return;
  if ("start" in value && "end" in value) yield value as Range;
  else for (const part of Object.values(value)) yield* rangesIn(part);
}

async function check(text: string, offset: number, uri: string): Promise<void> {
  const context = designOf(text, { uri, client: { resolvesCodeActions: true } });
  const answers = await everything(context, context.text.positionAt(offset));
  // Looked through first: an assertion costs more than an answer's look-up, and there are thousands.
  const reversed = [...rangesIn(answers)].filter(
    ({ start, end }) => context.text.offsetAt(start) > context.text.offsetAt(end),
  );
  // A position that stands in no line would come back as another one.
  const astray = [...positionsIn(answers)].filter((position) => {
    const { line, character } = context.text.positionAt(context.text.offsetAt(position));
    return line !== position.line || character !== position.character;
  });
  expect({ reversed, astray }).toEqual({ reversed: [], astray: [] });
}

const PIECES = [
  "{",
  "}",
  "[",
  "]",
  ":",
  ": ",
  "- ",
  "\n",
  "\r\n",
  "\t",
  '"',
  "'",
  "#",
  "&a ",
  "*a",
  "<<: *a",
  "---\n",
  "=",
  "🎶",
  "●",
  "|",
  "%",
  "0",
  "\uFEFF",
  "...",
];

/** A design with a few places cut out, doubled or filled with something awkward. Deterministic: the seed is fixed. */
const damaged = fc
  .record({
    cuts: fc.array(fc.record({ at: fc.nat(), length: fc.nat(40), put: fc.constantFrom("", ...PIECES) }), {
      maxLength: 5,
    }),
    cursor: fc.nat(),
  })
  .map(({ cuts, cursor }) => {
    let text = WHISTLE;
    for (const { at, length, put } of cuts) {
      const start = at % (text.length + 1);
      text = text.slice(0, start) + put + text.slice(start + length);
    }
    return { text, cursor: cursor % (text.length + 1) };
  });

const RUNS = { seed: 20261125, numRuns: 150 };

describe("every feature answers, in place", () => {
  it("for a design with damage anywhere", async () => {
    await fc.assert(
      fc.asyncProperty(damaged, ({ text, cursor }) => check(text, cursor, YAML_URI)),
      // Most can still be read, so that each takes a whole analysis; `npm run hostile` draws others on every run.
      { ...RUNS, numRuns: 60 },
    );
  });

  it("for the same read as JSON", async () => {
    await fc.assert(
      fc.asyncProperty(damaged, ({ text, cursor }) => check(text, cursor, JSON_URI)),
      RUNS,
    );
  });

  it("for every beginning of a design, as it is typed", async () => {
    for (let end = 0; end < WHISTLE.length; end += 7) await check(WHISTLE.slice(0, end), end, YAML_URI);
  });

  it("at every place beside a byte order mark", async () => {
    const text = `\uFEFF${WHISTLE.slice(0, 60)}`;
    for (let at = 0; at < text.length; at++) await check(text, at, YAML_URI);
    for (let at = 0; at < 4; at++) await check('\uFEFF{ "borewright": 1 }', at, JSON_URI);
    await check("\uFEFF", 0, YAML_URI);
  });

  it("for any text", async () => {
    await fc.assert(
      fc.asyncProperty(anyText(60), fc.nat(60), (text, cursor) => check(text, Math.min(cursor, text.length), YAML_URI)),
      RUNS,
    );
  });
});
