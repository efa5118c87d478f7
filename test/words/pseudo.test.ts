/** What the server shows of a design, in a language of dots: letters that are left went round the translation. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { afterEach, describe, expect, it } from "vitest";
import type { CodeAction, InlayHint } from "vscode-languageserver/node";
import { speak } from "../../server/src/words/translation.js";
import { type Client, client, PULLING, pulled, URI } from "../support/client.js";
import { WHISTLE } from "../support/designs.js";
import { descriptions, sentences } from "../support/sentences.js";

const EXAMPLES = join(import.meta.dirname, "../../examples");
const examples = readdirSync(EXAMPLES).filter((name) => name.endsWith(".bore.yaml"));

/** Every letter a dot, but for code and what is put in. */
const dots = (text: string) =>
  text.replace(/`[^`]*`|\{\d+\}|\(command:[^)]+\)|\p{L}/gu, (part) => (part.length === 1 ? "·" : part));
const DOTS = Object.fromEntries(
  [...[...sentences().values()].flat(), ...descriptions()].map((key) => [key, dots(key)]),
);

/** Words of three letters and more that neither the design nor the format has; shorter ones are notes and units. */
function lettersIn(shown: unknown, design: string): readonly string[] {
  const words: string[] = [];
  JSON.stringify(shown, (key, value) => {
    if (FOR_PROGRAMS.test(key)) return undefined;
    if (typeof value === "string" && !words.includes(value)) {
      const own = value.replace(/`[^`]*`|[a-z]+\/[a-z-]+/g, " ").match(/\p{L}{3,}/gu) ?? [];
      words.push(...own.filter((word) => !design.includes(word)).map((word) => `${word}: ${value}`));
    }
    return value;
  });
  return words;
}

const FOR_PROGRAMS = /^(code|codeDescription|source|kind|uri|data|command|edit)$/;

async function opened(text: string): Promise<Client> {
  const related = { textDocument: { ...PULLING.textDocument, diagnostic: { relatedInformation: true } } };
  const self = await client({ ...PULLING, ...related }, {}, undefined, {
    initializationOptions: { translation: DOTS },
  });
  self.open(text);
  return self;
}

const asking =
  ({ connection }: Client) =>
  <T>(method: string, more: object = {}) =>
    connection.sendRequest<T>(`textDocument/${method}`, { textDocument: { uri: URI }, ...more });

describe("in a language of dots", () => {
  afterEach(() => speak(undefined));

  it.each(examples)("findings, hints, lenses, symbols and actions of %s have no letters", async (name) => {
    const text = readFileSync(join(EXAMPLES, name), "utf8");
    const self = await opened(text);
    const ask = asking(self);
    const range = { start: { line: 0, character: 0 }, end: { line: 999, character: 0 } };
    const diagnostics = await pulled(self);
    const hints = await ask<InlayHint[]>("inlayHint", { range });
    const [hint] = hints;
    const shown = [
      ...[diagnostics, hints, await ask("codeLens"), await ask("documentSymbol")],
      hint === undefined ? undefined : await self.connection.sendRequest("inlayHint/resolve", hint),
      await ask<CodeAction[]>("codeAction", { range, context: { diagnostics } }),
    ];
    expect(lettersIn(shown, text)).toEqual([]);
    expect(JSON.stringify(shown)).toContain("··");
  });

  it("hovers over every name and value of a whistle have none", async () => {
    const ask = asking(await opened(WHISTLE));
    const left = new Set<string>();
    for (const [line, words] of WHISTLE.split("\n").entries())
      for (const { index } of words.matchAll(/[A-Za-z]\w+(?=:)|(?<=: )[^\s,}]/g))
        for (const word of lettersIn(await ask("hover", { position: { line, character: index } }), WHISTLE))
          left.add(word);
    expect([...left]).toEqual([]);
  });
});
