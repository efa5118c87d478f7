/** Fixes for findings that know what was meant. */
import { describe, expect, it } from "vitest";
import { codeActions } from "../../server/src/language/codeActions/index.js";
import { WHISTLE } from "../support/designs.js";
import { applied, atCursor, JSON_URI, marked, YAML_URI } from "../support/language.js";

async function corrected(text: string, place: string, uri = YAML_URI, after = 1): Promise<string> {
  const { context, position } = atCursor(marked(text, place, after), { uri });
  const range = { start: position, end: position };
  const [action] = await codeActions(context, { range, context: { diagnostics: [] } }, { kinds: ["corrections"] });
  if (action === undefined) throw new Error("nothing offered");
  return applied(text, action.edit, uri);
}

describe("a correction", () => {
  it.each([
    ["a property misspelt", "family: duct", "fmaily: duct"],
    ["a word misspelt", "temperament: equal", "temperament: eqal"],
    ["another name of a family", "family: duct", "family: whistle"],
    ["a name in a formula misspelt", "wall: =wall", "wall: =wal"],
    ["a finding's name misspelt", "rules: { print/wall-lines: off }", "rules: { print/wal-lines: off }"],
    ["a number in quotes", "tolerance: 10", 'tolerance: "10"'],
    ["a decimal comma", "air: { temperature: 22.5 }", 'air: { temperature: "22,5" }'],
    ["a note without its octave", "key: G4", "key: G"],
    ["a note named as in German", "key: B4", "key: H"],
  ])("of %s writes what was meant, and nothing else", async (_, right, wrong) => {
    const [property = ""] = right.split(":");
    const line = new RegExp(`^${property}:.*$`, "m");
    const given = (text: string) => (line.test(WHISTLE) ? WHISTLE.replace(line, text) : `${WHISTLE}${text}\n`);
    const after = wrong.includes("off") ? 12 : wrong.startsWith("fm") ? 1 : wrong.search(/: [^{]/) + 3;
    expect(await corrected(given(wrong), wrong, YAML_URI, after)).toBe(given(right));
  });

  it("adds the format's version above the rest, in JSON too", async () => {
    expect(await corrected(WHISTLE.replace("borewright: 1\n", ""), "name:")).toContain("borewright: 1\nname:");
    const json = '{\n  "family": "duct"\n}\n';
    expect(await corrected(json, "family", JSON_URI)).toBe('{\n  "borewright": 1,\n  "family": "duct"\n}\n');
  });

  it("leaves a byte order mark at the beginning alone", async () => {
    const given = WHISTLE.replace(/^.*\nborewright: 1\n/, "\uFEFF");
    expect(await corrected(given, "name:")).toBe(given.replace("\uFEFF", "\uFEFFborewright: 1\n"));
  });

  it("writes a factor of print as a percentage", async () => {
    const factor = `${WHISTLE}print: { scale: 1.06 }\n`;
    expect(await corrected(factor, "1.06")).toBe(factor.replace("1.06", "106"));
  });

  it("gives the second hole of a name its own, and takes a side out beside an angle", async () => {
    const twice = WHISTLE.replace("name: L2", "name: L1");
    const second = twice.replace("name: L1", "name: _1");
    const { context } = atCursor(marked(twice, "borewright"));
    const at = context.text.positionAt(second.indexOf("name: L1") + 7);
    const [action] = await codeActions(
      context,
      { range: { start: at, end: at }, context: { diagnostics: [] } },
      { kinds: ["corrections"] },
    );
    expect(applied(twice, action?.edit)).toContain("name: L12");
    const sided = WHISTLE.replace("name: L1,", "name: L1, side: front, angle: 10,");
    expect(await corrected(sided, "side")).toBe(sided.replace("side: front, ", ""));
  });
});
