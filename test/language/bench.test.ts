/** The bench in the editor: the order of work as comments above the measured notes, its first step written as done, and the design drawn flat. */
import { describe, expect, it } from "vitest";
import { drawnFlatForBench } from "../../server/src/design/bench/drawFlat.js";
import { codeActions } from "../../server/src/language/codeActions/index.js";
import { fileOf, WHISTLE } from "../support/designs.js";
import { applied, atCursor, chosen, JSON_URI, marked } from "../support/language.js";

const MEASURED = `${WHISTLE.replace("at: 210.3", "at: 205.3")}# what came out of the printer
measured:
  - { note: G4, cents: -4, temperature: 22, uncertainty: 2 }
  - { note: A4, cents: -22, temperature: 22, uncertainty: 2 }
  - { note: D5, cents: -20, temperature: 22, uncertainty: 2 }
`;

const ONLY = ["refactor.rewrite"];
/** The text after an action on its measured notes. */
const after = async (text: string, title: RegExp) =>
  applied(text, (await chosen(atCursor(marked(text, "measured", 2)), title, ONLY)).edit);
const planned = (text: string) => after(text, /^Bench: write the order/);

describe("the bench's actions on measured notes", () => {
  it("write the order of work above them, changing nothing else, and again in its place", async () => {
    const once = await planned(MEASURED);
    expect(once).toMatch(
      /^# what came out of the printer\n# bench: Readings at 22 °C.*\n# bench 1: .* should read .*\n(# bench.*\n)*measured:\n/m,
    );
    expect(once.replace(/^# bench.*\n/gm, "")).toBe(MEASURED);
    expect(await planned(once)).toBe(once);
  });

  it("write the first step as done, and take out what was measured before", async () => {
    const done = await after(MEASURED, /^Bench: the first step is done/);
    expect(done).toMatch(/^measured:\n {2}\[\]$/m);
    const changed = done.split("\n").filter((line) => !MEASURED.split("\n").includes(line));
    expect(changed).toEqual([expect.stringMatching(/name: R3, at: 321\.4, diameter: (6\.[6-9]|7)[.\d]* }/), "  []"]);
  });

  it("write no comments into JSON", async () => {
    const json = `{"borewright":1,"family":"rim","key":"G4","mouth":{"cover":0.6},"bore":[{"at":0,"diameter":18},{"at":390,"diameter":18}],"wall":3,
      "measured":[{"note":"G4","cents":-12}]}`;
    const { context, position } = atCursor(marked(json, "measured", 2), {
      uri: JSON_URI,
      client: { resolvesCodeActions: true },
    });
    const range = { start: position, end: position };
    const actions = await codeActions(context, { range, context: { diagnostics: [], only: ONLY } });
    const titles = actions.map(({ title }) => title).filter((title) => title.startsWith("Bench"));
    expect(titles).toEqual([expect.stringMatching(/^Bench: the first step is done/)]);
  });
});

describe("the bench's action on `bench`", () => {
  it("brings the design in tune and draws it flat, as the command does", async () => {
    const text = `${WHISTLE}bench: { holesFlat: 25, lengthFlat: 16, room: 8 }\n`;
    const action = await chosen(atCursor(marked(text, "bench:", 2)), /^Bench: bring it into tune and draw/, ONLY);
    const flat = applied(text, action.edit);
    expect(flat).toBe(drawnFlatForBench(fileOf(text), 0).text);
    expect(flat).not.toBe(text);
  });

  it("is not offered where the design does not say how flat", async () => {
    const text = `${WHISTLE}bench: { room: 8 }\n`;
    const { context, position } = atCursor(marked(text, "bench:", 2));
    const range = { start: position, end: position };
    const actions = await codeActions(context, { range, context: { diagnostics: [] } });
    expect(actions.map(({ title }) => title).join()).not.toContain("draw mouth");
  });
});
