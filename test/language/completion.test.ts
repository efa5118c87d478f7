/** Suggestions while typing: which, with what documentation, and what stands in the file once one is taken. */

import { describe, expect, it } from "vitest";
import { type CompletionItem, InsertTextFormat, InsertTextMode, type TextEdit } from "vscode-languageserver";
import { TextDocument } from "vscode-languageserver-textdocument";
import { checkDocument } from "../../server/src/design/check.js";
import { readDesign } from "../../server/src/document/read.js";
import { completion } from "../../server/src/language/completion/index.js";
import { STARTERS, yamlText } from "../../server/src/language/completion/starters.js";
import { WHISTLE } from "../support/designs.js";
import { atCursor, type Given, JSON_URI } from "../support/language.js";

function items(text: string, given: Given = {}): readonly CompletionItem[] {
  const { context, position } = atCursor(text, given);
  return completion(context, position);
}

const labels = (text: string, given: Given = {}) => items(text, given).map(({ label }) => label);

/** The text once the suggestion is taken and every tab stop left as it is. */
function taken(marked: string, label: string, given: Given = {}): string {
  const { context, position } = atCursor(marked, given);
  const item = completion(context, position).find((other) => other.label === label);
  if (item === undefined)
    throw new Error(`no ${label} among ${completion(context, position).map((other) => other.label)}`);
  const edit = item.textEdit as TextEdit;
  const newText = item.insertTextFormat === InsertTextFormat.Snippet ? withoutTabStops(edit.newText) : edit.newText;
  return TextDocument.applyEdits(context.text, [{ range: edit.range, newText }]);
}

function withoutTabStops(snippet: string): string {
  return snippet
    .replace(/\$\{\d+\|((?:\\.|[^\\|,])*)(?:\\.|[^|])*\|\}/g, "$1")
    .replace(/\$\{\d+:((?:\\.|[^\\}])*)\}/g, "$1")
    .replace(/\$\d/g, "")
    .replace(/\\([\\$},|])/g, "$1");
}

const json = (text: string) => ({ text, given: { uri: JSON_URI } });

