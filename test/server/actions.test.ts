/** The light bulb and the command over the wire: offered, resolved, applied; or refused in words. */
import { describe, expect, it } from "vitest";
import { CancellationTokenSource, type CodeAction, type WorkspaceEdit } from "vscode-languageserver/node";
import { type Client, client, PULLING, URI } from "../support/client.js";
import { checked, WHISTLE } from "../support/designs.js";
import { applied, titled } from "../support/language.js";
import { played } from "../support/played.js";

/** With some room: a print scale moves every note alike and leaves their scatter, under ten cents here, as it was. */
const TUNED = WHISTLE.replace("at: 210.3", "at: 205.3").replace("tolerance: 10", "tolerance: 12");
const textDocument = { uri: URI };

function actionsOnKey(self: Client, text: string): Promise<CodeAction[]> {
  const line = text.split("\n").findIndex((each) => each.startsWith("key:"));
  const range = { start: { line, character: 5 }, end: { line, character: 5 } };
  return self.connection.sendRequest("textDocument/codeAction", {
    textDocument,
    range,
    context: { diagnostics: [] },
  });
}

const resolved = (self: Client, action: CodeAction) =>
  self.connection.sendRequest<CodeAction>("codeAction/resolve", action);

function rekeyBy(self: Client, given: object): Promise<{ applied: boolean; message: string }> {
  return self.connection.sendRequest("workspace/executeCommand", {
    command: "borewright.rekey",
    arguments: [{ uri: URI, documentIndex: 0, note: "A4", by: "print-scale", ...given }],
  });
}

