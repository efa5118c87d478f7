/** Calibration in the editor: the action on `measured`, and how a calibrated design shows itself. */

import { describe, expect, it } from "vitest";
import { MarkupContent } from "vscode-languageserver";
import { codeActions } from "../../server/src/language/codeActions/index.js";
import { codeLenses } from "../../server/src/language/codeLens.js";
import { hover } from "../../server/src/language/hover/index.js";
import { WHISTLE } from "../support/designs.js";
import { panPipe, vessel } from "../support/families.js";
import { applied, atCursor, designOf, marked, titled } from "../support/language.js";

const MEASURED = `${WHISTLE}measured:   # one evening in the workshop
  - { note: G4, hz: 384.2, temperature: 21 }
  - { note: D5, hz: 573.9, temperature: 21 }
`;

function actionsAt(text: string, place: string) {
  // A key's rekeyings are worked out once they are chosen.
  const { context, position } = atCursor(marked(text, place, 2), { client: { resolvesCodeActions: true } });
  return codeActions(context, { range: { start: position, end: position }, context: { diagnostics: [] } });
}

function hoverText(text: string, place: string): string {
  const { context, position } = atCursor(marked(text, place, 2));
  const contents = hover(context, position)?.contents;
  return MarkupContent.is(contents) ? contents.value : "";
}

const summary = (text: string) => codeLenses(designOf(text))[0]?.command?.title;

const PIPES = panPipe("measured:\n  - { note: C5, hz: 520.1 }\n  - { note: E5, hz: 655.3 }");
const VESSEL = vessel(
  "fingerings: [{ note: C5, holes: ●● }, { note: E5, holes: ○● }]\nholes: [{ diameter: 6 }, { diameter: 5 }]\nmeasured:\n  - { note: C5, hz: 380.1 }\n  - { note: E5, hz: 468.2 }",
);

describe.each([
  [
    "a pan pipe",
    PIPES,
    /^Calibrate the mouth of all pipes to the measured notes \(extra −?\d+\.\d+ mm; residual /,
    "note: D5",
  ],
  ["a vessel", VESSEL, /^Calibrate the mouth to the measured notes \(extra −?\d+\.\d+ mm; residual /, "holes: ○●"],
] as const)("calibrating %s in the editor", (_, text, title, place) => {
  let once: Promise<string> | undefined;
  const done = () => {
    once ??= actionsAt(text, "measured:").then((actions) => applied(text, titled(actions, /^Calibrate /).edit));
    return once;
  };

  it("is one action, which writes what its title says and keeps the rest", async () => {
    const action = titled(await actionsAt(text, "measured:"), title);
    const extra = /extra (−?\d+\.\d+) mm/.exec(action.title)?.[1]?.replace("−", "-");
    const after = applied(text, action.edit);
    expect(after).toContain(`extra: ${extra}`);
    const blank = (design: string) => design.replace(/^mouth: .*\n(?: {2}extra: .*\n)?/m, "");
    expect(blank(after)).toBe(blank(text));
    expect((await actionsAt(after, "measured:")).some((other) => /calibrate/i.test(other.title))).toBe(false);
  });

  it("shows on every surface once it is done, and narrows the band", async () => {
    const after = await done();
    expect(summary(text)).not.toContain("calibrated");
    expect(summary(after)).toMatch(/ · calibrated$/);
    expect(hoverText(text, "borewright:")).toContain("Calibrate it to the `measured` notes by the light bulb there");
    expect(hoverText(after, "mouth:")).toContain("Calibrated: the mouth is a measured one (`mouth.extra`)");
    expect(hoverText(text, "measured:")).toContain("Not calibrated yet");
    expect(hoverText(after, "measured:")).toContain("**Calibrated.**");
    expect(hoverText(text, "measured:")).toMatch(/^\| C5 \| [\d.]+ Hz \|.*\|$/m);
    const width = (design: string) => Number(/Good to (?:±|−\d+ to \+)(\d+) cents/.exec(hoverText(design, place))?.[1]);
    expect(width(after)).toBeLessThan(width(text) - 5);
  });

  it("says how to measure where nothing is measured", () => {
    expect(hoverText(text.replace(/^measured:\n(?: .*\n)*/m, ""), "borewright:")).toContain(
      "Measure some notes on a print, list them under `measured`, and calibrate.",
    );
  });
});

describe("calibrating in the editor", async () => {
  let once: Promise<string> | undefined;
  const calibrated = () => {
    once ??= actionsAt(MEASURED, "measured:").then((actions) => applied(MEASURED, titled(actions, /^Calibrate /).edit));
    return once;
  };

  it.each(["measured:", "{ note: D5, hz: 573.9"])(
    "is offered on %s, with what it will write and leave",
    async (place) => {
      const action = titled(await actionsAt(MEASURED, place), /^Calibrate /);
      expect(action.title).toMatch(
        /^Calibrate the mouth to the measured notes \(extra \d\.\d+ mm; residual \d+\.\d cents\)$/,
      );
      const extra = /extra (\d\.\d+) mm/.exec(action.title)?.[1];
      expect(applied(MEASURED, action.edit)).toBe(
        MEASURED.replace("cutUp: 4.5, labium: 1 }", `cutUp: 4.5, labium: 1 }\n  extra: ${extra}`),
      );
    },
  );

  it("is not offered elsewhere, or where nothing is left to do", async () => {
    expect((await actionsAt(MEASURED, "key: G4")).some(({ title }) => /calibrate/i.test(title))).toBe(false);
    const done = await calibrated();
    expect((await actionsAt(done, "measured:")).some(({ title }) => /calibrate/i.test(title))).toBe(false);
  });

  it("shows on every surface once it is done", async () => {
    const done = await calibrated();
    expect(summary(MEASURED)).not.toContain("calibrated");
    expect(summary(done)).toMatch(/ · calibrated$/);
    expect(hoverText(MEASURED, "mouth:")).toContain("Calibrate it to the `measured` notes");
    expect(hoverText(done, "mouth:")).toContain("Calibrated: the mouth is a measured one (`mouth.extra`)");
    expect(hoverText(MEASURED, "measured:")).toContain("Not calibrated yet");
    expect(hoverText(done, "measured:")).toContain("**Calibrated.**");
  });

  it("narrows the band of every fingering", async () => {
    const width = (text: string) =>
      Number(/Good to (?:±|−\d+ to \+)(\d+) cents/.exec(hoverText(text, "degree: 2"))?.[1]);
    const done = await calibrated();
    expect(width(MEASURED)).toBeGreaterThan(20);
    expect(width(done)).toBeLessThan(width(MEASURED) - 5);
  });
});
