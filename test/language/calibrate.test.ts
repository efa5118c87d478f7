/** Calibration in the editor: the action on `measured`, and how a calibrated design shows itself. */

import { describe, expect, it } from "vitest";
import { MarkupContent } from "vscode-languageserver";
import { codeActions } from "../../server/src/language/codeActions/index.js";
import { codeLenses } from "../../server/src/language/codeLens.js";
import { hover } from "../../server/src/language/hover/index.js";
import { WHISTLE } from "../support/designs.js";
import { applied, atCursor, designOf, marked, titled } from "../support/language.js";

const MEASURED = `${WHISTLE}measured:   # one evening in the workshop
  - { note: G4, hz: 384.2, temperature: 21 }
  - { note: D5, hz: 573.9, temperature: 21 }
`;

function actionsAt(text: string, place: string) {
  const { context, position } = atCursor(marked(text, place, 2));
  return codeActions(context, { range: { start: position, end: position }, context: { diagnostics: [] } });
}

function hoverText(text: string, place: string): string {
  const { context, position } = atCursor(marked(text, place, 2));
  const contents = hover(context, position)?.contents;
  return MarkupContent.is(contents) ? contents.value : "";
}

const summary = (text: string) => codeLenses(designOf(text))[0]?.command?.title;

describe("calibrating in the editor", async () => {
  it.each(["measured:", "{ note: D5, hz: 573.9"])(
    "is offered on %s, with what it will write and leave",
    async (place) => {
      const action = titled(await actionsAt(MEASURED, place), /^Calibrate /);
      expect(action.title).toMatch(
        /^Calibrate the mouth to the measured notes \(extra \d\.\d+ mm; residual \d+\.\d cents\)$/,
      );
      const extra = /extra (\d\.\d+) mm/.exec(action.title)?.[1];
      expect(applied(MEASURED, action.edit)).toBe(MEASURED.replace("cutUp: 4.5 }", `cutUp: 4.5 }\n  extra: ${extra}`));
    },
  );

  it("is offered nowhere else, nor where nothing is left to do", async () => {
    expect((await actionsAt(MEASURED, "key: G4")).some(({ title }) => /calibrate/i.test(title))).toBe(false);
    const done = applied(MEASURED, titled(await actionsAt(MEASURED, "measured:"), /^Calibrate /).edit);
    expect((await actionsAt(done, "measured:")).some(({ title }) => /calibrate/i.test(title))).toBe(false);
  });

  it("shows on every surface once it is done", async () => {
    const done = applied(MEASURED, titled(await actionsAt(MEASURED, "measured:"), /^Calibrate /).edit);
    expect(summary(MEASURED)).not.toContain("calibrated");
    expect(summary(done)).toMatch(/ · calibrated$/);
    expect(hoverText(MEASURED, "degree: 2")).toContain("Calibrate it to the `measured` notes");
    expect(hoverText(done, "degree: 2")).toContain("Calibrated: the mouth is a measured one (`mouth.extra`)");
    expect(hoverText(MEASURED, "measured:")).toContain("Not calibrated yet");
    expect(hoverText(done, "measured:")).toContain("**Calibrated.**");
  });

  it("narrows the band of every fingering", async () => {
    const width = (text: string) => Number(/Sure to ±(\d+) cents/.exec(hoverText(text, "degree: 2"))?.[1]);
    const done = applied(MEASURED, titled(await actionsAt(MEASURED, "measured:"), /^Calibrate /).edit);
    expect(width(MEASURED)).toBeGreaterThan(20);
    expect(width(done)).toBeLessThan(width(MEASURED) - 5);
  });
});
