/** The deviations beside fingerings and holes, and the line above each instrument. */
import { describe, expect, it } from "vitest";
import { codeLenses } from "../../server/src/language/codeLens.js";
import { inlayHints } from "../../server/src/language/inlayHints.js";
import { INITIAL_SETTINGS } from "../../server/src/language/settings.js";
import { WHISTLE } from "../support/designs.js";
import { designOf, type Given, hintText } from "../support/language.js";

/** Each hint as `text of the line before it → label`. */
function hints(text: string, given: Given = {}) {
  const context = designOf(text, given);
  return inlayHints(context).map((hint) => {
    const line = context.file.text.split(/\r?\n/)[hint.position.line] ?? "";
    return { before: line.slice(0, hint.position.character).trim(), label: hintText(hint) };
  });
}

describe("inlay hints", () => {
  it("stand after each fingering, with the word where it is out of tune and a sign where it is not", () => {
    const fingerings = hints(WHISTLE).filter(({ before }) => before.includes("holes:"));
    expect(fingerings).toHaveLength(7);
    for (const { before } of fingerings) expect(before).toMatch(/\}$/);
    expect(fingerings[1]?.label).toMatch(/^A4 [+−]?\d+\.\d cents ✓$/);
    expect(fingerings[5]?.label).toMatch(/^E5 −\d+\.\d cents, flat$/);
  });

  it("stand after each hole that governs a note, with the worst", () => {
    const holes = hints(WHISTLE).filter(({ before }) => before.includes("name:"));
    expect(holes.map(({ before }) => /name: (\w+)/.exec(before)?.[1])).toEqual(["L2", "L3", "R1", "R2", "R3"]);
    expect(holes[0]?.label).toMatch(/^worst −\d+\.\d cents \(E5\), flat$/);
  });

  it("stand before the comment of a block-style entry, not on the line below", () => {
    const text = WHISTLE.replace("  - { degree: 2, holes: ●●●●●○ }", "  - degree: 2\n    holes: ●●●●●○   # forked?\n");
    expect(hints(text).map(({ before }) => before)).toContain("holes: ●●●●●○");
  });

  it("can be switched off one by one", () => {
    const settings = (fingerings: boolean, holes: boolean) => ({
      ...INITIAL_SETTINGS,
      inlayHints: { fingerings, holes },
    });
    expect(hints(WHISTLE, { settings: settings(true, false) })).toHaveLength(7);
    expect(hints(WHISTLE, { settings: settings(false, true) })).toHaveLength(5);
    expect(hints(WHISTLE, { settings: settings(false, false) })).toEqual([]);
  });

  it("are given for the lines in sight only", () => {
    const context = designOf(WHISTLE);
    const all = inlayHints(context);
    const line = all[0]?.position.line ?? 0;
    const range = { start: { line, character: 0 }, end: { line: line + 1, character: 0 } };
    expect(inlayHints(context, range)).toEqual(all.filter(({ position }) => position.line === line));
  });

  it("show the hertz on hover", () => {
    const tooltips = inlayHints(designOf(WHISTLE)).map(({ tooltip }) => String(tooltip));
    expect(tooltips[1]).toMatch(/^A4 should sound 440\.0 Hz; predicted \d+\.\d Hz/); // ISO 16
    expect(tooltips.join("\n")).toContain("L2 is the first open hole of 1 fingering: E5");
  });

  it("do not exist where nothing can be predicted", () => {
    expect(hints(WHISTLE.replace("at: 394.1", "at: =nowhere"))).toEqual([]);
  });
});

describe("code lenses", () => {
  const titles = (text: string, given: Given = {}) =>
    codeLenses(designOf(text, given)).map(({ command }) => command?.title);

  it("sum the instrument up and offer to rekey it", () => {
    const [summary, rekey] = titles(WHISTLE);
    expect(summary).toMatch(/^G4 duct · 7 fingerings · worst \d+ cents flat \(E5\) · 1 out of tune · 22 °C$/);
    expect(rekey).toBe("Rekey to…");
  });

  it("name the instrument to the command, and echo the client's own URI", () => {
    const uri = "file:///c%3A/My%20Flutes/two.bore.yaml";
    const lenses = codeLenses(designOf(`${WHISTLE}---\n${WHISTLE}`, { uri }));
    const rekeys = lenses.filter(({ command }) => command?.command === "borewright.rekeyTo");
    expect(rekeys.map(({ command }) => command?.arguments)).toEqual([
      [{ uri, documentIndex: 0 }],
      [{ uri, documentIndex: 1 }],
    ]);
    const lines = `${WHISTLE}---\n${WHISTLE}`.split("\n");
    expect(rekeys.map(({ range }) => range.start.line)).toEqual([
      lines.indexOf("borewright: 1"),
      lines.lastIndexOf("borewright: 1"),
    ]);
  });

  it("offer nothing that the client cannot carry out", () => {
    expect(titles(WHISTLE, { client: { commands: new Set() } })).toHaveLength(1);
  });

  it("say what is missing", () => {
    expect(titles("borewright: 1\nwall: 3\n")[0]).toContain("no fingerings yet");
    expect(titles("borewright: 1\nkey: G4\n")[0]).toContain("not enough to predict from");
    expect(titles("borewright: 1\nfingerings: [{ degree: 1, holes: '' }]\n")[0]).toContain(
      "not enough to predict from",
    );
    expect(titles("")).toEqual([]);
  });

  it("can be switched off", () => {
    expect(titles(WHISTLE, { settings: { ...INITIAL_SETTINGS, codeLens: { enabled: false } } })).toEqual([]);
  });
});

it("offers a new instrument above an empty file, to a client that can begin one", () => {
  const commands = new Set(["borewright.newInstrument"]);
  const above = (text: string, more = {}) => codeLenses(designOf(text, more)).map(({ command }) => command?.command);
  expect(above("\n", { client: { commands } })).toEqual(["borewright.newInstrument"]);
  expect(above("")).toEqual([]);
});
