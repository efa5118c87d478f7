/** The action that switches a finding off: what it writes, and that the finding is gone and nothing else has changed. */
import { describe, expect, it } from "vitest";
import { CodeActionKind } from "vscode-languageserver";
import { codeActions } from "../../server/src/language/codeActions/index.js";
import { diagnostics } from "../../server/src/language/diagnostics.js";
import { WHISTLE } from "../support/designs.js";
import { applied, atCursor, designOf, type Given, JSON_URI, marked, titled } from "../support/language.js";

const TUNED = WHISTLE.replace("at: 210.3", "at: 205.3");
const WIDE = TUNED.replace("holes:", "hands: { fingertip: 8 }\nholes:");
const CODE = "hands/hole-too-wide";
const TITLE = /^Switch off hands\/hole-too-wide in this design$/;

function actionsAt(
  text: string,
  place: string,
  given: Given = {},
  only: readonly string[] = [CodeActionKind.QuickFix],
) {
  const { context, position } = atCursor(marked(text, place), given);
  const at = { start: position, end: position };
  return codeActions(context, { range: at, context: { diagnostics: diagnostics(context), only: [...only] } });
}

const codes = (text: string, given: Given = {}) => diagnostics(designOf(text, given)).map(({ code }) => code);

describe("Switch off … in this design", () => {
  it("writes an entry under rules, after which the finding is gone", async () => {
    const action = titled(await actionsAt(WIDE, "8.5 }   # too"), TITLE);
    expect(action.diagnostics?.map(({ code }) => code)).toContain(CODE);
    const after = applied(WIDE, action.edit);
    expect(after).toBe(`${WIDE}rules: { hands/hole-too-wide: off }\n`);
    expect(codes(WIDE)).toContain(CODE);
    expect(codes(after)).not.toContain(CODE);
  });

  it.each([
    ["rules: { print/wall-lines: error }\n", "rules: { print/wall-lines: error, hands/hole-too-wide: off }\n"],
    [
      "rules:\n  print/wall-lines: error   # mine\n",
      "rules:\n  print/wall-lines: error   # mine\n  hands/hole-too-wide: off\n",
    ],
    ["rules: { hands/hole-too-wide: error }\n", "rules: { hands/hole-too-wide: off }\n"],
    ["rules:\n  hands/hole-too-wide: 'error'\n", "rules:\n  hands/hole-too-wide: 'off'\n"],
    ["rules: {}\n", "rules: { hands/hole-too-wide: off }\n"],
  ])("goes on with the entries that are there: %j", async (before, expected) => {
    const text = `${WIDE}${before}`;
    const after = applied(text, titled(await actionsAt(text, "8.5 }   # too"), TITLE).edit);
    expect(after).toBe(`${WIDE}${expected}`);
    expect(codes(after)).not.toContain(CODE);
  });

  it("writes JSON where the design is JSON", async () => {
    const text = `{ "borewright": 1, "name": "x", "fingerings": [{ "holes": "" }] }`;
    const action = titled(await actionsAt(text, '"holes"', { uri: JSON_URI }), /^Switch off fingering\/no-target/);
    const after = applied(text, action.edit, JSON_URI);
    expect(JSON.parse(after).rules).toEqual({ "fingering/no-target": "off" });
    expect(codes(after, { uri: JSON_URI })).not.toContain("fingering/no-target");
  });

  it("is offered on the finding only, once, and not for what cannot be switched off or has a fix", async () => {
    const titlesAt = async (text: string, place: string) =>
      (await actionsAt(text, place)).map(({ title }) => title).filter((title) => title.startsWith("Switch off"));
    expect(await titlesAt(WIDE, "name: Test")).toEqual([]);
    expect(await titlesAt(WIDE, "8.5 }   # too")).toHaveLength(1);
    expect(await titlesAt(WHISTLE, "210.3")).toEqual([]);
    expect(await titlesAt(TUNED.replace("=wall", "=no"), "=no")).toEqual([]);
  });

  it("is a quick fix, and no other kind", async () => {
    expect(
      (await actionsAt(WIDE, "8.5 }   # too", {}, [CodeActionKind.Refactor])).map(({ title }) => title),
    ).not.toContainEqual(expect.stringMatching(TITLE));
  });

  it("offers nothing where rules is not a map", async () => {
    const text = `${WIDE}rules: quiet\n`;
    expect((await actionsAt(text, "8.5 }   # too")).map(({ title }) => title)).not.toContainEqual(
      expect.stringMatching(TITLE),
    );
  });
});
