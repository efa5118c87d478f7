/** The light bulb: what it offers, where, and what the text is once an offer is taken. */

import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { type AnnotatedTextEdit, type CodeAction, CodeActionKind, type Diagnostic } from "vscode-languageserver";
import { checkDocument } from "../../server/src/design/check.js";
import { OUT_OF_TUNE } from "../../server/src/design/rules/outOfTune.js";
import { codeActions, recipeOf, resolveCodeAction } from "../../server/src/language/codeActions/index.js";
import { diagnostics } from "../../server/src/language/diagnostics.js";
import { documentOf, fileOf, WHISTLE } from "../support/designs.js";
import { applied, atCursor, chosen, type Given, marked, titled, YAML_URI } from "../support/language.js";

interface Asked extends Given {
  readonly only?: string[];
  readonly diagnostics?: readonly Diagnostic[];
}

/** The actions with the cursor `after` signs behind the first place where `place` stands, each with its edit. */
function actionsAt(text: string, place: string, after = 0, asked: Asked = {}): Promise<CodeAction[]> {
  const { context, position } = atCursor(marked(text, place, after), asked);
  const { only } = asked;
  const given = { diagnostics: [...(asked.diagnostics ?? [])], ...(only === undefined ? {} : { only }) };
  return codeActions(context, { range: { start: position, end: position }, context: given });
}

/** The same for a client that asks for an edit once its action is chosen. */
const offeredAt = (text: string, place: string, after = 0, asked: Asked = {}) =>
  actionsAt(text, place, after, { ...asked, client: { resolvesCodeActions: true, ...asked.client } });

const chosenAt = (text: string, place: string, title: RegExp, after = 0) =>
  chosen(atCursor(marked(text, place, after)), title);

const titles = (actions: readonly CodeAction[]) => actions.map(({ title }) => title);

function analysisOf(text: string) {
  return checkDocument(documentOf(fileOf(text))).analysis;
}

/** Lines that differ, as `old → new`. */
function changedLines(before: string, after: string): string[] {
  const [old, now] = [before.split("\n"), after.split("\n")];
  expect(now).toHaveLength(old.length);
  return old.flatMap((line, i) => (line === now[i] ? [] : [`${line.trim()} → ${now[i]?.trim()}`]));
}

describe("on the key", async () => {
  const actions = await actionsAt(WHISTLE, "key: G4", 6);

  it("offers the two semitones around it by print scale and by redraw, with the size in the title", async () => {
    const offered = titles(actions);
    for (const note of ["F4", "F#4", "Ab4", "A4"]) {
      expect(offered).toContainEqual(expect.stringMatching(new RegExp(`^Rekey to ${note} by print scale \\(\\d`)));
      expect(offered).toContainEqual(expect.stringMatching(new RegExp(`^Rekey to ${note} by redraw .*× \\d`)));
      expect(offered).toContainEqual(expect.stringContaining(`Refit to ${note} `));
    }
    // What the title says is what the edit writes, to the digit shown.
    const { title, edit } = titled(actions, /F4 by print scale/);
    const written = Number(/scale: ([\d.]+) %/.exec(applied(WHISTLE, edit))?.[1]);
    expect(Number(/\(([\d.]+) %\)/.exec(title)?.[1])).toBeCloseTo(written, 0);
    // Equal temperament: two semitones are a factor of 2^(2/12) = 1.1225; this whistle is a little flat besides.
    expect(Math.abs(written - 112.25)).toBeLessThan(2);
    for (const { kind } of actions) expect(kind).toBe(CodeActionKind.RefactorRewrite);
  });

  it("says of a refit whether bore and mouth stay or grow", async () => {
    const grows = await offeredAt(`${WHISTLE}refit: { growth: 0.75 }\n`, "key: G4", 6);
    expect(titled(actions, /^Refit to A4/).title).toMatch(/mouth stay/);
    expect(titled(grows, /^Refit to A4/).title).toMatch(/walls and hands stay; bore, mouth and holes take a share/);
  });

  it("by print scale changes the key, the absolute notes and one number", async () => {
    const text = `${WHISTLE}print: { scale: 100 % }   # as drawn\n`;
    const after = applied(text, (await chosenAt(text, "key: G4", /F4 by print scale/, 6)).edit);
    const changes = changedLines(text, after);
    expect(changes).toHaveLength(3);
    expect(changes[0]).toBe("key: G4 → key: F4");
    expect(changes[1]).toContain("note: C5");
    expect(changes[2]).toMatch(/scale: 11\d\.\d+ % \} {3}# as drawn$/);
    expect(analysisOf(after).summary?.rmsCents).toBeLessThan((analysisOf(text).summary?.rmsCents ?? 0) + 5);
  });

  it("by redraw keeps expressions whose parameters carry the change, and every comment", async () => {
    const after = applied(WHISTLE, titled(actions, /F4 by redraw/).edit);
    expect(after).toContain("wall: =wall");
    expect(after).toContain("diameter: =tube");
    expect(after).toContain("# too far down");
    expect(after).toMatch(/parameters: \{ wall: 3\.\d+, tube: 17\.\d+ \}/); // 16 mm × 1.122 = 17.96 mm
    expect(analysisOf(after).instrument.key?.name).toBe("F4");
  });

  it("offers to ask for any other note where the client can ask", async () => {
    expect(titled(actions, /^Rekey to…$/).command?.arguments).toEqual([{ uri: YAML_URI, documentIndex: 0 }]);
    const without = await offeredAt(WHISTLE, "key: G4", 6, { client: { commands: new Set() } });
    expect(titles(without)).not.toContain("Rekey to…");
    expect(without).toHaveLength(12);
  });

  it("leaves the work for later where the client asks again, and never for an older text", async () => {
    const asked: Asked = { client: { resolvesCodeActions: true } };
    const { context, position } = atCursor(marked(WHISTLE, "key: G4", 6), asked);
    const offered = await codeActions(context, {
      range: { start: position, end: position },
      context: { diagnostics: [] },
    });
    const lazy = titled(offered, /F4 by print scale/);
    expect(lazy).not.toHaveProperty("edit");
    expect(recipeOf(lazy)?.uri).toBe(YAML_URI);
    const eager = titled(actions, /F4 by print scale/);
    const wire = JSON.parse(JSON.stringify(lazy)); // over the wire and back
    expect((await resolveCodeAction(context, wire)).action.edit).toEqual(eager.edit);
    expect((await resolveCodeAction({ ...context, textName: "another" }, wire)).action).not.toHaveProperty("edit");
    expect((await resolveCodeAction(context, { title: "another's" })).action).toEqual({ title: "another's" });
  });

  it("is offered on the second instrument for the second instrument", async () => {
    const text = `${WHISTLE}---\n${WHISTLE.replace("key: G4", "key: A4")}`;
    const after = applied(text, (await chosenAt(text, "key: A4", /G4 by print scale/, 6)).edit);
    expect(after.startsWith(WHISTLE)).toBe(true);
    expect(after.slice(WHISTLE.length)).toContain("key: G4");
  });

  it("offers nothing that cannot be done", async () => {
    expect(await actionsAt(WHISTLE.replace("at: 394.1", "at: =nowhere"), "key: G4", 6)).toEqual([]);
    expect(titles(await actionsAt(WHISTLE.replace("key: G4", "key: H9"), "key: H9", 6))).toEqual(["Write `B9`"]);
  });
});