describe("a rekeying by the light bulb", () => {
  it.each([/^Rekey to A4 by print scale/, /^Rekey to F4 by redraw/, /^Refit to F#4/])(
    "%s: comes without its edit, gets it when chosen, and leaves the design in tune in the new key",
    async (title) => {
      const self = await client(PULLING);
      self.open(TUNED);
      const action = titled(await actionsOnKey(self, TUNED), title);
      expect(action.edit).toBeUndefined();
      const { edit } = await resolved(self, action);
      expect(edit?.documentChanges?.[0]).toMatchObject({ textDocument: { uri: URI, version: 1 } });
      const { analysis } = checked(applied(TUNED, edit, URI));
      expect(action.title).toContain(` ${analysis.instrument.key?.name} `);
      expect(analysis.instrument.key?.name).not.toBe("G4");
      expect(analysis.summary?.outOfTune).toBe(0);
    },
  );

  it("comes as a command to a client that cannot resolve edits, and rekeys as well", async () => {
    const self = await client({ workspace: { applyEdit: true, workspaceEdit: { documentChanges: true } } });
    self.open(TUNED);
    const { edit, command } = titled(await actionsOnKey(self, TUNED), /^Rekey to A4 by redraw/);
    expect(edit).toBeUndefined();
    await self.connection.sendRequest("workspace/executeCommand", {
      command: command?.command,
      arguments: command?.arguments,
    });
    const { analysis } = checked(applied(TUNED, self.applied[0], URI));
    expect(analysis.instrument.key?.name).toBe("A4");
    expect(analysis.summary?.outOfTune).toBe(0);
  });

  it("comes with its edit to a client that can do neither", async () => {
    const self = await client({});
    self.open(TUNED);
    const { edit, command } = titled(await actionsOnKey(self, TUNED), /^Rekey to A4 by print scale/);
    expect(command).toBeUndefined();
    expect(checked(applied(TUNED, edit, URI)).analysis.instrument.key?.name).toBe("A4");
  });

  it("chosen for a text that has changed since gets no edit at all", async () => {
    const self = await client(PULLING);
    self.open(TUNED);
    const action = titled(await actionsOnKey(self, TUNED), /A4 by print scale/);
    self.change(`# one line more\n${TUNED}`, 2);
    expect((await resolved(self, action)).edit).toBeUndefined();
  });

  it("that is not possible says why", async () => {
    const self = await client(PULLING);
    self.open(TUNED);
    const action = titled(await actionsOnKey(self, TUNED), /A4 by redraw/);
    const data = { ...action.data, documentIndex: 3 };
    await expect(resolved(self, { ...action, data })).rejects.toThrow(/no instrument 4/);
  });

  it("that leaves notes out of tune says what stands in its way, with a button where the editor has them", async () => {
    // The foot fixed far off: no hole brings the lowest notes back.
    const stuck = WHISTLE.replace("at: 394.1, diameter: =tube", "at: 420, diameter: =tube, fixed: true");
    const range = { start: { line: 0, character: 0 }, end: { line: stuck.split("\n").length, character: 0 } };
    const params = { textDocument: { uri: URI }, range, context: { diagnostics: [] } };
    for (const buttons of [true, false]) {
      const self = await client(buttons ? { ...PULLING, window: { showMessage: {} } } : PULLING);
      const told = new Promise<string>((resolve) => {
        self.connection.onRequest("window/showMessageRequest", ({ message }) => {
          resolve(message);
          return null;
        });
        self.connection.onNotification("window/showMessage", ({ message }) => resolve(message));
      });
      self.open(stuck);
      const offered = await self.connection.sendRequest<CodeAction[]>("textDocument/codeAction", params);
      await resolved(self, titled(offered, /^Bring every note into tune/));
      expect(await told).toMatch(/worst note .*Held back by/);
    }
  });

  it("of another extension is returned unchanged", async () => {
    const self = await client(PULLING);
    const foreign = { title: "Another's", data: { uri: URI } };
    expect(await resolved(self, foreign)).toEqual(foreign);
  });
});

describe("the correction for the next print by the light bulb on measured notes", () => {
  it("is one change of one document: mouth fitted, notes in tune with it, the measured ones set aside, all else kept", async () => {
    const long = WHISTLE.replace(/^( +window: .*)$/m, "$1\n  extra: 1.5");
    const notes = played(long).map(({ note, hz }) => `  - { note: ${note}, hz: ${hz}, temperature: 22 }   # by ear\n`);
    const text = `${WHISTLE}measured:\n${notes.join("")}`;
    const self = await client(PULLING);
    self.open(text);
    const line = text.split("\n").indexOf("measured:");
    const range = { start: { line, character: 2 }, end: { line, character: 2 } };
    const params = { textDocument, range, context: { diagnostics: [] } };
    const offered = await self.connection.sendRequest<CodeAction[]>("textDocument/codeAction", params);
    const action = titled(offered, /^Correct for the next print: calibrate, then bring every note into tune$/);
    expect(action.edit).toBeUndefined();
    const { edit } = await resolved(self, action);
    // One change, so that one undo takes it back.
    expect(edit?.documentChanges).toEqual([
      { textDocument: { uri: URI, version: 1 }, edits: expect.arrayContaining([]) },
    ]);
    const after = applied(text, edit, URI);
    expect(Number(/extra: ([\d.]+)/.exec(after)?.[1])).toBeCloseTo(1.5, 1);
    const { analysis } = checked(after);
    expect(analysis.instrument.measured).toEqual([]);
    expect(analysis.summary?.outOfTune).toBe(0);
    // As drawn it would not be: the mouth alone puts every note off.
    expect(checked(long).analysis.summary?.outOfTune).toBeGreaterThan(3);
    expect(after.match(/# by ear/g)).toHaveLength(notes.length);
    expect(after).toContain("# harbour workshop");
    self.change(after, 2);
    const again = await self.connection.sendRequest<CodeAction[]>("textDocument/codeAction", params);
    expect(again.some(({ title }) => title === action.title)).toBe(false);
  });
});

describe("the command", () => {
  it("says so when the editor rejects the change", async () => {
    const self = await client(PULLING);
    self.connection.onRequest("workspace/applyEdit", () => ({ applied: false, failureReason: "read-only" }));
    self.open(TUNED);
    const answer = await rekeyBy(self, {});
    expect(answer).toEqual({ applied: false, message: expect.stringContaining("read-only") });
  });

  it("tells in one line what was done, and names the text's version in the edit", async () => {
    const self = await client(PULLING);
    const edits: WorkspaceEdit[] = [];
    self.connection.onRequest("workspace/applyEdit", ({ edit }) => {
      edits.push(edit);
      return { applied: true };
    });
    self.open(TUNED);
    const { message } = await rekeyBy(self, {});
    const scale = /scale: ([\d.]+) %/.exec(applied(TUNED, edits[0], URI))?.[1];
    expect(message).toContain(`G4 to A4: print at ${scale} %`);
    expect(edits[0]?.documentChanges?.[0]).toMatchObject({ textDocument: { uri: URI, version: 1 } });
  });

  it.each([
    ["a design that is not open", { uri: "file:///work/closed.bore.yaml" }, /not open/],
    ["an instrument that is not there", { documentIndex: 3 }, /no instrument 4/],
    ["an unknown way", { by: "magic" }, /is not a way to rekey/],
  ])("refuses %s in words, and applies nothing", async (_, given, words) => {
    const self = await client(PULLING);
    self.open(TUNED);
    await expect(rekeyBy(self, given)).rejects.toThrow(words);
    expect(self.applied).toEqual([]);
  });

  it("once cancelled applies nothing, and the next one works", async () => {
    const self = await client(PULLING);
    self.open(TUNED);
    const source = new CancellationTokenSource();
    const params = { command: "borewright.rekey", arguments: [{ uri: URI, note: "A4" }] };
    const request = self.connection.sendRequest("workspace/executeCommand", params, source.token);
    source.cancel();
    await expect(request).rejects.toMatchObject({ code: -32800 }); // RequestCancelled of the protocol
    expect(self.applied).toEqual([]);
    expect(await rekeyBy(self, {})).toMatchObject({ applied: true });
    expect(self.applied).toHaveLength(1);
  });
});
