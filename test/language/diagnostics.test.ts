/** Findings as the editor gets them. */

import { describe, expect, it } from "vitest";
import { DiagnosticSeverity, DiagnosticTag } from "vscode-languageserver";
import { checkDocument } from "../../server/src/design/check.js";
import { OUT_OF_TUNE } from "../../server/src/design/rules/outOfTune.js";
import { diagnostics, MOST_DIAGNOSTICS, rulePage } from "../../server/src/language/diagnostics.js";
import { INITIAL_SETTINGS } from "../../server/src/language/settings.js";
import { WHISTLE } from "../support/designs.js";
import { designOf, textIn } from "../support/language.js";

function only(code: string, text = WHISTLE, client = {}) {
  const context = designOf(text, { client });
  const found = diagnostics(context).filter((diagnostic) => diagnostic.code === code);
  expect(found).toHaveLength(1);
  const [diagnostic] = found;
  if (diagnostic === undefined) throw new Error("none");
  return { context, diagnostic };
}

describe("diagnostics", () => {
  it("marks the number to change, says what sounds, links the rule and the note", () => {
    const { context, diagnostic } = only(OUT_OF_TUNE);
    expect(textIn(context, diagnostic.range)).toBe("210.3");
    expect(diagnostic.message).toMatch(/^E5 sounds \d+ cents flat\. Move L2/);
    expect(diagnostic.severity).toBe(DiagnosticSeverity.Warning);
    expect(diagnostic.source).toBe("borewright");
    expect(diagnostic.codeDescription?.href).toBe("file:///rules/pitch-out-of-tune.md");
    const [related] = diagnostic.relatedInformation ?? [];
    expect(related?.location.uri).toBe(context.uri);
    expect(related && textIn(context, related.location.range)).toContain("degree: 6");
    expect(diagnostic.data).toMatchObject({ documentIndex: 0, path: ["holes", 1, "at"], data: { hole: 1 } });
  });

  it("grades them as the settings say, and the design before these", () => {
    const severities = (text: string, level: "off" | "error") =>
      diagnostics(designOf(text, { settings: { ...INITIAL_SETTINGS, rules: { [OUT_OF_TUNE]: level } } })).map(
        ({ severity }) => severity,
      );
    expect(severities(WHISTLE, "error")).toEqual([DiagnosticSeverity.Error]);
    expect(severities(WHISTLE, "off")).toEqual([]);
    const own = `${WHISTLE}rules: { ${OUT_OF_TUNE}: information }\n`;
    expect(severities(own, "off")).toEqual([DiagnosticSeverity.Information]);
  });

  it("shows findings of hands and printer with their page and the other hole", () => {
    const text = WHISTLE.replace("holes:", "hands: { reach: 30 }\nholes:");
    const { context, diagnostic } = only("hands/out-of-reach", text.replace("at: 321.4", "at: 318"));
    expect(textIn(context, diagnostic.range)).toBe("210.3");
    expect(diagnostic.codeDescription?.href).toBe("file:///rules/hands-out-of-reach.md");
    const [related] = diagnostic.relatedInformation ?? [];
    expect(related && textIn(context, related.location.range)).toBe("173.3");
  });

  it("leaves out what the client does not know", () => {
    const { diagnostic } = only(OUT_OF_TUNE, WHISTLE, { relatedInformation: false, codeDescription: false });
    expect(diagnostic).not.toHaveProperty("relatedInformation");
    expect(diagnostic).not.toHaveProperty("codeDescription");
    expect(only(OUT_OF_TUNE, WHISTLE, { rulePages: undefined }).diagnostic).not.toHaveProperty("codeDescription");
  });

  it("has the findings of the command line, no more and no fewer", () => {
    for (const text of [WHISTLE, WHISTLE.replace("at: 394.1", "at: =nowhere"), "key: H9\nholes: 3", "a: [", ""]) {
      const context = designOf(text);
      const expected = context.file.documents.flatMap((document) => checkDocument(document).findings);
      expect(
        diagnostics(context)
          .map(({ message }) => message)
          .sort(),
      ).toEqual(expected.map(({ message }) => message).sort());
    }
  });

  it("counts columns in UTF-16 units, so that a sign beyond the basic plane moves nothing", () => {
    const text = WHISTLE.replace("name: L2, at: 210.3", 'name: "🎶🎶", at: 210.3');
    const { context, diagnostic } = only(OUT_OF_TUNE, text);
    expect(textIn(context, diagnostic.range)).toBe("210.3");
    const line = text.split("\n")[diagnostic.range.start.line] ?? "";
    expect(diagnostic.range.start.character).toBe(line.indexOf("210.3"));
  });

  it.each([
    ["CRLF", WHISTLE.replaceAll("\n", "\r\n")],
    ["a byte order mark", `\uFEFF${WHISTLE}`],
  ])("stands at the same places with %s", (_, text) => {
    const places = (design: string) =>
      diagnostics(designOf(design)).map(({ range, message }) => ({ line: range.start.line, message }));
    expect(places(text)).toEqual(places(WHISTLE));
    expect(places(text).length).toBeGreaterThan(0);
  });

  it("says which instrument of several is meant by standing in it", () => {
    const context = designOf(`${WHISTLE.replace("at: 210.3", "at: 205.3")}---\n${WHISTLE}`);
    const [diagnostic] = diagnostics(context).filter(({ code }) => code === OUT_OF_TUNE);
    expect(diagnostic?.range.start.line).toBeGreaterThan(WHISTLE.split("\n").length);
    expect(diagnostic?.data).toMatchObject({ documentIndex: 1 });
  });

  it("shows a great many findings in part and says so", () => {
    const unknown = Array.from({ length: 30 }, (_, i) => `wrong${i}: 1\n`).join("");
    const broken = `borewright: 1\n${unknown}---\n`.repeat(30);
    const found = diagnostics(designOf(broken));
    expect(found).toHaveLength(MOST_DIAGNOSTICS + 1);
    expect(found.at(-1)?.message).toContain(`the first ${MOST_DIAGNOSTICS} are shown`);
  });
});

describe("rulePage", () => {
  it("has one page per rule", () => {
    expect(rulePage("file:///x/", "hole/too-close")).toBe("file:///x/hole-too-close.md");
    expect(rulePage(undefined, "hole/too-close")).toBeUndefined();
  });

  it("fades a parameter that no formula uses, unless a formula is half-typed", () => {
    const text = WHISTLE.replace("wall: 3,", "wall: 3, spare: 1,");
    const { context, diagnostic } = only("parameter/unused", text);
    expect(textIn(context, diagnostic.range)).toBe("spare");
    expect(diagnostic).toMatchObject({ severity: DiagnosticSeverity.Hint, tags: [DiagnosticTag.Unnecessary] });
    expect(diagnostics(designOf(text.replace("=wall", '"=wall + "'))).map(({ code }) => code)).not.toContain(
      "parameter/unused",
    );
  });
});
