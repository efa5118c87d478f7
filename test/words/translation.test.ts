/** The German words: none is missing, none is left over, and each has the same places for what is put in. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { sentences } from "../support/sentences.js";

const read = (name: string): Record<string, string> =>
  JSON.parse(readFileSync(join(import.meta.dirname, "../..", name), "utf8"));
const german = read("l10n/bundle.l10n.de.json");
const placesIn = (text: string) => [...new Set(text.match(/\{\d+\}|\(command:[^)]+\)/g))].sort();

describe("the German bundle", () => {
  const said = sentences();

  it("has every sentence of client and server", () => {
    const missing = [...said].flatMap(([file, own]) =>
      own.filter((key) => german[key] === undefined).map((key) => `${file}: ${key}`),
    );
    expect(missing).toEqual([]);
    expect([...said.keys()].length).toBeGreaterThan(10);
  });

  it("puts in the same things, and begins and ends as the English does", () => {
    for (const [english, own] of Object.entries(german)) {
      expect(placesIn(own), english).toEqual(placesIn(english));
      expect(/^\s*/.exec(own)?.[0], english).toBe(/^\s*/.exec(english)?.[0]);
      expect(/\s*$/.exec(own)?.[0], english).toBe(/\s*$/.exec(english)?.[0]);
    }
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
