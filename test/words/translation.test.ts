/** The German words: none is missing, none is left over, and each has the same places for what is put in. */
import { mkdtempSync, readFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, describe, expect, it } from "vitest";
import type { InlayHint } from "vscode-languageserver/node";
// @ts-expect-error: a script of the build, without types
import { shipWords } from "../../.ci/bundle/words.mjs";
import { translationFor } from "../../server/src/language/node/translationFor.js";
import { markOf } from "../../server/src/words/mark.js";
import { speak, t } from "../../server/src/words/translation.js";
import { client, PULLING, pulled, URI } from "../support/client.js";
import { WHISTLE } from "../support/designs.js";
import { hintText } from "../support/language.js";
import { descriptions, sentences } from "../support/sentences.js";

const ROOT = join(import.meta.dirname, "../..");
const read = (name: string): Record<string, string> => JSON.parse(readFileSync(join(ROOT, name), "utf8"));
const german = read("l10n/bundle.l10n.de.json");
const placesIn = (text: string) => [...new Set(text.match(/\{\d+\}|\(command:[^)]+\)/g))].sort();

describe("the German bundle", () => {
  const said = sentences();

  it("has every sentence of client and server", () => {
    const missing = [...said].flatMap(([file, own]) =>
      own.filter((key) => german[key] === undefined).map((key) => `${file}: ${key}`),
    );
    expect(missing).toEqual([]);
    expect([...said.keys()].length).toBeGreaterThan(100);
  });

  it("has every description of the format", () => {
    expect(descriptions().filter((description) => german[description] === undefined)).toEqual([]);
  });

  it("has nothing that is not said", () => {
    const known = new Set([...[...said.values()].flat(), ...descriptions()]);
    expect(Object.keys(german).filter((key) => !known.has(key))).toEqual([]);
  });

  it("is shipped by marks, no two alike, but for what the editor looks up by its English", async () => {
    const to = mkdtempSync(join(tmpdir(), "words-"));
    await shipWords(join(ROOT, "l10n"), join(ROOT, "client/src"), to);
    const shipped = JSON.parse(readFileSync(join(to, "bundle.l10n.de.json"), "utf8"));
    expect(Object.keys(shipped)).toHaveLength(Object.keys(german).length);
    const ofClient = [...said].flatMap(([file, own]) => (file.startsWith("client/src/") ? own : []));
    for (const english of ofClient) expect(shipped[english], english).toBe(german[english]);
    for (const english of Object.keys(german))
      expect(shipped[english] ?? shipped[markOf(english)]).toBe(german[english]);
    speak(shipped);
    expect(t`hole ${3}`).toBe("Griffloch 3");
    speak(undefined);
  });

  it("puts in the same things, and begins and ends as the English does", () => {
    for (const [english, own] of Object.entries(german)) {
      expect(placesIn(own), english).toEqual(placesIn(english));
      expect(/^\s*/.exec(own)?.[0], english).toBe(/^\s*/.exec(english)?.[0]);
      expect(/\s*$/.exec(own)?.[0], english).toBe(/\s*$/.exec(english)?.[0]);
    }
  });
});

describe("a server that speaks German", () => {
  afterEach(() => speak(undefined));

  it("says hints, hovers, findings, fixes and lenses in it, with a comma in cents and a point in what a design is written with", async () => {
    const self = await client(PULLING, { translationFor: (locale) => translationFor("l10n", locale) }, undefined, {
      locale: "de-AT",
    });
    self.open(WHISTLE);
    const ask = <T>(method: string, more: object = {}) =>
      self.connection.sendRequest<T>(`textDocument/${method}`, { textDocument: { uri: URI }, ...more });
    const line = WHISTLE.split("\n").findIndex((text) => text.includes("degree: 6"));
    const { contents } = await ask<{ contents: { value: string } }>("hover", { position: { line, character: 8 } });
    expect(contents.value).toMatch(/vorhergesagt \| \d+,\d Hz/);
    expect(contents.value).toContain("Bestimmt durch L2, das erste offene Griffloch vom Mund her.");
    const hints = await ask<InlayHint[]>("inlayHint", {
      range: { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } },
    });
    expect(hints.map(hintText).find((text) => text.startsWith("E5"))).toMatch(/^E5 −\d+,\d Cent, zu tief$/);
    const [finding] = await pulled(self);
    expect(finding?.message).toMatch(/^E5 klingt .* Cent zu tief\. .*L2 .* \d+\.\d mm/);
    expect(JSON.stringify(await ask("codeLens"))).toContain("1 verstimmt");
    const context = { diagnostics: [finding] };
    const actions = await ask<{ title: string }[]>("codeAction", { range: finding?.range, context });
    expect(actions.map(({ title }) => title)).toContain("Alle Grifflöcher stimmen, die Bohrung behalten");
  });

  it("has the words from its client, where that brings them, and English for one that does not", async () => {
    const summaryIn = async (translation: object | undefined) => {
      const self = await client(PULLING, {}, undefined, { initializationOptions: { translation } });
      self.open("borewright: 1\nwall: 3\n");
      return JSON.stringify(await self.connection.sendRequest("textDocument/codeLens", { textDocument: { uri: URI } }));
    };
    expect(await summaryIn(german)).toContain("noch keine Griffe");
    expect(await summaryIn(undefined)).toContain("no fingerings yet");
  });
});

describe("the manifest", () => {
  const [english, own] = [read("package.nls.json"), read("package.nls.de.json")];

  it("says nothing but what both languages have", () => {
    const used =
      readFileSync(join(import.meta.dirname, "../../package.json"), "utf8").match(/(?<=")%[^"]+%(?=")/g) ?? [];
    const keys = used.map((key) => key.slice(1, -1));
    expect(Object.keys(english).sort()).toEqual(keys.toSorted());
    expect(Object.keys(own).sort()).toEqual(keys.toSorted());
    for (const key of keys) {
      expect(own[key], key).not.toBe(english[key]);
      expect(placesIn(own[key] ?? "")).toEqual(placesIn(english[key] ?? ""));
    }
  });
});