describe("names", () => {
  it("are those the map does not have yet, above or below the cursor", () => {
    const offered = labels("borewright: 1\nfamily: duct\n|\nkey: G4\n");
    expect(offered).toContain("mouth");
    for (const present of ["borewright", "family", "key"]) expect(offered).not.toContain(present);
  });

  it("come with documentation and unit", () => {
    const wall = items("borewright: 1\n|").find(({ label }) => label === "wall");
    expect(wall?.documentation).toMatchObject({ value: expect.stringContaining("to the outer surface") });
    expect(wall?.detail).toBe("mm");
    expect(items("units: in\n|").find(({ label }) => label === "wall")?.detail).toBe("in");
    // Whatever is meant by a unit that is not known, it is neither.
    expect(items("units: cm\n|").find(({ label }) => label === "wall")?.detail).toBeUndefined();
    expect(items("units: cm\nwall: |").find(({ label }) => label === "3.2")?.detail).toBeUndefined();
    expect(items("units: cm\nwall: |\nair: { temperature: 22 }").length).toBeGreaterThan(0);
  });

  it("suit the family", () => {
    expect(labels("family: duct\nmouth:\n  |")).toEqual(expect.arrayContaining(["window"]));
    expect(labels("family: duct\nmouth:\n  |")).not.toContain("stopper");
    expect(labels("family: transverse\nmouth:\n  |")).toEqual(expect.arrayContaining(["hole", "stopper", "cover"]));
    expect(labels("family: duct\n|")).not.toContain("pipes");
  });

  it("are the codes of findings under `rules`, those of other families left out", () => {
    const offered = labels("family: duct\nrules:\n  |");
    expect(offered).toEqual(expect.arrayContaining(["hands/out-of-reach", "print/wall-lines", "pitch/out-of-tune"]));
    for (const other of ["pipe/no-note", "vessel/shape-assumed", "file/syntax"]) expect(offered).not.toContain(other);
    expect(labels("family: panpipe\nrules: { | }")).toContain("pipe/no-note");
    // In quotes: YAML 1.1, which other programs still read, takes the bare word for false.
    expect(taken("rules:\n  |", "print/wall-lines")).toBe('rules:\n  print/wall-lines: "off"');
  });

  it.each([
    ["a map of its own lines", "print:\n  |\n", "nozzle", "print:\n  nozzle: 0.4\n"],
    [
      "the next line of an item",
      "holes:\n  - name: T\n    |\n",
      "diameter",
      "holes:\n  - name: T\n    diameter: 6.5\n",
    ],
    ["right after the dash", "holes:\n  - |\n", "diameter", "holes:\n  - diameter: 6.5\n"],
    ["an unindented list", "holes:\n- name: T\n  |\n", "diameter", "holes:\n- name: T\n  diameter: 6.5\n"],
    ["braces", "holes:\n  - { name: T, | }\n", "diameter", "holes:\n  - { name: T, diameter: 6.5 }\n"],
    ["braces, before others", "holes:\n  - { | at: 3 }\n", "diameter", "holes:\n  - { diameter: 6.5, at: 3 }\n"],
    ["a half-typed name", "borewright: 1\nfam|\n", "foot", "borewright: 1\nfoot: open\n"],
    ["a name that has its colon", "borewright: 1\nfo|: open\n", "foot", "borewright: 1\nfoot: open\n"],
    [
      "a list on further lines",
      "family: duct\n|",
      "holes",
      "family: duct\nholes:\n  - { name: L1, at: 170, diameter: 6.5 }",
    ],
    ["a map of maps", "family: duct\nmouth|", "mouth", "family: duct\nmouth:\n  window: { width: 9, cutUp: 4.5 }"],
    [
      "braces over several lines",
      "air: {\n  temperature: 22,\n  |\n}\n",
      "humidity",
      "air: {\n  temperature: 22,\n  humidity: 50\n}\n",
    ],
    ["after a map on one line", "air: { temperature: 22 }\n|", "wall", "air: { temperature: 22 }\nwall: 3.2"],
    ["the second document", "key: G4\n---\n|", "key", "key: G4\n---\nkey: G4"],
    ["CRLF", "print:\r\n  |\r\n", "nozzle", "print:\r\n  nozzle: 0.4\r\n"],
    [
      "behind a comment and a blank line",
      "print:\n  # the printer\n\n  |\n",
      "nozzle",
      "print:\n  # the printer\n\n  nozzle: 0.4\n",
    ],
  ])("are put where they belong: %s", (_, text, label, expected) => expect(taken(text, label)).toBe(expected));

  it("fingerings start with every hole closed", () => {
    const text = "holes:\n  - { at: 1 }\n  - { at: 2 }\n|";
    expect(taken(text, "fingerings")).toContain("\n  - { degree: 1, holes: ●● }");
  });

  it("are indented by the text itself, not by the editor", () => {
    const holes = items("family: duct\n|").find(({ label }) => label === "holes");
    expect(holes?.insertTextMode).toBe(InsertTextMode.asIs);
    const single = items("family: duct\n|", { client: { keepsIndentation: false } }).find(
      ({ label }) => label === "holes",
    );
    expect(single?.textEdit).toMatchObject({ newText: expect.not.stringContaining("\n") });
  });

  it("are without tab stops where the client has none", () => {
    const bare = items("borewright: 1\n|", { client: { snippets: false } });
    for (const { insertTextFormat, textEdit } of bare) {
      expect(insertTextFormat).toBe(InsertTextFormat.PlainText);
      expect((textEdit as TextEdit).newText).not.toMatch(/\$\{?\d/);
    }
  });

  it.each([
    ["a comment", "borewright: 1 # see |"],
    ["a comment of its own", "# see |\nkey: G4\n"],
    ["below a value on one line", "wall: 3\n  |\n"],
    ["a literal text", "remark: >\n  some |\n"],
    ["behind a map's brace", "air: { temperature: 22 } |"],
    ["behind a quoted value", 'name: "x" |'],
  ])("are none in %s", (_, text) => expect(labels(text)).toEqual([]));
});

describe("names in JSON", () => {
  it.each([
    ["an empty map", '{ "print": { | } }', '{ "print": { "nozzle": 0.4 } }'],
    ["an open quote", '{ "print": { "no| } }', '{ "print": { "nozzle": 0.4 } }'],
    ["closed quotes", '{ "print": { "no|" } }', '{ "print": { "nozzle": 0.4 } }'],
    ["before another", '{ "print": { |\n "scale": 1 } }', '{ "print": { "nozzle": 0.4,\n "scale": 1 } }'],
    ["after another", '{ "print": { "scale": 1, | } }', '{ "print": { "scale": 1, "nozzle": 0.4 } }'],
    ["a name with its colon", '{ "print": { "no|": 0.6 } }', '{ "print": { "nozzle": 0.6 } }'],
  ])("have quotes and commas as needed: %s", (_, marked, expected) => {
    const { text, given } = json(marked);
    expect(taken(text, "nozzle", given)).toBe(expected);
  });

  it("match what is typed with its quote", () => {
    const { text, given } = json('{ "print": { "no| } }');
    const nozzle = items(text, given).find(({ label }) => label === "nozzle");
    expect(nozzle?.filterText).toBe('"nozzle"');
  });

  it("write whole structures on one line, each value quoted as JSON has it", () => {
    const { text, given } = json('{ "family": "duct", | }');
    const result = taken(text, "holes", given);
    expect(JSON.parse(result)).toEqual({ family: "duct", holes: [{ name: "L1", at: 170, diameter: 6.5 }] });
  });

  it("are not offered where an entry has just ended", () => {
    expect(labels('{ "wall": 3 | }', { uri: JSON_URI })).toEqual([]);
    expect(labels('{ "wall": 3 } |', { uri: JSON_URI })).toEqual([]);
  });
});

describe("values", () => {
  it.each([
    ["family: |", ["duct", "transverse", "rim"]],
    ["foot: |", ["open", "stopped"]],
    ["holes:\n  - { side: | }", ["front", "back"]],
    ["temperament: |", ["equal", "meantone"]],
    ["key: |", ["G4", "Bb3", "D5"]],
    ["air:\n  losses: |", ["true", "false"]],
    ["mouth: |", ["ideal"]],
    ["units: |", ["mm", "in"]],
    ["rules:\n  print/wall-lines: |", ["off", "information", "warning", "error"]],
    ['rules: { "hands/out-of-reach": | }', ["off", "error"]],
  ])("%s", (text, expected) => expect(labels(text)).toEqual(expect.arrayContaining(expected)));

  it("follow a colon that has no blank yet", () => {
    expect(taken("family:|", "duct")).toBe("family: duct");
  });

  it("replace what is typed", () => {
    expect(taken("family: du|\n", "duct")).toBe("family: duct\n");
    expect(taken('{ "family": "tr|" }', "transverse", { uri: JSON_URI })).toBe('{ "family": "transverse" }');
    expect(taken('{ "family": |\n "wall": 3 }', "rim", { uri: JSON_URI })).toBe('{ "family": "rim",\n "wall": 3 }');
  });

  it("are fingering patterns of the right length", () => {
    const text = "holes:\n  - { at: 1 }\n  - { at: 2 }\n  - { at: 3 }\nfingerings:\n  - { degree: 1, holes: | }\n";
    expect(labels(text)).toEqual(["●●●", "●●○", "●○○", "○○○"]);
    expect(taken(text, "●●○")).toContain("{ degree: 1, holes: ●●○ }");
  });

  it("are numbers with their unit, and the design's own parameters with their value", () => {
    const offered = items("parameters: { wall: 3.2 }\nwall: |");
    expect(offered.find(({ label }) => label === "3.2")?.detail).toBe("mm");
    expect(offered.find(({ label }) => label === "=wall")?.detail).toBe("3.2");
    expect(labels("parameters:\n  a: 1\n  b: |\n")).toContain("=a");
    expect(labels("parameters:\n  a: 1\n  b: |\n")).not.toContain("=b");
  });

  it("begin another item at the dash's column", () => {
    const text = "bore:\n  - { at: 0, diameter: 16 }\n  |";
    const [first] = labels(text);
    expect(first).toMatch(/^- \{/);
    expect(taken(text, first ?? "")).toBe("bore:\n  - { at: 0, diameter: 16 }\n  - { at: 0, diameter: 16 }");
  });
});

describe("inside an expression", () => {
  const design = "parameters: { spread: 21 }\nholes:\n  - { name: L1, at: 170, diameter: 8 }\n";

  it("the names there are, with their values, and the functions", () => {
    const offered = items(`${design}  - { at: =L1.at + s|, diameter: 8 }\n`);
    expect(offered.map(({ label }) => label)).toEqual(
      expect.arrayContaining(["spread", "L1.at", "L1.diameter", "min", "sqrt"]),
    );
    expect(offered.find(({ label }) => label === "L1.at")?.detail).toBe("170");
  });

  it("replace the word at the cursor only", () => {
    expect(taken(`${design}  - { at: =L1.at + s|, diameter: 8 }\n`, "spread")).toContain(
      "at: =L1.at + spread, diameter",
    );
    expect(taken(`${design}wall: =L1.|\n`, "L1.at")).toContain("wall: =L1.at\n");
    expect(taken('{ "parameters": { "a": 1 }, "wall": "=2*|" }', "a", { uri: JSON_URI })).toContain('"wall": "=2*a"');
  });
});

describe("an empty file", () => {
  it("is offered a whole design for each family", () => {
    for (const text of ["|", "# mine\n|"]) {
      expect(labels(text).filter((label) => label.startsWith("New "))).toHaveLength(STARTERS.length);
    }
    expect(labels("key: G4\n|").filter((label) => label.startsWith("New "))).toEqual([]);
  });

  it.each(STARTERS.map(({ label }) => label))("%s: has no fault and is in tune as it stands", (name) => {
    for (const text of [
      taken("|", `New ${name}`),
      taken("|", `New ${name}`, { uri: JSON_URI }),
      taken("{|}", `New ${name}`, { uri: JSON_URI }),
    ]) {
      const [document] = readDesign(text, text.startsWith("{") ? "json" : "yaml").documents;
      if (document === undefined) throw new Error("not read");
      const { findings, analysis } = checkDocument(document);
      expect(findings.filter(({ severity }) => severity === "error" || severity === "warning")).toEqual([]);
      expect(analysis.summary?.count).toBeGreaterThan(5);
    }
  });

  it("is for every family, with stops at its name, its key and its size", () => {
    const families = STARTERS.map(({ design }) => design.family);
    expect([...new Set(families)].sort()).toEqual(["duct", "panpipe", "rim", "transverse", "vessel"]);
    for (const given of [{}, { uri: JSON_URI }])
      for (const { textEdit, insertTextFormat } of items("|", given).filter(({ label }) => label.startsWith("New "))) {
        expect(insertTextFormat).toBe(InsertTextFormat.Snippet);
        const stops = [...(textEdit as TextEdit).newText.matchAll(/\$\{(\d):([^}]+)\}/g)].map(([, number]) =>
          Number(number),
        );
        expect(stops.slice(0, 3)).toEqual([1, 2, 3]);
      }
    const plain = items("|", { client: { snippets: false } }).find(({ label }) => label.startsWith("New "));
    expect((plain?.textEdit as TextEdit | undefined)?.newText).toContain("name: My whistle\n");
  });

  it("has the same design in YAML and JSON", () => {
    for (const { label, design } of STARTERS) {
      expect(taken("|", `New ${label}`)).toBe(yamlText(design));
      expect(JSON.parse(taken("|", `New ${label}`, { uri: JSON_URI }))).toEqual(design);
    }
  });
});

describe("what is offered whole", () => {
  it("for `limits` holds the present value between its ends, in the design's own unit", () => {
    const hole = (limits: string) => `holes:\n  - { at: 210.3, diameter: 8.5, ${limits} }\n`;
    expect(taken(hole("|"), "limits")).toBe(hole("limits: { at: [204, 216.6], diameter: [7.2, 9.8] }"));
    expect(labels(hole("limits: { at: | }"))).toEqual(["[204, 216.6]"]);
    expect(taken("units: in\nbore:\n  - { at: 0, diameter: 0.63, | }\n", "limits")).toContain(
      "limits: { at: [-0.01, 0.01], diameter: [0.535, 0.725] }",
    );
    expect(labels("bore:\n  - { at: -18, diameter: 19, limits: { at: | } }")).toEqual(["[-19, -17]"]);
  });

  it("has a sign for each of the design's holes", () => {
    const text = "holes:\n  - { at: 1 }\n  - { at: 2 }\n  - { at: 3 }\n  - { at: 4 }\n";
    const [entry] = labels(`${text}fingerings:\n  |`).filter((label) => label.includes("holes:"));
    expect(entry).toMatch(/holes: ●●●● /);
    expect(taken(`${text}measured:\n  - { note: G4, | }\n`, "holes")).toContain("{ note: G4, holes: ●●●● }");
  });
});

describe("everywhere in a real design", () => {
  it("never throws and replaces only text around the cursor", () => {
    for (let offset = 0; offset <= WHISTLE.length; offset += 3) {
      const { context, position } = atCursor(`${WHISTLE.slice(0, offset)}|${WHISTLE.slice(offset)}`);
      for (const { textEdit } of completion(context, position)) {
        const { range } = textEdit as TextEdit;
        expect(context.text.offsetAt(range.start)).toBeLessThanOrEqual(offset);
        expect(context.text.offsetAt(range.end)).toBeGreaterThanOrEqual(offset);
        expect(range.start.line).toBe(position.line);
      }
    }
  });
});

describe("fingering systems", () => {
  const six = WHISTLE.slice(0, WHISTLE.indexOf("fingerings:"));
  const SYSTEM = "six holes, diatonic, two registers";

  it.each([
    ["after its name", `${six}fingerings: |\n`, SYSTEM],
    ["on a line of its own", `${six}fingerings:\n  |\n`, `- ${SYSTEM}`],
    ["after an entry", `${six}fingerings:\n  - { degree: 1, holes: ●●●●●● }\n  |\n`, `- ${SYSTEM}`],
  ])("come whole %s, and are read", (_, text, label) => {
    const [document] = readDesign(taken(text, label), "yaml").documents;
    const { fingerings } = document?.resolution.instrument ?? { fingerings: [] };
    expect(
      fingerings.filter(({ covers, target }) => covers !== undefined && target !== undefined).length,
    ).toBeGreaterThan(13);
    expect(document?.findings.filter(({ severity }) => severity === "error")).toEqual([]);
  });

  it("come in JSON, too", () => {
    const text = `{ "borewright": 1, "key": "G4", "holes": [${'{ "at": 1 },'.repeat(5)}{ "at": 1 }], "fingerings": [|] }`;
    const [document] = readDesign(taken(text, SYSTEM, { uri: JSON_URI }), "json").documents;
    expect(document?.resolution.instrument.fingerings).toHaveLength(14);
  });

  it("are those with as many holes, and only for the whole list", () => {
    const four = `family: vessel\nkey: C5\nholes: [{}, {}, {}, {}]\nfingerings:\n  |\n`;
    expect(labels(four).filter((each) => each.includes("cross-fingered"))).toHaveLength(1);
    expect(labels(four)).not.toContain(`- ${SYSTEM}`);
    expect(labels(`${six}fingerings:\n  - { | }\n`).filter((each) => each.includes("registers"))).toEqual([]);
  });
});

it("starters have tab stops on name, key and bore, and all stations of one width follow", () => {
  const starter = items("|").find(({ label }) => label === "New duct flute (whistle)");
  const { newText: text } = (starter as CompletionItem).textEdit as TextEdit;
  expect(text).toMatch(/^name: \$\{1:My whistle\}\nfamily: duct\nkey: \$\{2:G4\}$/m);
  expect(text.match(/diameter: \$\{3:16\}/g)).toHaveLength(2);
});