describe("on what is out of tune", async () => {
  it.each([
    ["the hole's place", "210.3", 2],
    ["the hole's name", "L2", 1],
    ["the fingering", "degree: 6", 3],
  ])("offers the least changes that put it right: %s", async (_, place, after) => {
    const actions = await offeredAt(WHISTLE, place, after);
    const single = actions.filter(({ title }) => !/^(Bring|Finger|Add|Extract)/.test(title));
    expect(titles(single)).toEqual([
      expect.stringMatching(/^Move L2 \d+(\.\d)? mm toward the mouth, so that E5 is in tune$/),
      // What it costs another note is said: a hole's size is felt by those below it.
      expect.stringMatching(/^Open L2 to \d+(\.\d)? mm, so that E5 is in tune, but G4 gets 11 cents flat$/),
    ]);
    expect(actions.filter(({ isPreferred }) => isPreferred)).toHaveLength(1);
    for (const { kind } of single) expect(kind).toBe(CodeActionKind.QuickFix);
  });

  it.each(["Move L2", "Open L2"])("changes one number, after which the note is right: %s", async (title) => {
    const action = await chosenAt(WHISTLE, "210.3", new RegExp(title));
    const after = applied(WHISTLE, action.edit);
    expect(changedLines(WHISTLE, after)).toHaveLength(1);
    const { fingerings, tolerance } = analysisOf(after);
    const e5 = fingerings.find(({ fingering }) => fingering.target?.name === "E5");
    expect(Math.abs(e5?.cents ?? 99)).toBeLessThan(tolerance);
    const left = diagnosticsOf(after).filter(
      ({ code, message }) => code === OUT_OF_TUNE && String(message).startsWith("E5"),
    );
    expect(left).toEqual([]);
    expect(titles(await offeredAt(after, "name: L2"))).toEqual([]);
  });

  it("brings every hole into tune at once, the bore kept, and asks before it does where the client can", async () => {
    const client = { resolvesCodeActions: false, versionedEdits: true, previewsEdits: true };
    const action = titled(await actionsAt(WHISTLE, "210.3", 0, { client }), /^Bring every hole/);
    const notes = action.edit?.changeAnnotations ?? {};
    const [change] = action.edit?.documentChanges ?? [];
    const edits = (change && "edits" in change ? change.edits : []) as AnnotatedTextEdit[];
    // An editor leaves unticked what needs confirmation: that must be no part of the change itself.
    const asking = edits.filter(({ annotationId }) => notes[annotationId]?.needsConfirmation);
    const { start } = asking[0]?.range ?? {};
    expect(asking).toMatchObject([{ newText: "", range: { start, end: start } }]);
    const others = edits.filter((edit) => !asking.includes(edit));
    expect(others.length).toBeGreaterThan(2);
    for (const { annotationId } of others) expect(notes[annotationId]?.label).toBe(action.title);
    const moved = others.find(({ newText }) => newText.startsWith("20"));
    expect(notes[moved?.annotationId ?? ""]?.description).toMatch(/^`at` of L2: 210\.3 → 20\d(\.\d)? mm \(−/);
    const after = applied(WHISTLE, (await chosenAt(WHISTLE, "210.3", /^Bring every hole/)).edit);
    expect(after).toContain("at: 394.1, diameter: =tube");
    for (const { fingering, cents } of analysisOf(after).fingerings)
      if (fingering.pattern?.includes("○")) expect(Math.abs(cents ?? 99)).toBeLessThan(2);
  });

  it("says in the preview which notes a refit leaves weak, before it is made", async () => {
    const text = readFileSync("examples/quay-whistle.bore.yaml", "utf8");
    const client = { resolvesCodeActions: true, versionedEdits: true, previewsEdits: true };
    const { context, position } = atCursor(marked(text, "key: G4", 6), { client });
    const range = { start: position, end: position };
    const offered = await codeActions(context, { range, context: { diagnostics: [] } });
    const recipe = titled(offered, /^Refit to A4/);
    const far = { ...recipe, data: { ...recipe.data, work: { do: "rekey", to: "D5", by: "refit" } } };
    const { action } = await resolveCodeAction(context, far);
    const asking = Object.values(action.edit?.changeAnnotations ?? {}).find(
      ({ needsConfirmation }) => needsConfirmation,
    );
    expect(asking?.description).toMatch(/; G4 to D5: \d+ dimensions changed.*; After this refit [A-G]\S* will be weak/);
  });

  it("does the same for a client that fixes all on saving, without asking", async () => {
    const only = ["source.fixAll"];
    const [action, ...others] = await actionsAt(WHISTLE, "name", 0, { only });
    expect(others).toEqual([]);
    expect(action?.kind).toBe("source.fixAll.borewright");
    expect(action?.edit?.changeAnnotations).toBeUndefined();
    expect(await actionsAt(WHISTLE.replace("at: 210.3", "at: 205.3"), "name", 0, { only })).toEqual([]);
  });

  it("keeps CRLF and everything else byte for byte", async () => {
    const text = WHISTLE.replaceAll("\n", "\r\n");
    const after = applied(text, (await chosenAt(text, "210.3", /Move/)).edit);
    expect(after.replace(/at: 20\d\.\d/, "at: 210.3")).toBe(text);
  });

  it("is linked to its diagnostic, so that the editor shows it in the right place", async () => {
    const found = diagnosticsOf(WHISTLE);
    const [action] = await offeredAt(WHISTLE, "210.3", 0, { diagnostics: found });
    expect(action?.diagnostics).toEqual(found.filter(({ code }) => code === OUT_OF_TUNE));
  });

  it("carries the version of the text, so that it is never applied to another", async () => {
    const [versioned] = await offeredAt(WHISTLE, "210.3");
    expect(versioned?.edit?.documentChanges?.[0]).toMatchObject({ textDocument: { uri: YAML_URI, version: 1 } });
    const [bare] = await offeredAt(WHISTLE, "210.3", 0, { client: { versionedEdits: false } });
    expect(Object.keys(bare?.edit?.changes ?? {})).toEqual([YAML_URI]);
  });
});

describe("anywhere else", async () => {
  it("offers nothing", async () => {
    const lines = WHISTLE.split("\n");
    const { context } = atCursor(marked(WHISTLE, "key"));
    for (const [i, line] of lines.entries()) {
      if (/key:|L2|degree: 6/.test(line)) continue;
      const range = { start: { line: i, character: 0 }, end: { line: i, character: line.length } };
      const offered = titles(await codeActions(context, { range, context: { diagnostics: [] } }));
      // A missing semitone is a fingering's own affair (findFingering.test.ts).
      expect({ line, offered: offered.filter((title) => !title.startsWith("Add a fingering")) }).toEqual({
        line,
        offered: [],
      });
    }
  });

  it("returns only the kinds asked for", async () => {
    expect(await offeredAt(WHISTLE, "key: G4", 6, { only: [CodeActionKind.QuickFix] })).toEqual([]);
    expect(await offeredAt(WHISTLE, "key: G4", 6, { only: [CodeActionKind.Refactor] })).toHaveLength(13);
    expect(await offeredAt(WHISTLE, "210.3", 0, { only: [CodeActionKind.RefactorRewrite] })).toEqual([]);
    expect(await offeredAt(WHISTLE, "210.3", 0, { only: [CodeActionKind.QuickFix] })).toHaveLength(4);
    expect(await offeredAt(WHISTLE, "210.3", 0, { only: [CodeActionKind.SourceOrganizeImports] })).toEqual([]);
  });
});

function diagnosticsOf(text: string): Diagnostic[] {
  return diagnostics(atCursor(marked(text, "key")).context);
}
