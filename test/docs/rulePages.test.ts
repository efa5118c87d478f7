/** The registry of rules has every code of the sources, and what it says is said wherever makers read of rules. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { readDesign, syntaxOf } from "../../server/src/document/read.js";
import type { AboutRule, InstrumentKind } from "../../server/src/instrument/aboutRule.js";
import { MAKING_RULES, PIPE_RULES, TUBE_RULES, VESSEL_RULES } from "../../server/src/instrument/rules/index.js";
import { RULE_REGISTRY, ruleInWords } from "../../server/src/make/ruleRegistry.js";

const ROOT = join(import.meta.dirname, "../..");
const read = (path: string) => readFileSync(join(ROOT, path), "utf8");
const entries = Object.entries(RULE_REGISTRY) as [keyof typeof RULE_REGISTRY, AboutRule][];
const codes = entries.map(([code]) => code).sort();
const about = (code: string) => RULE_REGISTRY[code as keyof typeof RULE_REGISTRY];

function sources(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) return entry.name === "generated" ? [] : sources(path);
    return entry.name === "aboutRules.ts" ? [] : [readFileSync(path, "utf8")];
  });
}

describe("the registry of rules", () => {
  it("has every code of the sources, and no other", () => {
    const areas = [...new Set(codes.map((code) => code.replace(/\/.*/, "")))].join("|");
    const pattern = new RegExp(`"((?:${areas})/[a-z-]+)"|(?:code|RuleCode)\\b[^"\n]{0,12}"([a-z]+/[a-z-]+)"`, "g");
    const used = sources(join(ROOT, "server/src")).flatMap((text) =>
      [...text.matchAll(pattern)].map((match) => match[1] ?? match[2]),
    );
    expect([...new Set(used)].sort()).toEqual(codes);
  });

  it("has a page for each, headed with the code, and its row in the index", () => {
    const pages = readdirSync(join(ROOT, "docs/rules")).filter((name) => name !== "README.md");
    const headings = pages.map((name) => {
      const code = /^# (.*)/.exec(read(`docs/rules/${name}`))?.[1] ?? "";
      expect(name).toBe(`${code.replace("/", "-")}.md`);
      return code;
    });
    expect(headings.sort()).toEqual(codes);
    const rows = read("docs/rules/README.md").split("\n");
    for (const [code, { title, severity }] of entries)
      expect(
        rows.filter((row) => row.includes(`[${code}](${code.replace("/", "-")}.md) | ${title} | ${severity}`)),
      ).toHaveLength(1);
  });

  it("is what the schema and the setting offer", () => {
    const words = Object.fromEntries(
      entries.flatMap(([code, each]) => (each.canBeSwitched ? [[code, ruleInWords(each)]] : [])),
    );
    const said = (properties: Record<string, { description: string }>) =>
      Object.fromEntries(Object.entries(properties).map(([code, { description }]) => [code, description]));
    expect(said(parse(read("schemas/instrument.schema.json")).properties.rules.properties)).toEqual(words);
    const ofSettings = Object.entries(parse(read("package.nls.json"))).filter(([key]) => key.startsWith("rule."));
    expect(Object.fromEntries(ofSettings.map(([key, word]) => [key.slice("rule.".length), word]))).toEqual(words);
  });

  it("says where each rule is looked for", () => {
    const lists: [InstrumentKind, readonly { code: string }[]][] = [
      ["tube", TUBE_RULES],
      ["panpipe", PIPE_RULES],
      ["vessel", VESSEL_RULES],
    ];
    for (const [kind, rules] of lists)
      for (const { code } of rules) expect(about(code)?.kinds ?? [kind], code).toContain(kind);
    for (const { code } of MAKING_RULES) expect(about(code)?.canBeSwitched, code).toBe(true);
  });

  it("says the severity of each finding: of the examples, and of each with a line left out", () => {
    const seen = new Set<string>();
    for (const name of readdirSync(join(ROOT, "examples")).filter((file) => /\.bore\./.test(file))) {
      const lines = read(`examples/${name}`).split("\n");
      for (let left = 0; left <= lines.length; left++) {
        const text = lines.filter((_, i) => i !== left).join("\n");
        for (const { findings } of readDesign(text, syntaxOf(name)).documents)
          for (const { code, severity } of findings) {
            seen.add(code);
            if (about(code)?.otherwise === undefined) expect(severity, code).toBe(about(code)?.severity);
          }
      }
    }
    expect(seen.size).toBeGreaterThan(10);
  });
});
