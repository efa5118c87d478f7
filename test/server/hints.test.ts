/** Hints and lenses that act: what a click on them asks of the server, and what the server then does. */
import { describe, expect, it, vi } from "vitest";
import type { CodeLens, InlayHint, InlayHintLabelPart, WorkspaceEdit } from "vscode-languageserver/node";
import { TextDocument } from "vscode-languageserver-textdocument";
import { spentAfter } from "../../server/src/acoustics/work.js";
import { HeldHints } from "../../server/src/language/heldHints.js";
import { type Client, client, PULLING, URI, until } from "../support/client.js";
import { WHISTLE } from "../support/designs.js";
import { applied, hintText } from "../support/language.js";

const RESOLVING = {
  ...PULLING,
  textDocument: {
    ...PULLING.textDocument,
    inlayHint: { resolveSupport: { properties: ["tooltip", "label.tooltip", "label.location", "label.command"] } },
  },
  workspace: { ...PULLING.workspace, applyEdit: true },
};
const range = { start: { line: 0, character: 0 }, end: { line: 999, character: 0 } };

async function hintsOf({ connection }: Client): Promise<InlayHint[]> {
  return connection.sendRequest("textDocument/inlayHint", { textDocument: { uri: URI }, range });
}
const parts = ({ label }: InlayHint) => label as InlayHintLabelPart[];
const found = (hints: readonly InlayHint[], text: RegExp) => {
  const hint = hints.find((each) => text.test(hintText(each)));
  if (hint === undefined) throw new Error(`no hint ${text}`);
  return hint;
};
const click = (self: Client, { command, arguments: args }: { command: string; arguments?: unknown[] }) =>
  self.connection.sendRequest("workspace/executeCommand", { command, arguments: args });
const lineOf = (text: string, place: string) =>
  TextDocument.create(URI, "", 0, text).positionAt(text.indexOf(place)).line;

describe("inlay hints", () => {
  it("are light, and resolved lead to the hole and make the fix that they name", async () => {
    const self = await client(RESOLVING);
    expect(self.result.capabilities.inlayHintProvider).toEqual({ resolveProvider: true });
    self.open(WHISTLE);
    const hints = await hintsOf(self);
    const flat = found(hints, /^E5 .*, flat$/);
    expect(flat.tooltip).toBeUndefined();
    expect(parts(flat)).toEqual([{ value: "E5 " }, { value: expect.stringMatching(/^−.* cents, flat$/) }]);
    const resolved = await self.connection.sendRequest<InlayHint>("inlayHint/resolve", flat);
    expect(hintText(resolved)).toBe(hintText(flat));
    const [name, deviation] = parts(resolved);
    expect(name?.location?.range.start.line).toBe(lineOf(WHISTLE, "name: L2"));
    expect(deviation?.command?.title).toMatch(/L2/);
    expect(deviation?.tooltip).toBe(deviation?.command?.title);
    await click(self, deviation?.command as never);
    self.change(applied(WHISTLE, self.applied[0], URI), 2);
    expect(hintText(found(await hintsOf(self), /^E5 /))).toMatch(/✓$/);
  });

  it("of a note in tune change nothing, and name the hole opened for it", async () => {
    const self = await client(RESOLVING);
    self.open(WHISTLE);
    const good = found(await hintsOf(self), /^A4 .*✓$/);
    const resolved = await self.connection.sendRequest<InlayHint>("inlayHint/resolve", good);
    expect(parts(resolved).map(({ command }) => command)).toEqual([undefined, undefined]);
    expect(parts(resolved)[0]?.location?.range.start.line).toBe(lineOf(WHISTLE, "name: R3"));
    const lowest = await self.connection.sendRequest<InlayHint>(
      "inlayHint/resolve",
      found(await hintsOf(self), /^G4 /),
    );
    expect(parts(lowest)[0]?.location?.range.start.line).toBe(lineOf(WHISTLE, "bore:") + 1);
  });

  it("come complete to a client that cannot resolve them", async () => {
    const self = await client({ ...PULLING, workspace: { ...PULLING.workspace, applyEdit: true } });
    self.open(WHISTLE);
    const hole = found(await hintsOf(self), /^worst .*E5.*flat/);
    expect(hole.tooltip).toContain("L2 is the first open hole");
    expect(parts(hole)[1]?.location?.range.start.line).toBe(lineOf(WHISTLE, "degree: 6"));
    await click(self, parts(hole)[0]?.command as never);
    expect(self.applied).toHaveLength(1);
  });

  it("do nothing for a text that has changed since, and say so", async () => {
    const self = await client(RESOLVING);
    const told: string[] = [];
    self.connection.onNotification("window/showMessage", ({ message }) => void told.push(message));
    self.open(WHISTLE);
    const flat = found(await hintsOf(self), /^E5 .*flat/);
    const { command } = parts(await self.connection.sendRequest<InlayHint>("inlayHint/resolve", flat))[1] ?? {};
    self.change(WHISTLE.replace("at: 394.1", "at: 390"), 2);
    await click(self, command as never);
    await until(() => told.length > 0);
    expect(told[0]).toContain("Nothing was changed");
    expect(self.applied).toEqual([]);
    expect(await self.connection.sendRequest("inlayHint/resolve", flat)).toEqual(flat);
  });
});

