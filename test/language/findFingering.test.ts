/** On a fingering: another one for a note that is off, and one for the semitone that is missing. */
import { describe, expect, it } from "vitest";
import type { CodeAction } from "vscode-languageserver";
import { analyse } from "../../server/src/design/predict/analyse.js";
import { codeActions } from "../../server/src/language/codeActions/index.js";
import { documentOf, fileOf, WHISTLE } from "../support/designs.js";
import { applied, atCursor, JSON_URI, marked, titled, YAML_URI } from "../support/language.js";

async function actionsAt(text: string, place: string, uri = YAML_URI): Promise<CodeAction[]> {
  const { context, position } = atCursor(marked(text, place, 2), { uri, client: { resolvesCodeActions: true } });
  return codeActions(context, { range: { start: position, end: position }, context: { diagnostics: [] } });
}

/** Cents of the note in the text. */
function centsOf(text: string, note: string, syntax: "yaml" | "json" = "yaml") {
  const { fingerings } = analyse(documentOf(fileOf(text, syntax)).resolution.instrument);
  return fingerings.find(({ fingering }) => fingering.target?.name === note)?.cents ?? Number.NaN;
}

describe("a note that is out of tune", () => {
  const OFF = WHISTLE.replace("at: 210.3", "at: 214.3");

  it("can be fingered differently, written like the others", async () => {
    const offered = (await actionsAt(OFF, "degree: 6")).filter(({ title }) => title.startsWith("Finger "));
    expect(offered.length).toBeGreaterThan(0);
    const { title, edit } = titled(offered, /^Finger E5 as [●○◐]{6}/);
    const after = applied(OFF, edit);
    expect(after.split("\n").filter((line, i) => line !== OFF.split("\n")[i])).toHaveLength(1);
    expect(after).toContain(/as ([●○◐]{6})/.exec(title)?.[1]);
    const promised = /in tune$/.test(title) ? "0" : (/: ([\d.]+) cents/.exec(title)?.[1] ?? "");
    expect(Math.abs(centsOf(after, "E5"))).toBeCloseTo(Number(promised), promised.includes(".") ? 0 : -1);
    expect(Math.abs(centsOf(after, "E5"))).toBeLessThan(Math.abs(centsOf(OFF, "E5")) / 2);
  });

  it("keeps letters, gaps and quotes", async () => {
    const lettered = OFF.replace("●○○○○○ }", '"xoo ooo" }');
    const { edit } = titled(await actionsAt(lettered, "degree: 6"), /^Finger E5/);
    expect(applied(lettered, edit)).toMatch(/degree: 6, holes: "[xo/]{3} [xo/]{3}"/);
  });

  it("is the only one", async () => {
    expect((await actionsAt(OFF, "degree: 2")).filter(({ title }) => title.startsWith("Finger "))).toEqual([]);
  });
});

describe("a note in a register that does not exist", () => {
  it("is found in one that does", async () => {
    const text = WHISTLE.replace("degree: 6, holes: ●○○○○○", "degree: 6, holes: ●○○○○○, register: 9");
    // What changes beside the holes is said.
    const { edit } = titled(await actionsAt(text, "degree: 6"), /^Finger E5 as [●○◐]{6} in register 1: /);
    expect(Math.abs(centsOf(applied(text, edit), "E5"))).toBeLessThan(25);
  });
});

describe("a semitone that is missing", () => {
  it("is added behind, by degree", async () => {
    const { title, edit } = titled(await actionsAt(WHISTLE, "degree: 6"), /^Add a fingering for F5 as /);
    const after = applied(WHISTLE, edit);
    expect(after).toMatch(/degree: 6, holes: .*\n {2}- \{ degree: b7, holes: [●○◐]{6} \}\n/);
    expect(title).toContain(/as ([●○◐]{6})/.exec(title)?.[1]);
    expect(after.replace(/.*b7.*\n/, "")).toBe(WHISTLE);
    expect(Math.abs(centsOf(after, "F5"))).toBeLessThan(25);
    expect((await actionsAt(after, "degree: 6")).filter(({ title: other }) => other.includes("for F5"))).toEqual([]);
  });

  it("is added in JSON, too", async () => {
    const text = JSON.stringify(
      {
        borewright: 1,
        family: "duct",
        key: "G4",
        mouth: { window: { width: 9, cutUp: 4.3 } },
        wall: 3,
        bore: [
          { at: 0, diameter: 16 },
          { at: 394, diameter: 16 },
        ],
        holes: [
          { at: 173, diameter: 7 },
          { at: 205, diameter: 8.5 },
          { at: 230, diameter: 7 },
        ],
        fingerings: [
          { note: "E5", holes: "xoo" },
          { note: "G5", holes: "ooo" },
        ],
      },
      null,
      2,
    );
    const { edit } = titled(await actionsAt(text, '"note": "E5"', JSON_URI), /^Add a fingering for F5/);
    const after = JSON.parse(applied(text, edit, JSON_URI));
    expect(after.fingerings.map(({ note }: { note: string }) => note)).toEqual(["E5", "F5", "G5"]);
  });

  it("is not offered above the highest note", async () => {
    const actions = await actionsAt(WHISTLE, WHISTLE.includes("degree: 8") ? "degree: 8" : "degree: 7");
    expect(actions.filter(({ title }) => title.startsWith("Add a fingering for G5"))).toEqual([]);
  });
});
