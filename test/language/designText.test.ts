/** Whatever words a design is written with: in the editor they are text, never a link, an icon, a heading or a control. */
import fc from "fast-check";
import { expect, it } from "vitest";
import type { DocumentSymbol, MarkupContent } from "vscode-languageserver";
import { codeActions } from "../../server/src/language/codeActions/index.js";
import { codeLenses } from "../../server/src/language/codeLens.js";
import { completion } from "../../server/src/language/completion/index.js";
import type { DesignContext } from "../../server/src/language/designContext.js";
import { diagnostics } from "../../server/src/language/diagnostics.js";
import { documentSymbols, flatSymbols } from "../../server/src/language/documentSymbols.js";
import { hover } from "../../server/src/language/hover/index.js";
import { inlayHints } from "../../server/src/language/inlayHints.js";
import { client, PULLING, URI } from "../support/client.js";
import { WHISTLE } from "../support/designs.js";
import { hostileWords, nameDesign, STEERING, wordDesign } from "../support/hostileText.js";
import { designOf, hintText } from "../support/language.js";

/** Analyses take most of the time. */
const RUNS = { numRuns: 8 };
const designs = hostileWords.chain((words) => fc.constantFrom(nameDesign(words), wordDesign(words)));

/** Shown as one line of plain text, which no editor reads more into. */
function expectLabel(text: string): void {
  expect(text).not.toMatch(STEERING);
  expect(text).not.toMatch(/\]\(|\$\(/);
}

/** Markdown in which the marks of {@link hostileWords} are text: outside code, each has its backslash. */
function expectText(markdown: string): void {
  expect(markdown.replaceAll("\n", "")).not.toMatch(STEERING);
  const outsideCode = markdown.replace(/(?<!\\)`[^`]*`/g, "");
  expect(outsideCode).not.toMatch(/(?<!\\)\[|(?<!\\)<|(?<!\\)&|https?:\/\/|www\.a|^\s*#/m);
}

const positions = (context: DesignContext) =>
  Array.from({ length: 60 }, (_, i) => context.text.positionAt(Math.floor((context.file.text.length * i) / 60)));

it("in titles, hints, lenses, names and lists", async () => {
  await fc.assert(
    fc.asyncProperty(designs, async (text) => {
      // Titles are shown before any edit is worked out.
      const context = designOf(text, { client: { resolvesCodeActions: true } });
      const range = { start: { line: 0, character: 0 }, end: context.text.positionAt(text.length) };
      const shown: DocumentSymbol[] = documentSymbols(context);
      const all = shown.flatMap((symbol) => [symbol, ...(symbol.children ?? [])]);
      for (const symbol of [...all, ...all.flatMap(({ children = [] }) => children)]) {
        expectLabel(symbol.name);
        expectLabel(symbol.detail ?? "");
      }
      for (const { name, containerName = "" } of flatSymbols(context)) expectLabel(`${name} ${containerName}`);
      for (const hint of inlayHints(context)) expectLabel(`${hintText(hint)} ${hint.tooltip}`);
      for (const { command } of codeLenses(context)) expectLabel(command?.title ?? "");
      const findings = diagnostics(context);
      for (const { message, relatedInformation = [] } of findings)
        expect([message, ...relatedInformation.map((each) => each.message)].join(" ")).not.toMatch(STEERING);
      for (const { title } of await codeActions(context, { range, context: { diagnostics: findings } }))
        expectLabel(title);
      for (const position of positions(context))
        for (const { label, detail = "" } of completion(context, position)) expectLabel(`${label} ${detail}`);
    }),
    RUNS,
  );
});

it("in hovers", () => {
  fc.assert(
    fc.property(designs, (text) => {
      const context = designOf(text);
      for (const position of positions(context)) {
        const contents = hover(context, position)?.contents as MarkupContent | undefined;
        if (contents !== undefined) expectText(contents.value);
      }
    }),
    RUNS,
  );
});

it("in the hover of a number, which names where it is used", () => {
  const text = WHISTLE.replace("wall: 3,", 'wall: 3, "a`\\n\\n[x](command:y)": =wall,');
  const context = designOf(text);
  const contents = hover(context, context.text.positionAt(text.indexOf("wall: 3")))?.contents as MarkupContent;
  expect(contents.value).toContain("Used in");
  expectText(contents.value);
});

it("in what a rekeying tells, before it is made, when it is made and where it cannot be", async () => {
  const name = '"[R2](command:workbench.action.terminal.new) $(trash)\\e[2J"';
  const self = await client(PULLING);
  const strict = WHISTLE.replace("tolerance: 10", "tolerance: 1").replace("name: R2", `name: ${name}`);
  self.open(`${strict}hands: { reach: 30, fingertip: 8 }\n`);
  const asked = { uri: URI, documentIndex: 0, note: "D4" };
  const previews = await self.connection.sendRequest<{ outcome: string }[]>("borewright/rekeyPreview", asked);
  for (const { outcome } of previews) expectLabel(outcome);
  expect(previews.map(({ outcome }) => outcome).join()).toContain("[R2] (command:");
  const command = { command: "borewright.rekey", arguments: [{ ...asked, by: "redraw" }] };
  const answer = await self.connection.sendRequest<{ message: string }>("workspace/executeCommand", command);
  expectLabel(answer.message);
  const wrong = { ...command, arguments: [{ ...asked, note: "[x](command:y)" }] };
  await expect(self.connection.sendRequest("workspace/executeCommand", wrong)).rejects.toThrow("[x] (command:y)");
  const summaries = await self.connection.sendRequest<{ name: string; summary: string }[]>("borewright/instruments", {
    uri: URI,
  });
  for (const { name: shown, summary } of summaries) expectLabel(`${shown} ${summary}`);
});
