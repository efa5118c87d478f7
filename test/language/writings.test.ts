/** The same design in other writings: line ends, a byte order mark, signs of two units. The features tell the same. */
import { describe, expect, it } from "vitest";
import type { CodeAction } from "vscode-languageserver";
import { codeActions, resolveCodeAction } from "../../server/src/language/codeActions/index.js";
import { codeLenses } from "../../server/src/language/codeLens.js";
import { completion } from "../../server/src/language/completion/index.js";
import { diagnostics } from "../../server/src/language/diagnostics.js";
import { documentSymbols } from "../../server/src/language/documentSymbols.js";
import { foldingRanges } from "../../server/src/language/folding.js";
import { hover } from "../../server/src/language/hover/index.js";
import { inlayHints } from "../../server/src/language/inlayHints.js";
import { WHISTLE } from "../support/designs.js";
import { applied, atCursor, designOf, marked, textIn, titled } from "../support/language.js";

const PLACES = ["name: Test", "key: G4", "22", "window", "at: 394.1", "=tube", "L2", "8.5", "degree: 6", "# too far"];

/** All that the server tells of a text; positions are lines and columns, which line ends do not move. */
async function told(text: string): Promise<unknown> {
  const context = designOf(text, { client: { resolvesCodeActions: true } });
  // The same refit is offered at several places, and one refit to another key is enough.
  const worked = new Set<string>();
  const actionAt = async (offered: CodeAction) => {
    const kind = offered.title.replace(/^(Refit to) .*/, "$1");
    const { action } = worked.has(kind) ? { action: offered } : await resolveCodeAction(context, offered);
    worked.add(kind);
    // What is to be asked for later names the text that it was asked of.
    return { ...action, data: undefined };
  };
  const placesIn: unknown[] = [];
  for (const place of PLACES) {
    const position = context.text.positionAt(context.file.text.indexOf(place));
    const range = { start: position, end: position };
    const actions: unknown[] = [];
    for (const offered of await codeActions(context, { range, context: { diagnostics: [] } }))
      actions.push(await actionAt(offered));
    placesIn.push([hover(context, position), completion(context, position), actions]);
  }
  return {
    diagnostics: diagnostics(context),
    hints: inlayHints(context).map(({ data, ...hint }) => ({ ...hint, data: { ...data, textName: "" } })),
    lenses: codeLenses(context),
    symbols: documentSymbols(context),
    folds: foldingRanges(context),
    places: placesIn,
  };
}

describe("the same is reported", async () => {
  const plain = await told(WHISTLE);

  it("with CRLF line ends", async () => {
    const crlf = JSON.stringify(await told(WHISTLE.replaceAll("\n", "\r\n")));
    // A line that a rekeying adds ends as the others do.
    expect(crlf).toContain("\\r\\nprint: ");
    expect(JSON.parse(crlf.replaceAll("\\r\\n", "\\n"))).toEqual(JSON.parse(JSON.stringify(plain)));
  });

  it("with a byte order mark", async () => {
    // The mark is one column of a comment on the first line, where nothing else stands.
    expect(await told(`\uFEFF${WHISTLE}`)).toEqual(plain);
  });
});

describe("signs of two UTF-16 units before a place move nothing", async () => {
  const text = WHISTLE.replaceAll("{ name: L", "{ remark: 🎶🪈, name: L");

  it("hints and hovers", async () => {
    const context = designOf(text);
    for (const { position } of inlayHints(context)) {
      const line = context.file.text.split("\n")[position.line] ?? "";
      expect(line.slice(0, position.character)).toMatch(/\}$/);
    }
    const { context: there, position } = atCursor(marked(text, "210.3", 1));
    const range = hover(there, position)?.range;
    expect(range && textIn(there, range)).toBe("210.3");
  });

  it("fixes", async () => {
    const { context, position } = atCursor(marked(text, "210.3"));
    const range = { start: position, end: position };
    const { edit } = titled(await codeActions(context, { range, context: { diagnostics: [] } }), /^Move L2/);
    expect(applied(text, edit)).toBe(
      text.replace("at: 210.3", `at: ${/L2, at: ([\d.]+)/.exec(applied(text, edit))?.[1]}`),
    );
  });
});
