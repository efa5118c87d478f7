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
import { unsaid } from "../support/unsaid.js";

const ROOT = join(import.meta.dirname, "../..");
const read = (name: string): Record<string, string> => JSON.parse(readFileSync(join(ROOT, name), "utf8"));
const german = read("l10n/bundle.l10n.de.json");
const placesIn = (text: string) => [...new Set(text.match(/\{\d+\}|\(command:[^)]+\)/g))].sort();

/** What stays English, and why. */
const ENGLISH_FILES = new RegExp(
  [
    "server/src/cli(/|\\.ts)|review/reports/(text|json|svg)", // the command line speaks English
    "aboutRules\\.ts|make/ruleRegistry", // told by the schema's descriptions, which are made of them
    "design/create/(firstText|recipes)|design/survey/|server/src/survey/|server/src/listen/|sound/tidy", // written into designs
    "make/(drawing|solid|file)/|design/outline/joints", // written into drawings, sheets and solids
    "design/scale/bodies", // of the command `scale` alone
    "language/(gate|messageForm)\\.ts", // what programs are told who break the protocol
    "acoustics/", // faults of ours, but for what `demand` says
  ].join("|"),
);
const ENGLISH: readonly string[] = [
  // Names of requests, which the output channel has.
  ...["Inlay hint", "Code lenses", "Code action", "Worst note"].map((name) => `: ${name}`),
  ...["Signature help", "Selection ranges", "Semantic tokens", "Linked editing"].map(
    (name) => `Navigation.ts: ${name}`,
  ),
  "Requests.ts: Rekey preview",
  // Words that the program knows itself by.
  ...[
    "cavity.ts: volume only",
    "proposal.ts: fixes of ",
    "commands/rekey.ts: no design",
    "verdict.ts: Nothing changes.",
  ],
  // A name.
  "wavHeader.ts: Matroska or WebM",
];

describe("the German bundle", () => {
  const said = sentences();

  it("translates every sentence of client and server", () => {
    const missing = [...said].flatMap(([file, own]) =>
      own.filter((key) => german[key] === undefined).map((key) => `${file}: ${key}`),
    );
    expect(missing).toEqual([]);
    expect([...said.keys()].length).toBeGreaterThan(100);
  });

  it("translates every description of the format", () => {
    expect(descriptions().filter((description) => german[description] === undefined)).toEqual([]);
  });

  it("has no sentence that is not used", () => {
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

  it("has all prose of the sources, but for what is not for makers or not in their editor", () => {
    const said = (text: string) => Object.hasOwn(german, text.slice(text.indexOf(": ") + 2));
    const left = unsaid(["server/src", "client"], ENGLISH_FILES).filter((text) => !said(text));
    expect(left.filter((text) => !ENGLISH.some((known) => text.includes(known)))).toEqual([]);
    // None of the exceptions is left over.
    expect(ENGLISH.filter((known) => !left.some((text) => text.includes(known)))).toEqual([]);
  });

  it("has the same placeholders, and begins and ends as the English does", () => {
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

  it("has the same keys in both languages", () => {
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
