/** Findings switched off or graded otherwise, by the design's `rules` and by settings. */

import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { checkDocument } from "../../../server/src/design/check.js";
import { sharedColumn } from "../../../server/src/instrument/body.js";
import { RULE_LEVELS, type RuleLevels, SWITCHABLE_RULES } from "../../../server/src/instrument/ruleLevels.js";
import { checked, fileOf, WHISTLE } from "../../support/designs.js";
import { codesOf, expectFinding, expectNothing, instrumentOf, tube } from "../../support/marked.js";

const OUT = "pitch/out-of-tune";
const read = (path: string) => readFileSync(new URL(`../../../${path}`, import.meta.url), "utf8");
const severities = (text: string, rules: RuleLevels = {}) =>
  checked(text, "yaml", { tolerance: 10, temperature: 22, rules }).findings.map(({ code, severity }) => [
    code,
    severity,
  ]);
const saying = (level: string, code = OUT) => `${WHISTLE}rules: { ${code}: ${level} }\n`;

describe("rules in the design", () => {
  it("leave a finding at its default where they do not name it", () => {
    expect(severities(WHISTLE)).toEqual([[OUT, "warning"]]);
    expect(severities(saying("off", "response/weak-note"))).toEqual([[OUT, "warning"]]);
    expect(severities(`${WHISTLE}rules: {}\n`)).toEqual([[OUT, "warning"]]);
  });
  it("switch a finding off", () => expect(severities(saying("off"))).toEqual([]));
  it.each(["information", "warning", "error"])("make it an %s", (level) => {
    expect(severities(saying(level))).toEqual([[OUT, level]]);
  });
  it("mean the same in JSON, where the word is in quotes", () => {
    const json = JSON.stringify({ borewright: 1, key: "G4", rules: { "hole/duplicate-name": "off" } });
    expect(codesOf(json, "json")).not.toContain("rules/unknown-rule");
  });
  it("reach findings of the drawing, too", () => {
    const twice = `${WHISTLE.replace("name: L2", "name: L1")}rules: { hole/duplicate-name: error, ${OUT}: off }\n`;
    expect(severities(twice)).toEqual([["hole/duplicate-name", "error"]]);
    // Graded up it is still an instrument: only the findings look different.
    expect(sharedColumn(instrumentOf(twice).body)).toBeDefined();
  });
  it("count for their own instrument of a file only", () => {
    const { documents } = fileOf(`${saying("off")}---\n${WHISTLE}`);
    const codes = documents.map((document) => checkDocument(document).findings.map(({ code }) => code));
    expect(codes).toEqual([[], [OUT]]);
  });
});

describe("rules in the settings", () => {
  it("count where the design is silent", () => {
    expect(severities(WHISTLE, { [OUT]: "off" })).toEqual([]);
    expect(severities(WHISTLE, { [OUT]: "error" })).toEqual([[OUT, "error"]]);
  });
  it("yield to the design", () => {
    expect(severities(saying("information"), { [OUT]: "off" })).toEqual([[OUT, "information"]]);
    expect(severities(saying("off"), { [OUT]: "error" })).toEqual([]);
  });
});

describe("rules/unknown-rule", () => {
  it("marks a name that is not a finding, and suggests the one meant", () => {
    expectFinding(
      tube("rules: { [[pitch/out-of-tun]]: off }"),
      "rules/unknown-rule",
      /no finding called `pitch\/out-of-tun`\. Did you mean `pitch\/out-of-tune`\?$/,
    );
  });
  it.each(["file/syntax", "bore/backwards", "design/incomplete", "rules/unknown-rule"])(
    "says that %s cannot be switched",
    (code) => expectFinding(tube(`rules: { [[${code}]]: off }`), "rules/unknown-rule", /always stay\.$/),
  );
  it("keeps such a finding where it is", () => {
    const codes = codesOf(tube("bore: [{ at: 0, diameter: 16 }]\nrules: { bore/too-few-stations: off }"));
    expect(codes).toContain("bore/too-few-stations");
  });
  it("leaves an unknown level to the schema", () => {
    expectFinding(tube("rules: { pitch/out-of-tune: [[none]] }"), "schema/unknown-word", "`off`");
    expectFinding(tube("rules: [[quiet]]"), "schema/wrong-kind");
  });
  it("is silent for every code that can be switched", () => {
    for (const code of SWITCHABLE_RULES) expectNothing(tube(`rules: { ${code}: off }`));
  });
});

describe("the codes that can be switched", () => {
  it("each have a page", () => {
    const pages = readdirSync(new URL("../../../docs/rules", import.meta.url));
    for (const code of SWITCHABLE_RULES) expect(pages).toContain(`${code.replace("/", "-")}.md`);
  });
  it("are those of the setting, with the same levels and words", () => {
    const { properties } = JSON.parse(read("package.json")).contributes.configuration;
    const schema = JSON.parse(read("schemas/instrument.schema.json")).properties.rules.properties;
    const words = JSON.parse(read("package.nls.json"));
    const ofSetting = properties["borewright.rules"].properties;
    expect(Object.keys(ofSetting)).toEqual(SWITCHABLE_RULES);
    for (const code of SWITCHABLE_RULES) {
      expect(schema[code].enum).toEqual([...RULE_LEVELS]);
      expect(ofSetting[code]).toEqual({
        type: "string",
        enum: [...RULE_LEVELS],
        description: `%rule.${code}%`,
      });
      expect(words[`rule.${code}`]).toBe(schema[code].description);
    }
  });
});