describe("code lenses", () => {
  it.each([
    ["a design", WHISTLE],
    ["one without fingerings", "borewright: 1\nwall: 3\n"],
    ["an empty file", "\n"],
  ])("of %s all name a command that the client or the server carries out", async (_, text) => {
    const self = await client(RESOLVING);
    self.open(text);
    const lenses = await self.connection.sendRequest<CodeLens[]>("textDocument/codeLens", {
      textDocument: { uri: URI },
    });
    const known = [...(self.result.capabilities.executeCommandProvider?.commands ?? []), "borewright.rekeyTo"];
    for (const { command } of lenses) expect(known).toContain(command?.command);
    expect(lenses.length > 0).toBe(text.trim() !== "");
  });

  it("lead from the summary to the worst note, or say where it is", async () => {
    for (const showDocument of [{ support: true }, undefined]) {
      const self = await client({ ...RESOLVING, window: { showDocument } });
      const shown: { selection: WorkspaceEdit }[] = [];
      const told: string[] = [];
      self.connection.onRequest("window/showDocument", (params) => {
        shown.push(params);
        return { success: true };
      });
      self.connection.onNotification("window/showMessage", ({ message }) => void told.push(message));
      self.open(WHISTLE);
      const [summary] = await self.connection.sendRequest<CodeLens[]>("textDocument/codeLens", {
        textDocument: { uri: URI },
      });
      await click(self, summary?.command as never);
      const line = lineOf(WHISTLE, "degree: 6");
      if (showDocument === undefined) expect(told).toEqual([expect.stringContaining(`E5 stands on line ${line + 1}.`)]);
      else
        expect(shown).toEqual([
          {
            uri: URI,
            takeFocus: true,
            selection: expect.objectContaining({ start: expect.objectContaining({ line }) }),
          },
        ]);
    }
  });
});

it("hints are made before remedies are sought for the findings that were asked for first", async () => {
  const self = await client(PULLING);
  self.open(WHISTLE);
  // However long it takes here, it is a short piece of work that nothing interrupts.
  vi.spyOn(performance, "now").mockReturnValue(0);
  const { shown } = HeldHints.prototype;
  let workedSince = () => false;
  vi.spyOn(HeldHints.prototype, "shown").mockImplementation(function (this: HeldHints, ...given) {
    workedSince = spentAfter(0);
    return shown.apply(this, given);
  });
  const ask = (method: string, more: object) =>
    self.connection.sendRequest(method, { textDocument: { uri: URI }, ...more });
  await Promise.all([ask("textDocument/diagnostic", {}), ask("textDocument/inlayHint", { range })]);
  vi.restoreAllMocks();
  expect(workedSince()).toBe(true);
});
